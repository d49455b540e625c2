package repeat

import (
	"time"

	"github.com/teambition/rrule-go"

	"newel/core/wall"
)

// rrule-go is the peer that the patterns are held against. It is handed midnights in UTC, where
// no clock ever changes: in a zone it loses whole days (defects_test.go).

// weekdays are rrule-go's names of the days, by time.Weekday.
var weekdays = [7]rrule.Weekday{rrule.SU, rrule.MO, rrule.TU, rrule.WE, rrule.TH, rrule.FR, rrule.SA}

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

func midnight(d wall.Date) time.Time { return time.Unix(int64(d)*86400, 0).UTC() }
