package wall

import (
	"errors"
	"strconv"
	"strings"
)

// Clock is a time of day on the wall, in minutes after midnight, 0 to 1440.
// 1440 is the midnight at the end of the day, so that "nothing after midnight"
// can be said of the evening it belongs to.
type Clock int16

// NoClock stands for a time that nobody has told yet.
const NoClock Clock = -1

// ErrClock says that a text is not a time of day.
var ErrClock = errors.New("not a time of day, written like 05:30")

// ParseClock reads HH:MM, 00:00 to 24:00, which is what an HTML time field sends
// (some engines add seconds, which are dropped). A person may also type "5:30",
// "11 pm" or "11:30 PM". Errors: ErrClock.
func ParseClock(s string) (Clock, error) {
	lower := strings.ReplaceAll(strings.ToLower(s), ".", "")
	for half, add := range map[string]Clock{"am": 0, "pm": 12 * 60} {
		if text, ok := strings.CutSuffix(lower, half); ok {
			return parseHalf(strings.TrimSpace(text), add)
		}
	}
	return parseClock24(s)
}

// parseHalf reads a time of one half of the day, 12 to 11:59.
func parseHalf(s string, add Clock) (Clock, error) {
	if !strings.Contains(s, ":") {
		s += ":00"
	}
	c, err := parseClock24(s)
	switch {
	case err != nil || c < 60 || c >= 13*60:
		return NoClock, ErrClock
	case c >= 12*60:
		c -= 12 * 60
	}
	return c + add, nil
}

func parseClock24(s string) (Clock, error) {
	if len(s) == len("05:30:00") && s[5] == ':' {
		// Only real seconds are dropped: "05:30:pm" is not half past five.
		if sec, err := strconv.ParseUint(s[6:], 10, 8); err != nil || sec > 59 || s[:5] == "24:00" && sec > 0 {
			return NoClock, ErrClock
		}
		s = s[:5]
	}
	if len(s) == len("5:30") {
		s = "0" + s
	}
	if len(s) != len("05:30") || s[2] != ':' {
		return NoClock, ErrClock
	}
	h, errH := strconv.ParseUint(s[:2], 10, 8)
	m, errM := strconv.ParseUint(s[3:], 10, 8)
	if errH != nil || errM != nil || m > 59 || h*60+m > 1440 {
		return NoClock, ErrClock
	}
	return Clock(h*60 + m), nil
}

// Known tells whether there is a time at all.
func (c Clock) Known() bool { return c >= 0 && c <= 1440 }

// HourMinute splits the time; the hour is 24 for the midnight that ends the day.
func (c Clock) HourMinute() (hour, minute int) { return int(c) / 60, int(c) % 60 }

// String writes the time as HH:MM, or nothing when it is not known.
func (c Clock) String() string {
	if !c.Known() {
		return ""
	}
	h, m := c.HourMinute()
	return two(h) + ":" + two(m)
}

func two(n int) string {
	if n < 10 {
		return "0" + strconv.Itoa(n)
	}
	return strconv.Itoa(n)
}
