package repeat

import (
	"slices"
	"sort"
	"time"

	"newel/core/wall"
)

// firstWithin is how many days after the given first day a pattern's own first day
// is looked for: a fifth weekday comes after at most three months.
const firstWithin = 200

// Canonical gives the one form of a rule: its first day is a day of the pattern (the
// next one, where the given day is none), lists are in order without twins, what has
// no meaning is zero. A skipped or moved date that the pattern does not have (any
// more) is dropped; a moved one becomes an extra date, since somebody agreed to it.
// A rule that Check refuses is given back with what could be mended.
func (r Rule) Canonical() Rule {
	r.clear()
	r.MonthDays, r.Nth = tidyMonthDays(r.MonthDays), tidyNth(r.Nth)
	if r.checkFields() != nil {
		return r
	}
	r.toFirst()
	r.Week = r.plainWeek()
	if r.checkEnd() != nil {
		return r
	}
	r.lists()
	return r
}

// clear empties the fields that the frequency does not use.
func (r *Rule) clear() {
	if r.Freq == Weekly && r.Days == AllDays && r.Every == 1 {
		r.Freq = Daily
	}
	if r.Freq != Weekly {
		r.Days, r.Week = 0, 0
	}
	if r.Freq != Monthly {
		r.MonthDays, r.Nth = nil, nil
	}
	if r.Freq == Once {
		r.Every, r.Count, r.Last = 1, 0, 0
	}
}

// tidyMonthDays gives the days of a month in order without twins. A list with a day
// that no month has is left for Check to refuse.
func tidyMonthDays(list []int8) []int8 {
	var set uint64 // bit 31 + day
	for _, d := range list {
		if d < -31 || d > 31 {
			return list
		}
		set |= 1 << (31 + d)
	}
	var tidy []int8
	for d := int8(-31); d <= 31; d++ {
		if set&(1<<(31+d)) != 0 {
			tidy = append(tidy, d)
		}
	}
	return tidy
}

// The numbers of one weekday as a set: bit 5 + number.
const (
	everyOne  = 1 << 5
	allFirst  = 0b11111 << 6 // the first to the fifth
	allFromOf = 0b11111      // the same from the end
)

// tidyNth does the same to weekdays of a month. "Every Friday and the first Friday" is
// every Friday, and so are the first to the fifth.
func tidyNth(list []Nth) []Nth {
	var sets [7]uint16
	for _, n := range list {
		if n.N < -5 || n.N > 5 || n.Day < 0 || n.Day > 6 {
			return list
		}
		sets[n.Day] |= 1 << (5 + n.N)
	}
	var tidy []Nth
	for day, set := range sets {
		if set&everyOne != 0 || set&allFirst == allFirst || set&allFromOf == allFromOf {
			set = everyOne
		}
		for n := int8(-5); n <= 5; n++ {
			if set&(1<<(5+n)) != 0 {
				tidy = append(tidy, Nth{n, time.Weekday(day)})
			}
		}
	}
	return tidy
}

// toFirst moves the first day on to the next day of the pattern.
func (r *Rule) toFirst() {
	for range firstWithin {
		if r.Freq == Weekly && r.Days.Has(r.First.Weekday()) || r.Freq == Monthly && r.fits(r.First) ||
			r.Freq == Once || r.Freq == Daily {
			return
		}
		r.First++
	}
}

// plainWeek is the most usual first day of the week that gives the same dates as the
// rule's own: Monday, else Sunday. Where every week counts, or only one day of it,
// all do.
func (r Rule) plainWeek() time.Weekday {
	if r.Freq != Weekly {
		return 0
	}
	own := r.firstWeek(r.Week)
	for _, week := range [...]time.Weekday{1, 0, 2, 3, 4, 5, 6} {
		if r.Every == 1 || r.firstWeek(week) == own {
			return week
		}
	}
	return r.Week
}

// firstWeek is the days of the week around the first day, if weeks begin on that
// day: bit 6 is the first day itself, bit 0 six days before it.
func (r Rule) firstWeek(week time.Weekday) uint16 {
	into := int(r.First.Weekday()-week+7) % 7
	var set uint16
	for d := range 7 {
		if r.Days.Has((week + time.Weekday(d)) % 7) {
			set |= 1 << (6 + d - into)
		}
	}
	return set
}

// lists brings skipped, moved and extra dates in order with the pattern.
func (r *Rule) lists() {
	if len(r.Skipped)+len(r.Moved)+len(r.Extra) == 0 {
		r.Skipped, r.Moved, r.Extra = nil, nil, nil
		return
	}
	days, _ := r.pattern(nil)
	has := func(day wall.Date) bool { _, found := slices.BinarySearch(days, day); return found }
	r.Skipped = tidySkipped(r.Skipped, has)
	extra := slices.Clone(r.Extra)
	putBack := func(d wall.Date) bool { return slices.Contains(extra, Moment{d, r.At}) }
	r.Skipped = orNil(slices.DeleteFunc(r.Skipped, putBack)) // left out and added again is as before
	var moved []Move
	all := inOrder(r.Moved, func(a, b Move) bool { return a.From < b.From })
	for i, m := range all {
		switch {
		case i+1 < len(all) && all[i+1].From == m.From: // the later word counts
		case slices.Contains(r.Skipped, m.From), m.To == Moment{m.From, r.At}:
		case !has(m.From):
			extra = append(extra, m.To)
		default:
			moved = append(moved, m)
		}
	}
	r.Moved = moved
	r.Extra = r.tidyExtra(extra, has)
}

// inOrder sorts a copy. Through package sort: a generic sort is compiled anew for each
// type, 5 kB of wasm apiece.
func inOrder[T any](list []T, less func(a, b T) bool) []T {
	list = slices.Clone(list)
	sort.SliceStable(list, func(i, j int) bool { return less(list[i], list[j]) })
	return list
}

func tidySkipped(list []wall.Date, has func(wall.Date) bool) []wall.Date {
	var tidy []wall.Date
	for _, d := range inOrder(list, func(a, b wall.Date) bool { return a < b }) {
		if has(d) && (len(tidy) == 0 || tidy[len(tidy)-1] != d) {
			tidy = append(tidy, d)
		}
	}
	return tidy
}

// tidyExtra drops extra dates that the rule has anyway.
func (r *Rule) tidyExtra(extra []Moment, has func(wall.Date) bool) []Moment {
	stands := func(m Moment) bool {
		regular := m.At == r.At && has(m.Day) && !slices.Contains(r.Skipped, m.Day) &&
			!slices.ContainsFunc(r.Moved, func(v Move) bool { return v.From == m.Day })
		return regular || slices.ContainsFunc(r.Moved, func(v Move) bool { return v.To == m })
	}
	var tidy []Moment
	for _, m := range inOrder(extra, Moment.before) {
		if !stands(m) && (len(tidy) == 0 || tidy[len(tidy)-1] != m) {
			tidy = append(tidy, m)
		}
	}
	return tidy
}

// orNil gives nil for an empty list, so that equal rules are equal in their fields.
func orNil[T any](list []T) []T {
	if len(list) == 0 {
		return nil
	}
	return list
}
