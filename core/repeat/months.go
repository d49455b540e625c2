package repeat

import (
	"time"

	"github.com/teambition/rrule-go"

	"newel/core/wall"
)

// weekdays are rrule-go's names of the days, by time.Weekday.
var weekdays = [7]rrule.Weekday{rrule.SU, rrule.MO, rrule.TU, rrule.WE, rrule.TH, rrule.FR, rrule.SA}

// months goes through rrule-go. It is handed midnights in UTC, where no clock ever
// changes: in a zone it loses whole days. Its iterator runs on for centuries where a
// pattern has no more dates; it is only called with a first date that fits and a
// last day, so the next one after that is never far.
func (w *walk) months(r Rule) {
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

// monthWeekdays names weekdays of a month in rrule-go's way. It takes "every Monday
// and the first Friday" for the days that are both, so where the two kinds meet,
// every Monday is written as the first to the fifth.
func monthWeekdays(list []Nth) []rrule.Weekday {
	numbered := false
	for _, n := range list {
		numbered = numbered || n.N != 0
	}
	var days []rrule.Weekday
	for _, n := range list {
		switch day := weekdays[n.Day]; {
		case n.N != 0:
			days = append(days, day.Nth(int(n.N)))
		case !numbered:
			days = append(days, day)
		default:
			for i := 1; i <= 5; i++ {
				days = append(days, day.Nth(i))
			}
		}
	}
	return days
}

func midnight(d wall.Date) time.Time { return time.Unix(int64(d)*86400, 0).UTC() }

// fits tells whether a day is one of a monthly pattern's, the interval aside.
func (r Rule) fits(day wall.Date) bool {
	_, _, inMonth := day.YMD()
	left := daysLeft(day)
	for _, d := range r.MonthDays {
		if int(d) == inMonth || int(d) == -left-1 {
			return true
		}
	}
	for _, n := range r.Nth {
		nth, fromEnd := (inMonth-1)/7+1, left/7+1
		if n.Day == day.Weekday() && (n.N == 0 || int(n.N) == nth || int(n.N) == -fromEnd) {
			return true
		}
	}
	return false
}

// daysLeft is how many days of the month come after a day.
func daysLeft(day wall.Date) int {
	left := 0
	for _, month, _ := day.YMD(); ; left++ {
		if _, m, _ := (day + wall.Date(left) + 1).YMD(); m != month {
			return left
		}
	}
}
