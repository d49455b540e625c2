package calendar

import (
	"slices"
	"sort"
	"strconv"
	"strings"
	"time"

	ical "github.com/emersion/go-ical"
)

// clock is a VTIMEZONE worked out: its changes in order of time.
type clock []change

// change is an instant, and the seconds ahead of UTC before and after it.
type change struct {
	at       int64
	from, to int
}

// offset is how far the clock is ahead at an instant. ok is false for a clock that could
// not be read.
func (c clock) offset(t int64) (seconds int, ok bool) {
	if len(c) == 0 {
		return 0, false
	}
	if t < c[0].at {
		return c[0].from, true
	}
	i, found := slices.BinarySearchFunc(c, t, func(a change, t int64) int { return int(min(max(a.at-t, -1), 1)) })
	if !found {
		i--
	}
	return c[i].to, true
}

// The bounds of a described zone.
const (
	maxObservances = 200
	clockFrom      = 1999 // years for which yearly rules are worked out: those of wall.Date
	clockTo        = 2101
)

// readClock works out a VTIMEZONE. It is empty where a part of it cannot be read.
func readClock(c *ical.Component) clock {
	var all clock
	if c == nil || len(c.Children) > maxObservances {
		return nil
	}
	for _, o := range c.Children {
		changes, ok := readObservance(o)
		if !ok {
			return nil
		}
		all = append(all, changes...)
	}
	sort.SliceStable(all, func(i, j int) bool { return all[i].at < all[j].at })
	return all
}

func readObservance(o *ical.Component) (changes []change, ok bool) {
	start, ok := single(o, ical.PropDateTimeStart)
	from, okFrom := readOffset(o, ical.PropTimezoneOffsetFrom)
	to, okTo := readOffset(o, ical.PropTimezoneOffsetTo)
	if !ok || !okFrom || !okTo || start.form != local {
		return nil, false
	}
	add := func(wall time.Time) { changes = append(changes, change{wall.Unix() - int64(from), from, to}) }
	add(start.wall)
	for _, p := range o.Props[ical.PropRecurrenceDates] {
		for text := range strings.SplitSeq(p.Value, ",") {
			v, ok := readValue(text)
			if !ok || v.form != local {
				return nil, false
			}
			add(v.wall)
		}
	}
	rules := o.Props[ical.PropRecurrenceRule]
	if len(rules) > 1 {
		return nil, false
	}
	for _, p := range rules {
		if !readYearly(p.Value, start.wall, from, add) {
			return nil, false
		}
	}
	return changes, true
}

// readYearly works out the rule of an observance: a weekday of a month, or a day of
// it, every year. That is how zones are described; any other rule is not taken.
func readYearly(text string, start time.Time, from int, add func(time.Time)) bool {
	parts := map[string]string{}
	for part := range strings.SplitSeq(strings.ToUpper(text), ";") {
		name, value, _ := strings.Cut(part, "=")
		parts[name] = value
	}
	end := time.Date(clockTo, 1, 1, 0, 0, 0, 0, time.UTC)
	if until := parts["UNTIL"]; until != "" {
		v, ok := readValue(until)
		if !ok {
			return false
		}
		if end = v.wall; v.form == utc {
			end = end.Add(time.Duration(from) * time.Second)
		}
	}
	d, ok := readRuleDay(parts, start)
	for name := range parts {
		ok = ok && strings.Contains(" FREQ INTERVAL BYMONTH BYDAY BYMONTHDAY UNTIL WKST ", " "+name+" ")
	}
	if !ok || parts["FREQ"] != "YEARLY" || parts["INTERVAL"] != "" && parts["INTERVAL"] != "1" {
		return false
	}
	for year := max(start.Year(), clockFrom); year <= clockTo; year++ {
		for _, day := range d.in(year) {
			t := time.Date(year, time.Month(d.month), day, start.Hour(), start.Minute(), start.Second(), 0, time.UTC)
			if t.After(start) && !t.After(end) {
				add(t)
			}
		}
	}
	return true
}

// ruleDay is the days of a yearly rule: those of the month that are in days, where
// there are any, and on the weekday, where there is one; of them the nth (-1: the
// last), where it is not 0.
type ruleDay struct {
	month, nth int
	days       []string
	weekday    time.Weekday
	anyWeekday bool
}

func readRuleDay(parts map[string]string, start time.Time) (d ruleDay, ok bool) {
	d.month, d.anyWeekday = int(start.Month()), true
	if text := parts["BYMONTH"]; text != "" {
		n, err := strconv.ParseUint(text, 10, 8)
		if err != nil || n < 1 || n > 12 {
			return d, false
		}
		d.month = int(n)
	}
	if text := parts["BYMONTHDAY"]; text != "" {
		if d.days = strings.Split(text, ","); len(d.days) > 31 {
			return d, false
		}
	}
	text := parts["BYDAY"]
	if text == "" {
		if d.days == nil {
			d.days = []string{strconv.Itoa(start.Day())}
		}
		return d, true
	}
	name := text[max(0, len(text)-2):]
	weekday := slices.Index(weekdayNames[:], name)
	if n := strings.TrimSuffix(text, name); n != "" {
		nth, err := strconv.ParseInt(n, 10, 8)
		if err != nil || nth == 0 || nth < -5 || nth > 5 {
			return d, false
		}
		d.nth = int(nth)
	}
	d.anyWeekday, d.weekday = false, time.Weekday(max(0, weekday))
	return d, weekday >= 0 && (d.nth != 0) != (d.days != nil)
}

// in gives the days of the month in a year.
func (d ruleDay) in(year int) []int {
	length := time.Date(year, time.Month(d.month)+1, 0, 0, 0, 0, 0, time.UTC).Day()
	var days []int
	for day := 1; day <= length; day++ {
		t := time.Date(year, time.Month(d.month), day, 0, 0, 0, 0, time.UTC)
		if (d.anyWeekday || t.Weekday() == d.weekday) && (d.days == nil || slices.Contains(d.days, strconv.Itoa(day))) {
			days = append(days, day)
		}
	}
	switch n := len(days); {
	case d.nth > n || -d.nth > n:
		return nil
	case d.nth > 0:
		return days[d.nth-1 : d.nth]
	case d.nth < 0:
		return days[n+d.nth : n+d.nth+1]
	}
	return days
}

// readOffset reads a UTC-OFFSET (RFC 5545 3.3.14), in seconds.
func readOffset(c *ical.Component, name string) (seconds int, ok bool) {
	p := c.Props.Get(name)
	if p == nil || len(p.Value) != 5 && len(p.Value) != 7 {
		return 0, false
	}
	sign := 1
	switch p.Value[0] {
	case '-':
		sign = -1
	case '+':
	default:
		return 0, false
	}
	text := (p.Value[1:] + "00")[:6]
	n, ok := number(text, 6)
	hour, minute, second := n/10000, n/100%100, n%100
	return sign * (hour*3600 + minute*60 + second), ok && hour < 24 && minute < 60 && second < 60
}
