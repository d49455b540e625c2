package repeat

import (
	"math/bits"
	"time"

	"newel/core/wall"
)

// months goes through the months in which the rule holds.
func (w *walk) months(r Rule) {
	for year, month, _ := r.First.YMD(); ; month += r.Every {
		start := monthStart(year, month)
		if start > w.last {
			w.past = true
			return
		}
		for set := r.inMonth(start, monthStart(year, month+1)); set != 0; set &= set - 1 {
			day := start + wall.Date(bits.TrailingZeros32(set)) - 1
			if day >= r.First && !w.add(day) {
				return
			}
		}
	}
}

// monthStart is the first day of a month; month 13 is January of the next year.
func monthStart(year, month int) wall.Date {
	return wall.Date(time.Date(year, time.Month(month), 1, 0, 0, 0, 0, time.UTC).Unix() / 86400)
}

// inMonth is the days that a rule names of the month from start to the day before next: bit 1
// is its first day. By RFC 5545 3.3.10 each entry of a list stands for itself, so "every Monday
// and the first Friday" is the days of both.
func (r Rule) inMonth(start, next wall.Date) uint32 {
	length := int(next - start)
	var set uint32
	take := func(day int) {
		if day >= 1 && day <= length { // not every month has a 31st or a fifth Monday
			set |= 1 << day
		}
	}
	for _, d := range r.MonthDays {
		if d < 0 {
			d += int8(length) + 1
		}
		take(int(d))
	}
	for _, n := range r.Nth {
		first := 1 + int(n.Day-start.Weekday()+7)%7
		last := first + (length-first)/7*7
		switch {
		case n.N > 0:
			take(first + 7*int(n.N-1))
		case n.N < 0:
			take(last + 7*int(n.N+1))
		default:
			for day := first; day <= last; day += 7 {
				take(day)
			}
		}
	}
	return set
}

// fits tells whether a day is one of a monthly pattern's, the interval aside.
func (r Rule) fits(day wall.Date) bool {
	year, month, inMonth := day.YMD()
	return r.inMonth(monthStart(year, month), monthStart(year, month+1))&(1<<inMonth) != 0
}
