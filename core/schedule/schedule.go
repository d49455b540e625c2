// Package schedule turns a plan into dated duties and steps.
//
// A *duty* is something that one helper does at a time: it has a day, a time to be
// there, a time to leave and a time from which the helper is free again. A *step*
// is a line of a list with a due time or a window. Both carry an ID under which
// core/guide keeps their words, and nothing of their wording is decided here.
//
// Build is the only way in. It is a pure function of the plan: times are worked
// out in elapsed time between instants (so a night of a clock change does not
// shorten a fast), and wall-clock times of the program, such as 08:30, are placed
// in the plan's zone by RFC 5545 section 3.3.5.
//
// What is not known is not guessed. Without an arrival time there is no leave-by
// and no time for the last drink, only the day and what is missing (Needs).
package schedule

import (
	"time"

	"newel/core/plan"
	"newel/core/wall"
	"newel/core/zone"
)

// Schedule is what a plan comes to.
type Schedule struct {
	Plan    plan.Plan
	Loc     *time.Location
	Arrival time.Time // zero while not known
	Fit     zone.Fit  // whether the clocks skip or repeat the arrival time
	Duties  []Duty    // in order of day and time, the family's own among them
	Series  []Series  // the family's own, as they stand in the plan; dropped ones are left out
	Steps   []Step    // in the order of steps.txt
	Stages  []Stage   // the day in the hospital; empty while the arrival is not known
	Fasting Fasting

	presence []Presence
}

// Branch says for which of two possible stays something holds.
type Branch uint8

// The branches. While the stay is undecided a schedule holds both.
const (
	Always Branch = iota
	IfSameDay
	IfOneNight
)

// Place is where a helper has to be.
type Place uint8

// The places.
const (
	Hospital Place = iota
	Home
	Elsewhere // where an appointment is
)

// Need is what has to be told before a time can be worked out.
type Need uint8

// The needs. Where both are missing, NeedsArrival is the one that is asked first.
const (
	Nothing Need = iota
	NeedsArrival
	NeedsDrive
	NeedsRide // of one of the family's rides: how far its place is
)

// Span is a range of instants. From equals To for a single time; the zero Span is
// not known.
type Span struct{ From, To time.Time }

// Known tells whether there is a time.
func (s Span) Known() bool { return !s.From.IsZero() }

// Single tells whether the span is one time.
func (s Span) Single() bool { return s.From.Equal(s.To) }

func at(t time.Time) Span { return Span{t, t} }

func (s Span) add(least, most time.Duration) Span {
	return Span{s.From.Add(least), s.To.Add(most)}
}

// Build works out the schedule of a plan. Errors: the zone's, where the plan
// names one that does not exist; every other fault is for plan.Check to find.
func Build(p plan.Plan) (*Schedule, error) {
	loc, err := zone.Load(p.Zone)
	if err != nil {
		return nil, err
	}
	s := &Schedule{Plan: p, Loc: loc}
	if p.Arrival.Known() {
		s.Arrival, s.Fit = p.Surgery.At(loc, p.Arrival)
	}
	s.Stages = s.hospitalDay()
	s.Fasting = s.fasting()
	s.Duties = s.duties()
	s.Steps = s.steps()
	return s, nil
}

// rule is a number of the plan's program.
func (s *Schedule) rule(r plan.Rule) int { return s.Plan.Program.Get(r) }

func (s *Schedule) minutes(r plan.Rule) time.Duration {
	return time.Duration(s.rule(r)) * time.Minute
}

// clock places a rule that is a time of day on a day of the plan.
func (s *Schedule) clock(day wall.Date, r plan.Rule) time.Time {
	t, _ := day.At(s.Loc, wall.Clock(s.rule(r)))
	return t
}

// branches returns the stays that have to be planned for.
func (s *Schedule) branches() []Branch {
	switch s.Plan.Stay {
	case plan.SameDay:
		return []Branch{IfSameDay}
	case plan.OneNight:
		return []Branch{IfOneNight}
	}
	return []Branch{IfSameDay, IfOneNight}
}

// HomeDays returns the first and the last day on which the patient may go home.
func (s *Schedule) HomeDays() (first, last wall.Date) {
	first, last = s.Plan.Surgery, s.Plan.Surgery
	if s.Plan.Stay != plan.SameDay {
		last++
	}
	if s.Plan.Stay == plan.OneNight {
		first++
	}
	return first, last
}
