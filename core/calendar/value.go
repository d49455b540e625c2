package calendar

import (
	"strconv"
	"strings"
	"time"
)

// value is a DATE or DATE-TIME as it stands in a file, not yet in a zone: wall is what
// it shows, as if it were UTC.
type value struct {
	form form // date, utc, or local where a zone is still to be found
	wall time.Time
}

// readValue reads one (RFC 5545 3.3.4, 3.3.5). Years are 1600 to 2200: zones are
// described from 1601 on.
func readValue(s string) (v value, ok bool) {
	day, clock, timed := strings.Cut(s, "T")
	d, ok := number(day, 8)
	if !ok {
		return v, false
	}
	year, month, dom := d/10000, time.Month(d/100%100), d%100
	v.form, v.wall = date, time.Date(year, month, dom, 0, 0, 0, 0, time.UTC)
	if year < 1600 || year > 2200 || v.wall.Month() != month || v.wall.Day() != dom {
		return v, false
	}
	if !timed {
		return v, true
	}
	v.form = local
	if text, z := strings.CutSuffix(clock, "Z"); z {
		v.form, clock = utc, text
	}
	c, ok := number(clock, 6)
	hour, minute, second := c/10000, c/100%100, c%100
	if !ok || hour > 23 || minute > 59 || second > 60 {
		return v, false
	}
	second = min(second, 59) // a leap second
	v.wall = v.wall.Add(time.Duration(hour)*time.Hour + time.Duration(minute)*time.Minute + time.Duration(second)*time.Second)
	return v, true
}

// number reads exactly so many digits.
func number(s string, width int) (int, bool) {
	if len(s) != width {
		return 0, false
	}
	n, err := strconv.ParseUint(s, 10, 32)
	return int(n), err == nil
}

// maxDuration bounds a DURATION; what is longer is no duty.
const maxDuration = 400 * 24 * time.Hour

// readDuration reads a DURATION of RFC 5545 3.3.6. Days and weeks are taken as 24 hours
// each, which is what a duty of at most a day comes to.
func readDuration(s string) (d time.Duration, ok bool) {
	sign := time.Duration(1)
	if text, minus := strings.CutPrefix(s, "-"); minus {
		s, sign = text, -1
	} else {
		s = strings.TrimPrefix(s, "+")
	}
	s, ok = strings.CutPrefix(s, "P")
	if !ok || s == "" || s == "T" {
		return 0, false
	}
	units := map[byte]time.Duration{'W': 7 * 24 * time.Hour, 'D': 24 * time.Hour}
	for s != "" {
		if s[0] == 'T' {
			units = map[byte]time.Duration{'H': time.Hour, 'M': time.Minute, 'S': time.Second}
			s = s[1:]
			continue
		}
		i := strings.IndexFunc(s, func(r rune) bool { return r < '0' || r > '9' })
		if i < 1 || units[s[i]] == 0 {
			return 0, false
		}
		n, err := strconv.ParseUint(s[:i], 10, 32)
		if err != nil || time.Duration(n) > (maxDuration-d)/units[s[i]] {
			return 0, false
		}
		d += time.Duration(n) * units[s[i]]
		s = s[i+1:]
	}
	return sign * d, true
}
