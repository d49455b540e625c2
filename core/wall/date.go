// Package wall holds days and times as a calendar and a clock on the wall show
// them, without a zone. Date.At places one in a zone.
package wall

import (
	"errors"
	"strconv"
	"time"
)

// Date is a day of the Gregorian calendar, counted in days from 1 January 1970
// (day 0). It has no zone: a surgery is on the 9th wherever the reader is.
type Date int32

// FirstDate and LastDate bound the days that a plan can speak of. They are wide
// enough for every plan and narrow enough that arithmetic on them cannot overflow.
const (
	FirstDate Date = 10957 // 1 January 2000
	LastDate  Date = 47846 // 31 December 2100
)

// ErrDate says that a text is not a day of the calendar.
var ErrDate = errors.New("not a day of the calendar, written as year-month-day")

// ErrYears says that a day is one of the calendar, but not between FirstDate and LastDate.
var ErrYears = errors.New("a day before 2000 or after 2100")

// NewDate returns the day with that year, month (1–12) and day of the month.
// A day that does not exist, such as 30 February, is ErrDate and never slides
// into the next month; one outside FirstDate to LastDate is ErrYears.
func NewDate(year, month, day int) (Date, error) {
	t := time.Date(year, time.Month(month), day, 0, 0, 0, 0, time.UTC)
	if t.Year() != year || int(t.Month()) != month || t.Day() != day {
		return 0, ErrDate
	}
	d := Date(t.Unix() / 86400)
	if d < FirstDate || d > LastDate {
		return 0, ErrYears
	}
	return d, nil
}

// DateOf returns the day that t shows on the wall in its own location.
func DateOf(t time.Time) Date {
	y, m, d := t.Date()
	return Date(time.Date(y, m, d, 0, 0, 0, 0, time.UTC).Unix() / 86400)
}

// ParseDate reads an ISO 8601 calendar date, YYYY-MM-DD, which is what an HTML
// date field sends. Errors: ErrDate, ErrYears.
func ParseDate(s string) (Date, error) {
	if len(s) != 10 || s[4] != '-' || s[7] != '-' {
		return 0, ErrDate
	}
	var part [3]int
	for i, digits := range []string{s[:4], s[5:7], s[8:]} {
		n, err := strconv.ParseUint(digits, 10, 16)
		if err != nil {
			return 0, ErrDate
		}
		part[i] = int(n)
	}
	return NewDate(part[0], part[1], part[2])
}

// YMD returns the year, the month (1–12) and the day of the month.
func (d Date) YMD() (year, month, day int) {
	y, m, dd := d.utc().Date()
	return y, int(m), dd
}

// Weekday returns the day of the week.
func (d Date) Weekday() time.Weekday { return d.utc().Weekday() }

// String writes the day as ISO 8601: 2027-03-09.
func (d Date) String() string {
	var b [10]byte
	return string(d.utc().AppendFormat(b[:0], "2006-01-02"))
}

func (d Date) utc() time.Time { return time.Unix(int64(d)*86400, 0).UTC() }
