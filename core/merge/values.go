package merge

import (
	"strconv"
	"strings"

	"newel/core/repeat"
	"newel/core/wall"
)

const (
	mark    = "1" // the value of registers of which only their being there counts
	nobody  = "-" // in Takes; so no helper can be called that
	leftOut = "-" // in Date

	minuteBits = 11 // of an Extra's Sub
)

// number reads a decimal number as written by strconv.Itoa, and nothing else.
func number(s string) (n int, ok bool) {
	n, err := strconv.Atoi(s)
	return n, err == nil && strconv.Itoa(n) == s
}

// numberOr reads a number; what is none gives other. Values that passed Check are numbers.
func numberOr(s string, other int) int {
	if n, ok := number(s); ok {
		return n
	}
	return other
}

// momentKey packs a moment into the Sub of an Extra.
func momentKey(m repeat.Moment) uint32 { return uint32(m.Day)<<minuteBits | uint32(m.At) }

// momentOf is the moment in the Sub of an Extra.
func momentOf(sub uint32) repeat.Moment {
	return repeat.Moment{Day: wall.Date(sub >> minuteBits), At: wall.Clock(sub & (1<<minuteBits - 1))}
}

// soundMoment tells whether a moved or added date is one that some rule can have.
func soundMoment(m repeat.Moment) bool {
	return m.Day >= firstExtra && m.Day <= lastExtra && m.At >= 0 && m.At < 24*60
}

// momentText writes where a date was moved.
func momentText(m repeat.Moment) string {
	return strconv.Itoa(int(m.Day)) + " " + strconv.Itoa(int(m.At))
}

// Moved reads a value of a Date register: where the date was moved; false for one that was
// left out.
func Moved(value string) (to repeat.Moment, moved bool) {
	day, at, found := strings.Cut(value, " ")
	d, ok := number(day)
	m, ok2 := number(at)
	if !found || !ok || !ok2 || d < int(firstExtra) || d > int(lastExtra) || m < 0 || m >= 24*60 {
		return repeat.Moment{}, false
	}
	return repeat.Moment{Day: wall.Date(d), At: wall.Clock(m)}, true
}
