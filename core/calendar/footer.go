package calendar

import (
	"strconv"
	"strings"
	"time"

	ical "github.com/emersion/go-ical"
)

// A TZif file ends in a line with the zone's standing rule, as POSIX writes the
// variable TZ: "EST5EDT,M3.2.0,M11.1.0" (RFC 9636 3.3). Here only its two days of
// change are read, and held against the changes that the zone really has.

// weekdayNames are the weekdays as RFC 5545 writes them, by time.Weekday.
var weekdayNames = [7]string{"SU", "MO", "TU", "WE", "TH", "FR", "SA"}

// yearDay is a day of change: the week'th weekday of a month (5: the last), and the
// second of that day.
type yearDay struct {
	month, week, weekday, second int
}

// yearly writes two observances with a yearly rule, if the footer's rule gives exactly
// these changes; nil otherwise: a zone without a rule, one that changes round
// Ramadan, or one whose rule names an hour before or after its day.
func yearly(all []onset, data []byte) []*ical.Component {
	forward, back, ok := readFooter(data)
	if !ok || len(all) < 2 || all[0].at.IsZero() {
		return nil
	}
	for i, o := range all {
		rule := back
		if o.isDaylight {
			rule = forward
		}
		if !rule.is(o.before()) || i > 0 && (o.isDaylight == all[i-1].isDaylight || o.at.Sub(all[i-1].at) > 366*24*time.Hour) {
			return nil
		}
	}
	var pair []*ical.Component
	for _, o := range all[:2] {
		rule := back
		if o.isDaylight {
			rule = forward
		}
		pair = append(pair, o.component(rule.recur()))
	}
	return pair
}

// is tells whether a change is on that day at that time.
func (d yearDay) is(t time.Time) bool {
	week := (t.Day()-1)/7 + 1
	if d.week == 5 && t.AddDate(0, 0, 7).Month() != t.Month() {
		week = 5
	}
	return int(t.Month()) == d.month && int(t.Weekday()) == d.weekday && week == d.week &&
		t.Hour()*3600+t.Minute()*60+t.Second() == d.second
}

// recur writes the rule for an observance.
func (d yearDay) recur() string {
	week := d.week
	if week == 5 {
		week = -1
	}
	return "FREQ=YEARLY;BYMONTH=" + strconv.Itoa(d.month) + ";BYDAY=" + strconv.Itoa(week) + weekdayNames[d.weekday]
}

// readFooter gives the days on which daylight time begins and ends.
func readFooter(data []byte) (forward, back yearDay, ok bool) {
	lines := strings.Split(strings.TrimSuffix(string(data), "\n"), "\n")
	parts := strings.Split(lines[len(lines)-1], ",")
	if len(parts) != 3 {
		return forward, back, false
	}
	forward, okForward := readYearDay(parts[1])
	back, okBack := readYearDay(parts[2])
	return forward, back, okForward && okBack
}

// readYearDay reads Mm.w.d or Mm.w.d/hour; anything else is not taken.
func readYearDay(text string) (d yearDay, ok bool) {
	day, clock, _ := strings.Cut(text, "/")
	day, ok = strings.CutPrefix(day, "M")
	part := strings.Split(day, ".")
	if !ok || len(part) != 3 {
		return d, false
	}
	for i, into := range []*int{&d.month, &d.week, &d.weekday} {
		n, err := strconv.ParseUint(part[i], 10, 8)
		if err != nil {
			return d, false
		}
		*into = int(n)
	}
	d.second = 2 * 3600 // what POSIX takes unsaid
	if clock != "" {
		d.second = 0
		for i, unit := range []int{3600, 60, 1} {
			var n string
			if n, clock, _ = strings.Cut(clock, ":"); n == "" {
				break
			}
			count, err := strconv.ParseUint(n, 10, 8)
			if err != nil || i > 0 && count > 59 {
				return d, false
			}
			d.second += int(count) * unit
		}
	}
	return d, d.week >= 1 && d.week <= 5 && d.weekday <= 6 && d.second < 24*3600
}
