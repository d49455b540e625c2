// Package repeat holds repeating rules on wall-clock time: every Monday and Friday
// at 10:30 until the 23rd, not on the 6th.
//
// A Rule is a small value of our own, never a text: what a link or a calendar file
// says is read into one (Parse) or refused with a Fault. Rule.All lists its dates;
// Rule.Recur writes it as iCalendar (RFC 5545 3.3.10). Its words are core/guide's.
//
// All works without a zone, on the days and the clock of the wall, so a ride at
// 10:30 is at 10:30 on both sides of a change of the clocks. Each date is placed in
// a zone afterwards (Occurrence.Place). A time that the clocks skip or repeat that
// night is read as RFC 5545 3.3.5 says: a skipped 02:30 is 03:30, a repeated 01:30
// is the first one. RFC 5545 3.3.10 contradicts it for rules (a date whose time does
// not exist is to be left out); a ride that silently disappears from a plan is worse
// than one at an odd time, so 3.3.5 holds here, and the page says so beside it.
//
// Days, weeks and months are counted here, with a bound on the days and on the dates.
// A Rule that passes Check has at most MaxCount dates within MaxSpan days and is
// expanded in well under a millisecond.
package repeat

import (
	"slices"
	"time"

	"newel/core/wall"
)

// The bounds of a rule. They are wide for a family and narrow for a hostile link.
const (
	MaxEvery = 99   // every so many days, weeks or months
	MaxCount = 1000 // dates of a rule
	MaxSpan  = 1830 // days from the first to the last date: five years
	MaxList  = 100  // skipped, extra and moved dates, each
	Year     = 365  // days after the first on which a rule without an end is cut
)

// Freq is what a rule counts in.
type Freq uint8

// The frequencies. Their numbers go into links.
const (
	Once Freq = iota
	Daily
	Weekly
	Monthly
	freqEnd
)

// Days is a set of weekdays; bit d stands for time.Weekday(d), Sunday being 0.
type Days uint8

// AllDays is the whole week.
const AllDays Days = 1<<7 - 1

// DaysOf makes a set.
func DaysOf(days ...time.Weekday) Days {
	var set Days
	for _, d := range days {
		set |= 1 << d
	}
	return set
}

// Has tells whether a weekday is in the set.
func (s Days) Has(d time.Weekday) bool { return s&(1<<d) != 0 }

// Len is how many weekdays there are.
func (s Days) Len() int {
	n := 0
	for ; s != 0; s &= s - 1 {
		n++
	}
	return n
}

// Nth is a weekday of a month: the first Friday is {1, Friday}, the last {-1,
// Friday}, every Friday of the month {0, Friday}.
type Nth struct {
	N   int8 // -5 to 5
	Day time.Weekday
}

// Rule is a repeating rule, or a single date. Dates are days on the wall; each has
// the rule's time, unless it was moved or added with another.
type Rule struct {
	First wall.Date  // the first date; the pattern holds for it
	At    wall.Clock // 0 to 1439
	Freq  Freq
	Every int // 1 to MaxEvery; 1 for Once

	Days Days         // Weekly: on these days; at least one
	Week time.Weekday // Weekly, every second week or rarer: the day on which weeks begin

	MonthDays []int8 // Monthly: days of the month, 1 to 31, or -1 to -31 from its end; ascending
	Nth       []Nth  // Monthly: or weekdays of the month; ascending

	Count int       // the pattern ends after so many dates, skipped ones counted; 0: not so
	Last  wall.Date // the pattern ends on this day at the latest; 0: not so

	Skipped []wall.Date // dates of the pattern that fall out; ascending
	Moved   []Move      // dates of the pattern that are at another time; ascending
	Extra   []Moment    // dates beside the pattern; ascending
}

// Moment is a day with a time.
type Moment struct {
	Day wall.Date
	At  wall.Clock
}

// Move puts one date of a pattern on another day or time.
type Move struct {
	From wall.Date
	To   Moment
}

// Equal tells whether two rules are the same, field by field. Rules that passed
// Canonical and are equal in what they say are equal in their fields.
func (r Rule) Equal(q Rule) bool {
	return r.First == q.First && r.At == q.At && r.Freq == q.Freq && r.Every == q.Every &&
		r.Days == q.Days && r.Week == q.Week && r.Count == q.Count && r.Last == q.Last &&
		slices.Equal(r.MonthDays, q.MonthDays) && slices.Equal(r.Nth, q.Nth) &&
		slices.Equal(r.Skipped, q.Skipped) && slices.Equal(r.Moved, q.Moved) && slices.Equal(r.Extra, q.Extra)
}

// Endless tells whether a rule has no end of its own. Its dates are cut a year after
// the first.
func (r Rule) Endless() bool { return r.Freq != Once && r.Count == 0 && r.Last == 0 }

// Occurrence is one date of a rule.
type Occurrence struct {
	Moment
	Of   wall.Date // the pattern's date, by which it is skipped or moved; of an extra one its own day
	Kind Kind
}

// Kind says where a date comes from.
type Kind uint8

// The kinds of dates.
const (
	Regular Kind = iota
	WasMoved
	Added
)
