package repeat

import (
	"slices"
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
	r.MonthDays = slices.Compact(slices.Sorted(slices.Values(r.MonthDays)))
	r.Nth = compactNth(r.Nth)
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

func compactNth(list []Nth) []Nth {
	list = slices.SortedFunc(slices.Values(list), func(a, b Nth) int {
		if a.Day != b.Day {
			return int(a.Day) - int(b.Day)
		}
		return int(a.N) - int(b.N)
	})
	list = slices.Compact(list)
	every := func(d time.Weekday) bool { return slices.Contains(list, Nth{0, d}) }
	kept := list[:0:0]
	for _, n := range list {
		if n.N == 0 || !every(n.Day) { // "every Friday and the first Friday" is every Friday
			kept = append(kept, n)
		}
	}
	return kept
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
	skipped := slices.Compact(slices.Sorted(slices.Values(r.Skipped)))
	skipped = slices.DeleteFunc(skipped, func(d wall.Date) bool { return !has(d) })
	extra := slices.Clone(r.Extra)
	var moved []Move
	for _, m := range slices.SortedStableFunc(slices.Values(r.Moved), func(a, b Move) int { return int(a.From - b.From) }) {
		switch {
		case slices.Contains(skipped, m.From), m.To == Moment{m.From, r.At}:
		case !has(m.From):
			extra = append(extra, m.To)
		case len(moved) > 0 && moved[len(moved)-1].From == m.From:
		default:
			moved = append(moved, m)
		}
	}
	r.Skipped, r.Moved = orNil(skipped), moved
	r.Extra = r.tidyExtra(extra, has)
}

// tidyExtra drops extra dates that the rule has anyway.
func (r *Rule) tidyExtra(extra []Moment, has func(wall.Date) bool) []Moment {
	stands := func(m Moment) bool {
		regular := m.At == r.At && has(m.Day) && !slices.Contains(r.Skipped, m.Day) &&
			!slices.ContainsFunc(r.Moved, func(v Move) bool { return v.From == m.Day })
		return regular || slices.ContainsFunc(r.Moved, func(v Move) bool { return v.To == m })
	}
	extra = slices.SortedFunc(slices.Values(extra), func(a, b Moment) int {
		if a.Day != b.Day {
			return int(a.Day - b.Day)
		}
		return int(a.At - b.At)
	})
	return orNil(slices.DeleteFunc(slices.Compact(extra), stands))
}

// orNil gives nil for an empty list, so that equal rules are equal in their fields.
func orNil[T any](list []T) []T {
	if len(list) == 0 {
		return nil
	}
	return list
}
