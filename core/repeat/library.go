package repeat

import (
	"slices"
	"time"

	"github.com/teambition/rrule-go"

	"newel/core/wall"
)

// weekdays are rrule-go's names of the days, by time.Weekday.
var weekdays = [7]rrule.Weekday{rrule.SU, rrule.MO, rrule.TU, rrule.WE, rrule.TH, rrule.FR, rrule.SA}

// library goes through rrule-go. It is handed midnights in UTC, where no clock ever
// changes: in a zone it loses whole days. Its iterator runs on for centuries where a
// pattern has no more dates; it is only called with a first date that fits and a
// last day, so the next one after that is never far.
func (w *walk) library(r Rule) {
	option := rrule.ROption{
		Freq: rrule.MONTHLY, Interval: r.Every,
		Dtstart: midnight(r.First), Until: midnight(w.last),
	}
	for _, d := range r.MonthDays {
		option.Bymonthday = append(option.Bymonthday, int(d))
	}
	option.Byweekday = monthWeekdays(r.Nth)
	rule, err := rrule.NewRRule(option)
	if err != nil { // Check lets nothing through that it refuses
		panic("repeat: " + err.Error())
	}
	next := rule.Iterator()
	for {
		t, ok := next()
		if !ok {
			w.past = true
			return
		}
		if !w.add(wall.DateOf(t)) {
			return
		}
	}
}

// monthWeekdays names weekdays of a month in rrule-go's way.
func monthWeekdays(list []Nth) []rrule.Weekday {
	var days []rrule.Weekday
	for _, n := range spelledOut(list) {
		day := weekdays[n.Day]
		if n.N != 0 {
			day = day.Nth(int(n.N))
		}
		days = append(days, day)
	}
	return days
}

// spelledOut writes "every Monday and the first Friday" with the first to the fifth
// Monday. rrule-go, like other libraries that calendars are built on, takes the two
// kinds together for the days that are both; RFC 5545 3.3.10 means all of them.
func spelledOut(list []Nth) []Nth {
	numbered := func(n Nth) bool { return n.N != 0 }
	if !slices.ContainsFunc(list, numbered) {
		return list
	}
	var out []Nth
	for _, n := range list {
		if numbered(n) {
			out = append(out, n)
			continue
		}
		for i := range int8(5) {
			out = append(out, Nth{i + 1, n.Day})
		}
	}
	return out
}

func midnight(d wall.Date) time.Time { return time.Unix(int64(d)*86400, 0).UTC() }
