package repeat

import (
	"slices"
	"strconv"
	"strings"
	"time"

	"newel/core/wall"
)

// maxText bounds a rule's text, in bytes. The longest that our rules need is far
// below it.
const maxText = 600

// Parse reads a RECUR value of RFC 5545 3.3.10, with or without "RRULE:" before it,
// for an event that first starts at a moment in a zone. It gives a canonical rule
// that passes Check, or a Fault. A rule whose pattern does not hold on the first day
// begins on the next day on which it does: RFC 5545 3.8.5.3 leaves such a set
// undefined.
func Parse(text string, first Moment, loc *time.Location) (Rule, error) {
	p, err := split(text)
	if err != nil {
		return Rule{}, err
	}
	r := Rule{First: first.Day, At: first.At, Every: 1, Week: time.Monday}
	for _, read := range []func(*Rule, *parts) error{readEvery, readPattern, readWeek, readTimes} {
		if err := read(&r, p); err != nil {
			return Rule{}, err
		}
	}
	if left := p.left(); left != "" {
		return Rule{}, Fault{NotThatPart, left}
	}
	if err := readEnd(&r, p, loc); err != nil {
		return Rule{}, err
	}
	r = r.Canonical()
	if err := r.Check(); err != nil {
		return Rule{}, err
	}
	return r, nil
}

// parts are the NAME=VALUE pairs of a text. What is read is taken out, so that what
// is left was not understood.
type parts struct{ of map[string]string }

func (p *parts) take(name string) string {
	v := p.of[name]
	delete(p.of, name)
	return v
}

// left names a part that nothing took, the first by its letters.
func (p *parts) left() string {
	var names []string
	for name, value := range p.of {
		if name != "COUNT" && name != "UNTIL" {
			names = append(names, name+"="+value)
		}
	}
	if len(names) == 0 {
		return ""
	}
	return slices.Min(names)
}

// known are the names that a RECUR value may have.
const known = " FREQ UNTIL COUNT INTERVAL BYSECOND BYMINUTE BYHOUR BYDAY BYMONTHDAY BYYEARDAY BYWEEKNO BYMONTH BYSETPOS WKST "

func split(text string) (*parts, error) {
	text = strings.ToUpper(strings.TrimSpace(text))
	text = strings.TrimSuffix(strings.TrimPrefix(text, "RRULE:"), ";")
	if text == "" || len(text) > maxText {
		return nil, Fault{Code: NotARule}
	}
	p := &parts{map[string]string{}}
	for _, part := range strings.Split(text, ";") {
		name, value, _ := strings.Cut(part, "=")
		if _, twice := p.of[name]; twice || value == "" || !strings.Contains(known, " "+name+" ") {
			return nil, Fault{NotARule, part}
		}
		p.of[name] = value
	}
	return p, nil
}

// readTimes lets BYHOUR and its like pass where they only repeat the first time.
func readTimes(r *Rule, p *parts) error {
	hour, minute := r.At.HourMinute()
	for _, part := range []struct {
		name string
		want int
	}{{"BYHOUR", hour}, {"BYMINUTE", minute}, {"BYSECOND", 0}} {
		value := p.take(part.name)
		if n, err := strconv.ParseUint(value, 10, 8); value != "" && (err != nil || int(n) != part.want) {
			return Fault{OtherTime, part.name + "=" + value}
		}
	}
	return nil
}

func readEvery(r *Rule, p *parts) error {
	value := p.take("INTERVAL")
	if value == "" {
		return nil
	}
	n, err := strconv.ParseUint(value, 10, 64)
	if err != nil || n < 1 || n > MaxEvery {
		return Fault{EveryFault, "INTERVAL=" + value}
	}
	r.Every = int(n)
	return nil
}

func readEnd(r *Rule, p *parts, loc *time.Location) error {
	count, until := p.take("COUNT"), p.take("UNTIL")
	if count != "" && until != "" {
		return Fault{TwoEnds, "COUNT=" + count + ";UNTIL=" + until}
	}
	if count != "" {
		n, err := strconv.ParseUint(count, 10, 64)
		if err != nil || n < 1 || n > MaxCount {
			return Fault{CountFault, "COUNT=" + count}
		}
		r.Count = int(n)
	}
	if until != "" {
		last, ok := lastDay(until, r.At, loc)
		switch {
		case !ok:
			return Fault{NotARule, "UNTIL=" + until}
		case last < r.First:
			return Fault{LastFault, "UNTIL=" + until}
		}
		r.Last = last
	}
	return nil
}

// lastDay is the last day on which a date at a time can be for an UNTIL value. A
// value without a time stands for its whole day: by the letter of 3.3.10 it may not
// stand beside a time, but many write it and mean that.
func lastDay(until string, at wall.Clock, loc *time.Location) (wall.Date, bool) {
	if t, err := time.Parse("20060102", until); err == nil {
		return wall.DateOf(t), true
	}
	if t, err := time.Parse("20060102T150405Z", until); err == nil {
		day := wall.DateOf(t.In(loc))
		if placed, _ := day.At(loc, at); placed.After(t) {
			day--
		}
		return day, true
	}
	t, err := time.Parse("20060102T150405", until)
	day := wall.DateOf(t)
	if t.Hour()*60+t.Minute() < int(at) {
		day--
	}
	return day, err == nil
}
