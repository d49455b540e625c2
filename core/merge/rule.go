package merge

import (
	"strconv"
	"strings"
	"time"

	"newel/core/repeat"
	"newel/core/wall"
)

// The letters of a pattern's text.
const (
	daily     = "d"
	weekly    = "w"
	monthDays = "m"
	monthNth  = "n"
	count     = "x"
	last      = "u"
)

// RuleText writes the pattern of a rule, without its exceptions, as a short text: parts
// with a space between.
//
//	20521 630               once, on that day, at 10:30
//	20521 630 d2            every second day from then on
//	20521 630 w1 18 1       every week, on the weekdays whose bits are set (bit 0 is
//	                        Sunday), weeks beginning on the last number
//	20527 630 m1 -1,15      every month, on those days of it
//	20518 630 n1 -1.2,1.5   every month, on the last Tuesday and the first Friday
//	… x10                   ten times at most
//	… u20600                until that day
//
// A canonical rule has one text.
func RuleText(r repeat.Rule) string {
	parts := []string{strconv.Itoa(int(r.First)), strconv.Itoa(int(r.At))}
	every := strconv.Itoa(r.Every)
	switch {
	case r.Freq == repeat.Daily:
		parts = append(parts, daily+every)
	case r.Freq == repeat.Weekly:
		parts = append(parts, weekly+every, strconv.Itoa(int(r.Days)), strconv.Itoa(int(r.Week)))
	case r.Freq == repeat.Monthly && len(r.MonthDays) > 0:
		parts = append(parts, monthDays+every, list(len(r.MonthDays), func(i int) string { return strconv.Itoa(int(r.MonthDays[i])) }))
	case r.Freq == repeat.Monthly:
		parts = append(parts, monthNth+every, list(len(r.Nth), func(i int) string {
			return strconv.Itoa(int(r.Nth[i].N)) + "." + strconv.Itoa(int(r.Nth[i].Day))
		}))
	}
	if r.Count != 0 {
		parts = append(parts, count+strconv.Itoa(r.Count))
	}
	if r.Last != 0 {
		parts = append(parts, last+strconv.Itoa(int(r.Last)))
	}
	return strings.Join(parts, " ")
}

// list writes n texts with commas between.
func list(n int, text func(int) string) string {
	all := make([]string, n)
	for i := range all {
		all[i] = text(i)
	}
	return strings.Join(all, ",")
}

// ReadRule reads what RuleText writes of a rule that is canonical, passes repeat's Check
// and begins on a day on which plan's Check lets a duty begin; nothing else.
func ReadRule(s string) (repeat.Rule, bool) {
	r, ok := readPattern(s)
	if !ok || r.First < wall.FirstDate || r.First > wall.LastDate-2*repeat.MaxSpan || RuleText(r) != s || r.Check() != nil {
		return repeat.Rule{}, false
	}
	return r, true
}

// readPattern reads the text of a pattern and does not look at what it says: documents
// are checked when they come in.
func readPattern(s string) (r repeat.Rule, ok bool) {
	p := parts{left: strings.Split(s, " "), ok: len(s) <= maxRuleText}
	r.First, r.At = wall.Date(p.number("", 1<<17)), wall.Clock(p.number("", 24*60))
	r.Every = 1
	switch p.letter() {
	case daily:
		r.Freq, r.Every = repeat.Daily, p.number(daily, repeat.MaxEvery)
	case weekly:
		r.Freq, r.Every = repeat.Weekly, p.number(weekly, repeat.MaxEvery)
		r.Days, r.Week = repeat.Days(p.number("", int(repeat.AllDays))), time.Weekday(p.number("", 6))
	case monthDays:
		r.Freq, r.Every = repeat.Monthly, p.number(monthDays, repeat.MaxEvery)
		for _, day := range strings.Split(p.next(), ",") {
			r.MonthDays = append(r.MonthDays, p.small(day))
		}
	case monthNth:
		r.Freq, r.Every = repeat.Monthly, p.number(monthNth, repeat.MaxEvery)
		for _, nth := range strings.Split(p.next(), ",") {
			n, day, _ := strings.Cut(nth, ".")
			r.Nth = append(r.Nth, repeat.Nth{N: p.small(n), Day: time.Weekday(p.small(day))})
		}
	}
	switch p.letter() {
	case count:
		r.Count = p.number(count, repeat.MaxCount)
	case last:
		r.Last = wall.Date(p.number(last, 1<<17))
	}
	return r, p.ok && len(p.left) == 0
}

// maxRuleText is more bytes than any pattern's text has: the longest names 62 days of the
// month, or 7 weekdays ten times each.
const maxRuleText = 480

// parts are the parts of a text that is being read; ok says that all went well so far.
type parts struct {
	left []string
	ok   bool
}

func (p *parts) next() string {
	if len(p.left) == 0 {
		p.ok = false
		return ""
	}
	part := p.left[0]
	p.left = p.left[1:]
	return part
}

// letter is the first letter of the next part, "" at the end.
func (p *parts) letter() string {
	if len(p.left) == 0 || p.left[0] == "" {
		return ""
	}
	return p.left[0][:1]
}

// number reads a number from 0 to most behind a letter.
func (p *parts) number(letter string, most int) int {
	digits, found := strings.CutPrefix(p.next(), letter)
	n, ok := number(digits)
	if !found || !ok || n < 0 || n > most {
		p.ok = false
		return 0
	}
	return n
}

// small reads a number from -31 to 31, as days of a month are.
func (p *parts) small(s string) int8 {
	n, ok := number(s)
	if !ok || n < -31 || n > 31 {
		p.ok = false
		return 0
	}
	return int8(n)
}
