package repeat

import (
	"slices"
	"strconv"
	"strings"
	"time"
)

// names are the weekdays as RFC 5545 writes them, by time.Weekday.
var names = [7]string{"SU", "MO", "TU", "WE", "TH", "FR", "SA"}

// Recur writes the pattern as an RFC 5545 RECUR value ("FREQ=WEEKLY;BYDAY=MO,WE"),
// for an event that starts with the rule's first date in a zone. A last day is
// written as UNTIL in UTC, as 3.3.10 demands beside a DTSTART with a zone: the
// instant at which that day's date would be. Without a zone it is written as a day, for a
// person who may give the rule another time. A single date gives "".
func (r Rule) Recur(loc *time.Location) string {
	var parts []string
	switch r.Freq {
	case Once:
		return ""
	case Daily:
		parts = append(parts, "FREQ=DAILY")
	case Weekly:
		parts = append(parts, "FREQ=WEEKLY")
	case Monthly:
		parts = append(parts, "FREQ=MONTHLY")
	}
	if r.Every > 1 {
		parts = append(parts, "INTERVAL="+strconv.Itoa(r.Every))
	}
	if list := r.byParts(); list != "" {
		parts = append(parts, list)
	}
	if r.Freq == Weekly && r.Week != time.Monday { // Monday is what the RFC takes unsaid
		parts = append(parts, "WKST="+names[r.Week])
	}
	switch {
	case r.Count > 0:
		parts = append(parts, "COUNT="+strconv.Itoa(r.Count))
	case r.Last != 0 && loc == nil:
		year, month, day := r.Last.YMD()
		parts = append(parts, "UNTIL="+strconv.Itoa((year*100+month)*100+day))
	case r.Last != 0:
		t, _ := r.Last.At(loc, r.At)
		parts = append(parts, "UNTIL="+t.UTC().Format("20060102T150405Z"))
	}
	return strings.Join(parts, ";")
}

// byParts writes the days.
func (r Rule) byParts() string {
	var list []string
	switch {
	case len(r.MonthDays) > 0:
		for _, d := range r.MonthDays {
			list = append(list, strconv.Itoa(int(d)))
		}
		return "BYMONTHDAY=" + strings.Join(list, ",")
	case len(r.Nth) > 0:
		for _, n := range spelledOut(r.Nth) {
			name := names[n.Day]
			if n.N != 0 {
				name = strconv.Itoa(int(n.N)) + name
			}
			list = append(list, name)
		}
	default:
		for i := range time.Weekday(7) {
			if day := (time.Monday + i) % 7; r.Days.Has(day) {
				list = append(list, names[day])
			}
		}
	}
	if len(list) == 0 {
		return ""
	}
	return "BYDAY=" + strings.Join(list, ",")
}

// spelledOut writes "every Monday and the first Friday" with the first to the fifth
// Monday. Libraries that calendars are built on take the two kinds together for the days
// that are both; RFC 5545 3.3.10 means all of them.
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
