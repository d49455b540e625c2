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

// readPattern reads the frequency and the days.
func readPattern(r *Rule, p *parts) error {
	for _, name := range []string{"BYYEARDAY", "BYWEEKNO"} {
		if value := p.take(name); value != "" {
			return Fault{NotYearly, name + "=" + value}
		}
	}
	freq := p.take("FREQ")
	month := p.of["BYMONTH"]
	switch freq {
	case "SECONDLY", "MINUTELY", "HOURLY":
		return Fault{TooOften, "FREQ=" + freq}
	case "YEARLY":
		return readYearly(r, p)
	case "DAILY", "WEEKLY", "MONTHLY":
		if month != "" {
			return Fault{NotYearly, "BYMONTH=" + month}
		}
	}
	switch freq {
	case "DAILY":
		return readDaily(r, p)
	case "WEEKLY":
		return readWeekly(r, p)
	case "MONTHLY":
		return readMonthly(r, p)
	}
	return Fault{NotARule, "FREQ=" + freq}
}

// readDaily reads "every day". With weekdays it is a weekly rule, with days of the
// month a monthly one, as long as no day is left out in between.
func readDaily(r *Rule, p *parts) error {
	r.Freq = Daily
	switch {
	case r.Every > 1:
	case p.of["BYDAY"] != "" && p.of["BYMONTHDAY"] == "":
		return readWeekly(r, p)
	case p.of["BYMONTHDAY"] != "" && p.of["BYDAY"] == "":
		return readMonthly(r, p)
	}
	return nil
}

func readWeekly(r *Rule, p *parts) error {
	r.Freq, r.Days = Weekly, DaysOf(r.First.Weekday())
	if value := p.take("BYDAY"); value != "" {
		r.Days = 0
		for _, name := range strings.Split(value, ",") {
			n, ok := readNth(name)
			if !ok || n.N != 0 { // 3.3.10: no number before a weekday in a weekly rule
				return Fault{NotARule, name}
			}
			r.Days |= DaysOf(n.Day)
		}
	}
	return nil
}

func readMonthly(r *Rule, p *parts) error {
	r.Freq = Monthly
	byDay, byMonthDay := p.take("BYDAY"), p.take("BYMONTHDAY")
	switch {
	case byDay != "" && byMonthDay != "":
		return Fault{NotThatPart, "BYMONTHDAY=" + byMonthDay}
	case byDay != "":
		return readMonthWeekdays(r, byDay, p.take("BYSETPOS"))
	case byMonthDay != "":
		for _, text := range strings.Split(byMonthDay, ",") {
			d, err := strconv.ParseInt(text, 10, 8)
			if err != nil || d == 0 || d < -31 || d > 31 {
				return Fault{NotARule, text}
			}
			r.MonthDays = append(r.MonthDays, int8(d))
		}
	default:
		_, _, day := r.First.YMD()
		r.MonthDays = []int8{int8(day)}
	}
	return nil
}

// readMonthWeekdays reads "the first Friday". Some programs write it as every Friday
// with the position 1.
func readMonthWeekdays(r *Rule, byDay, position string) error {
	for _, name := range strings.Split(byDay, ",") {
		n, ok := readNth(name)
		if !ok {
			return Fault{NotARule, name}
		}
		r.Nth = append(r.Nth, n)
	}
	if position == "" {
		return nil
	}
	n, err := strconv.ParseInt(position, 10, 8)
	if err != nil || n == 0 || n < -5 || n > 5 || len(r.Nth) != 1 || r.Nth[0].N != 0 {
		return Fault{NotThatPart, "BYSETPOS=" + position}
	}
	r.Nth[0].N = int8(n)
	return nil
}

// readYearly reads a yearly rule as one of every twelfth month, as long as it names
// no other month than the first date's.
func readYearly(r *Rule, p *parts) error {
	month := p.take("BYMONTH")
	_, first, _ := r.First.YMD()
	switch {
	case month != "" && month != strconv.Itoa(first) && month != "0"+strconv.Itoa(first):
		return Fault{NotYearly, "BYMONTH=" + month}
	case month == "" && p.of["BYDAY"]+p.of["BYMONTHDAY"] != "":
		return Fault{NotYearly, "FREQ=YEARLY"}
	case r.Every*12 > MaxEvery:
		return Fault{EveryFault, "INTERVAL=" + strconv.Itoa(r.Every)}
	}
	r.Every *= 12
	if err := readMonthly(r, p); err != nil {
		return err
	}
	if r.checkFields() == nil {
		moved := *r
		moved.toFirst()
		if _, m, _ := moved.First.YMD(); m != first { // it would begin in another month
			return Fault{NotYearly, "FREQ=YEARLY"}
		}
	}
	return nil
}

// readNth reads MO, 2MO, +2MO or -1MO.
func readNth(text string) (Nth, bool) {
	if len(text) < 2 || len(text) > 4 {
		return Nth{}, false
	}
	number, name := text[:len(text)-2], text[len(text)-2:]
	day := slices.Index(names[:], name)
	if number == "" {
		return Nth{0, time.Weekday(day)}, day >= 0
	}
	n, err := strconv.ParseInt(number, 10, 8)
	ok := err == nil && n != 0 && n >= -5 && n <= 5 && day >= 0
	return Nth{int8(n), time.Weekday(day)}, ok
}

func readWeek(r *Rule, p *parts) error {
	value := p.take("WKST")
	if value == "" {
		return nil
	}
	day := slices.Index(names[:], value)
	if day < 0 {
		return Fault{NotARule, "WKST=" + value}
	}
	r.Week = time.Weekday(day)
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
