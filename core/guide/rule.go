package guide

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/wall"
)

// Things is the key for counting the dates of a duty of that kind, for Rule.
func Things(k plan.DutyKind) string {
	switch {
	case k.IsRide():
		return "count.rides"
	case k == plan.Meals:
		return "count.meals"
	case k == plan.Nights:
		return "count.nights"
	}
	return "count.times"
}

// Rule reads a rule back in words: "Mondays and Fridays at 10:30 for 6 weeks, from
// Monday, March 15: 12 rides, the last on Friday, April 23; not on Monday, April 5".
// things is a key for counting the dates, such as "count.rides".
//
// Two rules that differ in their canonical form (repeat.Rule.Canonical) differ in
// these words, whatever the clock and the day: so each field is said unless it is
// what the sentence without it means, and the end is said in the way it was given.
func (v Voice) Rule(r repeat.Rule, things string) string {
	text := v.dayAt(repeat.Moment{Day: r.First, At: r.At})
	if r.Freq != repeat.Once {
		dates, _ := r.All()
		text = v.course(r, dates, things)
	}
	for _, but := range v.exceptions(r) {
		text = v.Say("repeat.but", Arg{"rule", text}, Arg{"but", but})
	}
	return capital(text)
}

// capital gives a text a capital letter where it begins with a small one: a rule is a
// sentence, and in many languages the days of the week have none of their own.
func capital(text string) string {
	first, length := utf8.DecodeRuneInString(text)
	if length == 0 {
		return text
	}
	return string(unicode.ToUpper(first)) + text[length:]
}

// RuleShort says when a rule's dates are, without how long it goes on: "Mondays and
// Fridays at 10:30". Rules that differ may read the same.
func (v Voice) RuleShort(r repeat.Rule) string {
	if r.Freq == repeat.Once {
		return capital(v.dayAt(repeat.Moment{Day: r.First, At: r.At}))
	}
	return capital(v.Say("day.at", Arg{"day", v.pattern(r)}, Arg{"time", v.clock(r.At)}))
}

// course says the pattern, from when to when it runs, and how many dates come of it.
func (v Voice) course(r repeat.Rule, dates []repeat.Occurrence, things string) string {
	n := len(dates)
	count := v.Count(things, n)
	var last wall.Date
	if n > 0 {
		last = dates[n-1].Day
	}
	counted := []Arg{{"count", count}, {"last", v.Day(last)}}
	args := []Arg{
		{"pattern", v.pattern(r)}, {"time", v.clock(r.At)}, {"first", v.Day(r.First)},
		{"tally", v.Count("repeat.tally", n, counted...)},
	}
	days := int(r.Last-r.First) + 1
	switch {
	case r.Count > 0 && r.Count == n:
		args[3].Value = v.Count("repeat.in-all", n, counted...)
		return v.Say("repeat.count", args...)
	case r.Count > 0: // what falls out or is added is not what the rule counts
		return v.Say("repeat.times", append(args, Arg{"times", v.Count("count.times", r.Count)})...)
	case r.Freq != repeat.Monthly && !r.Endless() && days%7 == 0:
		return v.Say("repeat.weeks", append(args, Arg{"weeks", v.Count("unit.weeks", days/7)})...)
	}
	key, end := "repeat.until", r.Last
	if r.Endless() {
		key, end = "repeat.endless", r.First+repeat.Year
	}
	if last == end { // the end is said already
		args[3].Value = count
	}
	return v.Say(key, append(args, Arg{"end", v.Day(end)})...)
}

// exceptions says what the pattern alone does not: days that some months lack, and
// the dates that fall out, are at another time, or come on top.
func (v Voice) exceptions(r repeat.Rule) []string {
	var all []string
	if text := v.lacking(r); text != "" {
		all = append(all, text)
	}
	var days []string
	for _, d := range r.Skipped {
		days = append(days, v.Day(d))
	}
	if days != nil {
		all = append(all, v.Say("repeat.not", Arg{"days", v.List(days)}))
	}
	for _, m := range r.Moved {
		key := "repeat.moved"
		if m.From == m.To.Day {
			key = "repeat.moved.time"
		}
		all = append(all, v.Say(key,
			Arg{"day", v.Day(m.From)}, Arg{"to", v.dayAt(m.To)}, Arg{"time", v.clock(m.To.At)}))
	}
	var extra []string
	for _, m := range r.Extra {
		extra = append(extra, v.dayAt(m))
	}
	if extra != nil {
		all = append(all, v.Say("repeat.also", Arg{"days", v.List(extra)}))
	}
	return all
}

// dayAt writes a day with a time inside a sentence: Tuesday, March 23 at 14:00.
func (v Voice) dayAt(m repeat.Moment) string {
	return v.Say("day.at", Arg{"day", v.Day(m.Day)}, Arg{"time", v.clock(m.At)})
}

// clock writes a time of day. Where midnight is a word, nobody is sure which of the
// two that a day has is meant, so it is said.
func (v Voice) clock(c wall.Clock) string {
	text := v.Clock(c.HourMinute())
	if c == 0 && v.Clock12 {
		return v.Say("repeat.midnight", Arg{"midnight", text})
	}
	return text
}

// shownTyped is how much of a text that is not understood is shown, in bytes.
const shownTyped = 60

// RuleFault is the sentence about a fault of a rule: what is wrong and what to do.
// typed is the text that it was found in, or ""; where the fault names the part of
// it that matters, that is shown in its place.
func (v Voice) RuleFault(f repeat.Fault, typed string) string {
	if f.Value != "" {
		typed = f.Value
	}
	key := "rule-fault." + f.Code
	if typed == "" && v.Has(key+".blank") {
		key += ".blank"
	}
	return v.Say(key, Arg{"typed", clip(strings.TrimSpace(typed))},
		Number("every", repeat.MaxEvery), Number("count", repeat.MaxCount),
		Number("list", repeat.MaxList), Number("years", repeat.MaxSpan/365))
}

// clip shortens a long text, never within a character.
func clip(text string) string {
	if len(text) <= shownTyped {
		return text
	}
	text = strings.ToValidUTF8(text[:shownTyped], "")
	return text + "…"
}
