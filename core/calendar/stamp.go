package calendar

import (
	"strconv"
	"time"

	ical "github.com/emersion/go-ical"

	"newel/core/wall"
	"newel/core/zone"
)

// form is how a time is written.
type form uint8

const (
	local form = iota // DATE-TIME with the plan's TZID
	utc               // DATE-TIME with Z
	date              // DATE
)

// stamp is a time as a calendar file has it. t is always the instant that is meant; of
// a date it is midnight on the plan's wall.
type stamp struct {
	form form
	day  wall.Date
	at   wall.Clock
	t    time.Time
}

// onWall is a time of day of the plan's zone; one that the clocks skip that night is
// written as it is and means what RFC 5545 3.3.5 says.
func onWall(loc *time.Location, day wall.Date, at wall.Clock) (stamp, zone.Fit) {
	t, fit := day.At(loc, at)
	return stamp{local, day, at, t}, fit
}

// instant writes t on the plan's wall, or in UTC where the wall cannot say it: the
// second time that a repeated hour shows it.
func instant(loc *time.Location, t time.Time) stamp {
	w := t.In(loc)
	s, _ := onWall(loc, wall.DateOf(w), wall.Clock(w.Hour()*60+w.Minute()))
	if !s.t.Equal(t) {
		return stamp{form: utc, day: s.day, at: s.at, t: t}
	}
	return s
}

func onDay(loc *time.Location, day wall.Date) stamp {
	t, _ := day.At(loc, 0)
	return stamp{form: date, day: day, t: t}
}

// text writes the value.
func (s stamp) text() string {
	switch s.form {
	case utc:
		return utcText(s.t)
	case date:
		return dateText(s.day)
	}
	hour, minute := s.at.HourMinute()
	return dateText(s.day) + "T" + digits(hour, 2) + digits(minute, 2) + "00"
}

func utcText(t time.Time) string {
	t = t.UTC()
	hour, minute, second := t.Clock()
	return dateText(wall.DateOf(t)) + "T" + digits(hour, 2) + digits(minute, 2) + digits(second, 2) + "Z"
}

func dateText(d wall.Date) string {
	year, month, day := d.YMD()
	return digits(year, 4) + digits(month, 2) + digits(day, 2)
}

// digits writes a number with leading zeros.
func digits(n, width int) string {
	s := strconv.Itoa(n)
	for len(s) < width {
		s = "0" + s
	}
	return s
}

// prop writes a property with the time. TZID must not stand beside a date or a time in
// UTC (RFC 5545 3.2.19).
func (s stamp) prop(name, zone string) *ical.Prop {
	p := &ical.Prop{Name: name, Value: s.text()}
	switch s.form {
	case local:
		p.Params = ical.Params{ical.ParamTimezoneID: {zone}}
	case date:
		p.Params = ical.Params{ical.ParamValue: {"DATE"}}
	}
	return p
}
