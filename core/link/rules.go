package link

import (
	"slices"
	"strconv"
	"strings"
	"time"

	"newel/core/merge"
	"newel/core/repeat"
	"newel/core/wall"
)

// How a rule ends.
const (
	endNone = iota
	endCount
	endLast
	endEnd
)

// rule codes a duty’s rule, its exceptions, and who has which of its dates.
func (f *form) rule(id uint32, kind string) {
	k := merge.Key{Field: merge.Pattern, Of: id}
	f.register(k, func(v string) string {
		r, ok := merge.ReadRule(v)
		if !ok && f.c.Encoding() {
			panic("link: a rule of a checked document cannot be read")
		}
		return merge.RuleText(f.pattern(r, kind))
	})
	r, ok := merge.ReadRule(f.firstOf(k))
	if !ok || f.c.Err() != nil {
		f.c.Fail()
		return
	}
	days := datesOf(r)
	f.section("exceptions")
	f.days(merge.Date, id, days, func(day wall.Date, v string) string { return f.moved(v, day, r) })
	f.listed(merge.Extra, id, f.keys(merge.Extra, id), func(from, sub uint32) uint32 {
		if from == 0 {
			from = uint32(r.First) << 11
		}
		day := uint32(int(from>>11) + f.c.Signed(&f.m.number[merge.Extra], int(sub>>11)-int(from>>11)))
		return day<<11 | uint32(f.time(int(sub&(1<<11-1)), int(r.At)))
	}, there)
	f.section("who")
	if f.c.Flag(&f.m.has[merge.On], len(f.keys(merge.On, id)) > 0) {
		for day := range uint32(7) {
			if r.Freq != repeat.Weekly || r.Days.Has(time.Weekday(day)) {
				f.optional(merge.Key{Field: merge.On, Of: id, Sub: day}, &f.m.hasRide[merge.On], f.helper)
			}
		}
	}
	f.days(merge.Takes, id, days, func(_ wall.Date, v string) string { return f.taker(v) })
}

// datesOf lists a rule's dates. Its bounds are those that core/repeat has too; they are the
// form's own, since a place in a longer list would be another number of bits.
func datesOf(r repeat.Rule) []wall.Date {
	const most, year, span = 1000, 365, 1830
	last := r.First + span
	if r.Endless() {
		last = r.First + year
	}
	days, _ := r.Pattern()
	within, found := slices.BinarySearch(days, last)
	if found {
		within++
	}
	return days[:min(within, most)]
}

// firstOf is the first version of a register.
func (f *form) firstOf(k merge.Key) string {
	if v := f.d.Get(k); len(v) > 0 {
		return v[0].Value
	}
	return ""
}

// pattern codes a rule without exceptions.
func (f *form) pattern(r repeat.Rule, kind string) repeat.Rule {
	m := &f.m
	var out repeat.Rule
	out.First = f.h.Surgery + wall.Date(f.c.Signed(&m.number[merge.Pattern], int(r.First-f.h.Surgery)))
	out.At = wall.Clock(number(f.before(merge.Pattern, kind, func(v string) string { return strconv.Itoa(f.clock(number(v))) })(strconv.Itoa(int(r.At)))))
	out.Freq = repeat.Freq(f.c.Choose(&m.freq[min(number(kind), kinds)], min(int(r.Freq), 3)))
	out.Every = 1
	if out.Freq != repeat.Once && f.c.Flag(&m.notEach, r.Every != 1) {
		out.Every = int(f.c.Number(&m.number[byEvery], uint64(r.Every)))
	}
	switch out.Freq {
	case repeat.Weekly:
		f.weekdays(&out, r)
	case repeat.Monthly:
		f.monthDays(&out, r)
	}
	if out.Freq != repeat.Once {
		f.ends(&out, r)
	}
	return out
}

func (f *form) weekdays(out *repeat.Rule, r repeat.Rule) {
	first := out.First.Weekday()
	out.Days = repeat.DaysOf(first)
	for day := range time.Weekday(7) {
		weekend := one(day == time.Saturday || day == time.Sunday)
		if day != first && f.c.Flag(&f.m.weekday[weekend], r.Days.Has(day)) {
			out.Days |= repeat.DaysOf(day)
		}
	}
	out.Week = time.Monday
	if f.c.Flag(&f.m.notMonday, r.Week != time.Monday) {
		out.Week = time.Weekday(f.c.Uniform(int(r.Week), 7))
	}
}

// The most that a rule by the month can name.
const mostMonthly = 80

func (f *form) monthDays(out *repeat.Rule, r repeat.Rule) {
	n := f.count(byMonthDay, len(r.MonthDays))
	for i := range min(n, mostMonthly) {
		var d int8
		if i < len(r.MonthDays) {
			d = r.MonthDays[i]
		}
		out.MonthDays = append(out.MonthDays, int8(f.c.Uniform(int(d)+31, 63)-31))
	}
	n = f.count(byNth, len(r.Nth))
	for i := range min(n, mostMonthly) {
		var nth repeat.Nth
		if i < len(r.Nth) {
			nth = r.Nth[i]
		}
		nth.N = int8(f.c.Uniform(int(nth.N)+5, 11) - 5)
		nth.Day = time.Weekday(f.c.Uniform(int(nth.Day), 7))
		out.Nth = append(out.Nth, nth)
	}
}

func (f *form) ends(out *repeat.Rule, r repeat.Rule) {
	end := endNone
	switch {
	case r.Count > 0:
		end = endCount
	case r.Last != 0:
		end = endLast
	}
	switch f.c.Choose(&f.m.end, end) {
	case endCount:
		out.Count = int(f.c.Number(&f.m.number[byCount], uint64(r.Count)))
	case endLast:
		span := int(r.Last-r.First) + 1
		if !f.c.Flag(&f.m.notWeeks, span%7 != 0) {
			span = 7 * int(f.c.Number(&f.m.number[byWeeks], uint64(span/7)))
		} else {
			span = int(f.c.Number(&f.m.number[bySpan], uint64(span)))
		}
		out.Last = out.First + wall.Date(span) - 1
	}
}

// days codes registers of single days in ascending order: those that the rule has by
// their place among its dates, others by the day.
func (f *form) days(field merge.Field, id uint32, days []wall.Date, value func(wall.Date, string) string) {
	next := 0
	var first, day wall.Date
	if len(days) > 0 {
		first = days[0]
	}
	f.listed(field, id, f.keys(field, id), func(_, sub uint32) uint32 {
		at, found := slices.BinarySearch(days, wall.Date(sub))
		if !f.c.Flag(&f.m.notInRule, !found || at < next) {
			if next == len(days) {
				f.c.Fail()
				return 0
			}
			at = next + f.c.Uniform(max(at-next, 0), len(days)-next)
			next, day = at+1, days[at]
		} else {
			day = first + wall.Date(f.c.Signed(&f.m.number[byOther], int(sub)-int(first)))
		}
		return uint32(day)
	}, func(v string) string { return value(day, v) })
}

// time codes a time that is often the rule’s own.
func (f *form) time(minutes, usual int) int {
	if !f.c.Flag(&f.m.same[byTime], minutes != usual) {
		return usual
	}
	return f.clock(min(minutes, 24*60-1))
}

// moved codes what happened to a date: "-", or the day and the minutes.
func (f *form) moved(v string, from wall.Date, r repeat.Rule) string {
	if !f.c.Flag(&f.m.notOut, v != "-") {
		return "-"
	}
	day, at, _ := strings.Cut(v, " ")
	to := int(from) + f.c.Signed(&f.m.number[byMove], number(day)-int(from))
	return strconv.Itoa(to) + " " + strconv.Itoa(f.time(number(at), int(r.At)))
}

// taker codes who has a single date, "-" being nobody.
func (f *form) taker(v string) string {
	if f.c.Flag(&f.m.same[merge.Takes], v == "-") {
		return "-"
	}
	return f.helper(v)
}
