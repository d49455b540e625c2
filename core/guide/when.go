package guide

import (
	"strconv"
	"strings"
	"time"

	"newel/core/wall"
)

// Voice is a book as one device wants it read: with its clock, and as of now.
type Voice struct {
	*Book
	Clock12 bool
	Today   wall.Date // the day on the wall: the plan's where there is one, else the device's
}

// narrow joins a number and its unit so that they are not torn apart at the end
// of a line. CLDR writes U+202F between the time and AM or PM.
const narrow = "\u202f"

// Time writes the time of day of t in its own zone: 05:30, or 5:30 AM on a
// twelve-hour clock. Noon and midnight are words there, since nobody is sure what
// 12 AM means, and a fasting time is the last place for a doubt.
func (v Voice) Time(t time.Time) string { return v.Clock(t.Hour(), t.Minute()) }

// Clock writes a time of day given as hour (0–24) and minute.
func (v Voice) Clock(hour, minute int) string {
	if !v.Clock12 {
		return v.Book.clock24(hour, minute)
	}
	switch {
	case minute == 0 && hour%24 == 0:
		return v.Say("time.midnight")
	case minute == 0 && hour == 12:
		return v.Say("time.noon")
	}
	half := "time.am"
	if hour%24 >= 12 {
		half = "time.pm"
	}
	h := hour % 12
	if h == 0 {
		h = 12
	}
	return strconv.Itoa(h) + ":" + pad(minute) + narrow + v.Say(half)
}

func (b *Book) clock24(hour, minute int) string { return pad(hour) + ":" + pad(minute) }

func pad(n int) string {
	if n < 10 {
		return "0" + strconv.Itoa(n)
	}
	return strconv.Itoa(n)
}

// Span writes two times of one day: 07:30–08:00; once where they are the same.
// On a twelve-hour clock AM or PM is said once where both share it.
func (v Voice) Span(from, to time.Time) string {
	if day := wall.DateOf(to); day != wall.DateOf(from) {
		return v.Say("span.days", Arg{"from", v.DayTime(from)}, Arg{"to", v.DayTime(to)})
	}
	a, b := v.Time(from), v.Time(to)
	if a == b {
		return a
	}
	head, halfA, okA := strings.Cut(a, narrow)
	_, halfB, okB := strings.Cut(b, narrow)
	if okA && okB && halfA == halfB {
		a = head
	}
	return a + "–" + b
}

// DayTime writes a day and a time: Tuesday, March 9, 5:30 AM.
func (v Voice) DayTime(t time.Time) string {
	return v.Say("day.time", Arg{"day", v.Day(wall.DateOf(t))}, Arg{"time", v.Time(t)})
}

// ShortDayTime writes the same where room is scarce: Tue, Mar 9, 5:30 AM.
func (v Voice) ShortDayTime(t time.Time) string {
	return v.Say("day.time", Arg{"day", v.ShortDay(wall.DateOf(t))}, Arg{"time", v.Time(t)})
}

// Day writes weekday, month and day: Tuesday, March 9; with the year where it is
// not this year.
func (v Voice) Day(d wall.Date) string {
	return v.day("day.long", "day.long.year", d)
}

// DayYear writes a day with its year, this one or another.
func (v Voice) DayYear(d wall.Date) string { return v.day("day.long.year", "day.long.year", d) }

// Weekday writes the day of the week.
func (v Voice) Weekday(d wall.Date) string { return v.name("weekday", int(d.Weekday()), false) }

// ShortDay writes a day where room is scarce: Tue, Mar 9.
func (v Voice) ShortDay(d wall.Date) string {
	return v.day("day.short", "day.short.year", d)
}

func (v Voice) day(key, withYear string, d wall.Date) string {
	year, month, day := d.YMD()
	short := strings.HasPrefix(key, "day.short")
	args := []Arg{
		{"weekday", v.name("weekday", int(d.Weekday()), short)},
		{"month", v.name("month", month, short)},
		Number("day", day), Number("year", year),
	}
	if now, _, _ := v.Today.YMD(); now != year {
		key = withYear
	}
	return v.Say(key, args...)
}

func (v Voice) name(kind string, n int, short bool) string {
	if short {
		kind += ".short"
	}
	return v.Say(kind + "." + strconv.Itoa(n))
}

// Near writes a day as people near it say it: today, tomorrow, yesterday, or else
// the day.
func (v Voice) Near(d wall.Date) string {
	switch d - v.Today {
	case 0:
		return v.Say("near.today")
	case 1:
		return v.Say("near.tomorrow")
	case -1:
		return v.Say("near.yesterday")
	}
	return v.Day(d)
}
