package guide

import (
	"strconv"
	"time"

	"newel/core/repeat"
)

// pattern says which days a rule falls on: "Every 2 weeks on Mondays and Fridays".
func (v Voice) pattern(r repeat.Rule) string {
	switch r.Freq {
	case repeat.Weekly:
		return v.weekly(r)
	case repeat.Monthly:
		return v.monthly(r)
	}
	return v.Count("repeat.daily", r.Every)
}

// weekly names the weekdays. In which week a Sunday lies depends on the day that
// weeks begin on, so with every second week or rarer that day is said, unless it is
// Monday and there is no Sunday to doubt.
func (v Voice) weekly(r repeat.Rule) string {
	var days []string
	for i := range time.Weekday(7) {
		if day := (time.Monday + i) % 7; r.Days.Has(day) {
			days = append(days, v.Say("repeat.weekday."+strconv.Itoa(int(day))))
		}
	}
	list := Arg{"days", v.List(days)}
	doubt := r.Week != time.Monday || r.Days.Has(time.Sunday)
	if r.Every > 1 && len(days) > 1 && doubt {
		return v.Say("repeat.weekly.from", list, Number("n", r.Every), Arg{"weekday", v.name("weekday", int(r.Week), false)})
	}
	return v.Count("repeat.weekly", r.Every, list)
}

// monthly says in which months and on which days of them. Every twelfth month is
// every year, in the month of the first date.
func (v Voice) monthly(r repeat.Rule) string {
	args := []Arg{{"days", v.List(v.monthDays(r))}, {"nth", v.ordinal(r.Every)}}
	if r.Every%12 == 0 {
		_, month, _ := r.First.YMD()
		return v.Count("repeat.yearly", r.Every/12, append(args, Arg{"month", v.name("month", month, false)})...)
	}
	return v.Count("repeat.monthly", r.Every, args...)
}

// monthDays names days of the month or weekdays of it, those counted from its end
// last.
func (v Voice) monthDays(r repeat.Rule) []string {
	var days []string
	for _, fromEnd := range []bool{false, true} {
		for _, d := range r.MonthDays {
			if d < 0 == fromEnd {
				days = append(days, v.monthDay(int(d)))
			}
		}
		for _, n := range r.Nth {
			if n.N < 0 == fromEnd {
				days = append(days, v.nth(n))
			}
		}
	}
	return days
}

// monthDay writes a day of the month: the 15th, the last day, the 3rd-to-last day.
func (v Voice) monthDay(d int) string {
	switch {
	case d == -1:
		return v.Say("repeat.month-day.last")
	case d < 0:
		return v.Say("repeat.month-day.end", Arg{"nth", v.ordinal(-d)}, Number("n", -d))
	}
	return v.Say("repeat.month-day", Arg{"nth", v.ordinal(d)}, Number("n", d))
}

// nth writes a weekday of the month: the first Friday, the last Monday, every Tuesday.
func (v Voice) nth(n repeat.Nth) string {
	key := "repeat.nth." + strconv.Itoa(int(n.N))
	if n.N < 0 {
		key = "repeat.nth.last." + strconv.Itoa(-int(n.N))
	}
	return v.Say(key, Arg{"weekday", v.name("weekday", int(n.Day), false)})
}

// shortestMonth is how many days the shortest month of a rule has.
func shortestMonth(r repeat.Rule) int {
	_, month, _ := r.First.YMD()
	if r.Every%12 != 0 || month == int(time.February) {
		return 28
	}
	return 30 + (month+month/8)%2 // July has 31, August has 31, September 30
}

// lacking says what becomes of days that some months of a rule do not have; "" where
// each month has them all.
func (v Voice) lacking(r repeat.Rule) string {
	lack, days, shortest := 0, len(r.MonthDays), shortestMonth(r)
	for _, d := range r.MonthDays {
		if int(max(d, -d)) > shortest {
			lack++
		}
	}
	for _, n := range r.Nth {
		if max(n.N, -n.N) == 5 {
			lack++
		}
	}
	switch {
	case lack == 0:
		return ""
	case days == 1 && r.MonthDays[0] > 0:
		n := int(r.MonthDays[0])
		return v.Say("repeat.lacking.day", Arg{"nth", v.ordinal(n)}, Number("n", n))
	case days+len(r.Nth) == 1:
		return v.Say("repeat.lacking.single")
	}
	return v.Say("repeat.lacking.several")
}
