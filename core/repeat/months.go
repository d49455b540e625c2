package repeat

import (
	"time"

	"newel/core/wall"
)

// months goes through the months in which the rule holds, where it names a single
// day of them: the 15th, the last day, the second Tuesday. Such are the rules that
// families have. Several days go through rrule-go.
func (w *walk) months(r Rule) {
	if len(r.MonthDays)+len(r.Nth) != 1 || len(r.Nth) == 1 && r.Nth[0].N == 0 {
		w.library(r)
		return
	}
	for year, month, _ := r.First.YMD(); ; month += r.Every {
		start := monthStart(year, month)
		if start > w.last {
			w.past = true
			return
		}
		day := r.dayOfMonth(start, int(monthStart(year, month+1)-start))
		if day >= r.First && !w.add(day) {
			return
		}
	}
}

// monthStart is the first day of a month; month 13 is January of the next year.
func monthStart(year, month int) wall.Date {
	return wall.Date(time.Date(year, time.Month(month), 1, 0, 0, 0, 0, time.UTC).Unix() / 86400)
}

// dayOfMonth is the day that a rule names of a month with so many days; noDay where
// the month lacks it.
func (r Rule) dayOfMonth(start wall.Date, length int) wall.Date {
	day := 0 // from 1
	if len(r.MonthDays) == 1 {
		day = int(r.MonthDays[0])
		if day < 0 {
			day += length + 1
		}
	} else {
		n := int(r.Nth[0].N)
		first := 1 + int(r.Nth[0].Day-start.Weekday()+7)%7
		day = first + 7*(n-1)
		if n < 0 {
			day = first + (length-first)/7*7 + 7*(n+1)
		}
	}
	if day < 1 || day > length {
		return noDay
	}
	return start + wall.Date(day-1)
}

// noDay is before every day that a rule can begin on.
const noDay wall.Date = -1 << 31

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
