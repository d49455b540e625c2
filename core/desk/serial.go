package desk

import (
	"strconv"
	"strings"

	"newel/core/wall"
)

// Spreadsheets keep a day as a number and show it as a date only where the cell is told to. In
// the 1900 system day 1 is 1 January 1900, and day 60 is a 29 February 1900 that never was, so
// that all later days are one more than they would be; in the 1904 system day 0 is 1 January
// 1904 (ECMA-376 Part 1, 18.17.4.1). The fraction is the time of day (18.17.4.2).

// serial is such a number.
type serial struct {
	whole    int
	fraction bool
	minute   int // of the fraction, to the nearest; 1440 where that is the next midnight
}

const (
	serialEpoch = wall.Date(-25569)  // day 0 for all days after the one that never was: 30 December 1899
	serial1904  = 1462               // how many days later the same number is in the 1904 system
	lastSerial  = 2958465            // 31 December 9999
	phantom     = 60                 // the 29 February 1900
	mostDigits  = len("46356.") + 20 // of a number that is looked at
	dayMinutes  = 24 * 60
)

// serialOf reads a number without a sign. Numbers of more than a serial's digits are none, and
// what has eight is a date without hyphens.
func serialOf(s string) (n serial, ok bool) {
	s = strings.TrimSpace(s)
	whole, rest, point := strings.Cut(s, ".")
	if len(s) > mostDigits || !isNumber(whole) && whole != "" || point && !isNumber(rest) || !point && whole == "" {
		return n, false
	}
	if len(whole) > 7 || whole == "" && !point {
		return n, false
	}
	n.whole = max(number("0"+whole), 0)
	if !point {
		return n, true
	}
	part, err := strconv.ParseFloat("0."+rest, 64)
	if err != nil {
		return n, false
	}
	n.fraction, n.minute = true, int(part*dayMinutes+0.5)
	return n, true
}

// serialDate names the day of a number in the 1900 system, and asks.
func serialDate(n serial) dateRead {
	day := serialEpoch + wall.Date(n.whole)
	switch {
	case n.whole == phantom:
		return badDate("date-phantom")
	case n.whole > lastSerial || day < wall.FirstDate || day > wall.LastDate:
		return badDate("date-number")
	case n.fraction && n.minute > 0 && n.minute < dayMinutes:
		return dateRead{day: day, fault: "date-serial-clock", ask: true, read: day.String()}
	}
	return dateRead{day: day, fault: "date-serial", ask: true, read: day.String()}
}

// isClock tells whether a number is a spreadsheet's time of day, with a day or without one.
// 5.30 is a time with a point.
func (n serial) isClock() bool { return n.fraction && (n.whole == 0 || n.whole >= int(wall.FirstDate)) }

// serialClock names the time of a number, and asks: 0.30 is twelve minutes past seven, and
// somebody may have meant half past midnight.
func serialClock(n serial) clockRead {
	return clockRead{clock: wall.Clock(n.minute % dayMinutes), fault: "time-serial", ask: true}
}
