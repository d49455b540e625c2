package schedule

import (
	"slices"
	"time"

	"newel/core/plan"
	"newel/core/wall"
)

// Move is one thing that a change of the plan put on another day or time, added
// or took away.
type Move struct {
	ID      string
	Variant string     // of a step's wording, as it is now
	Duty    bool       // a duty, else a step
	Line    *plan.Line // of an own line, which has no ID
	N, Of   int
	Before  *When // nil: it was not there
	After   *When // nil: it is not there any more
}

// When is a day, and the time on it where one is known. Of a duty it is the time
// to leave where both plans know it, else the time to be there.
type When struct {
	Day  wall.Date
	Time time.Time // zero: no time of day
}

type moveKey struct {
	id   string
	duty bool
	n    int
	line uint32
}

// movable is what a change of plan may move, with the times that stand for it.
type movable struct {
	key     moveKey
	unknown bool // of a step: what its time hangs on is not known
	variant string
	line    *plan.Line
	of      int
	day     wall.Date
	first   time.Time // of a duty the time to leave, of a step its own
	second  time.Time // of a duty the time to be there
}

// Moves compares two schedules of one plan and lists what moved, in the new
// order; what is gone comes last. A time that was not known before and is known
// now has not moved. Nor has an own line that was added or taken out, or that got its first
// day or lost it: nothing else of the plan is another one by that.
func Moves(before, after *Schedule) []Move {
	was := map[moveKey]movable{}
	old := before.movables()
	for _, m := range old {
		was[m.key] = m
	}
	var moves []Move
	for _, m := range after.movables() {
		then, known := was[m.key]
		delete(was, m.key)
		before, now := then.when(m), m.when(then)
		switch {
		case known && then.unknown != m.unknown: // it became known, or is no longer
		case !known && m.line != nil:
		case !known:
			now = m.when(m)
			moves = append(moves, m.move(nil, &now))
		case !before.same(now):
			moves = append(moves, m.move(&before, &now))
		}
	}
	for _, m := range old {
		if _, left := was[m.key]; left && m.line == nil {
			gone := m.when(m)
			moves = append(moves, m.move(&gone, nil))
		}
	}
	return moves
}

func (m movable) move(before, after *When) Move {
	return Move{ID: m.key.id, Variant: m.variant, Duty: m.key.duty, Line: m.line, N: m.key.n, Of: m.of, Before: before, After: after}
}

// when gives the day and the time that m and its counterpart both know.
func (m movable) when(other movable) When {
	switch {
	case !m.first.IsZero() && !other.first.IsZero():
		return When{m.day, m.first}
	case !m.second.IsZero() && !other.second.IsZero():
		return When{m.day, m.second}
	}
	return When{Day: m.day}
}

func (w When) same(v When) bool { return w.Day == v.Day && w.Time.Equal(v.Time) }

// movables lists duties, then steps.
func (s *Schedule) movables() []movable {
	var all []movable
	stays := s.presence
	for i := range s.Duties {
		d := &s.Duties[i]
		switch {
		case d.Family != nil: // a rule that changes is one thing, not forty
		case d.IsSlot(): // and so is staying with the patient
			for _, p := range stays {
				all = append(all, movable{key: moveKey{id: d.ID, duty: true, n: int(p.Branch)}, day: wall.DateOf(p.Whole.From), second: p.Whole.From})
			}
			stays = nil
		default:
			all = append(all, movable{key: moveKey{id: d.ID, duty: true, n: int(d.Branch)}, day: d.Day, first: d.Leave, second: d.There.From})
		}
	}
	for _, st := range s.Steps {
		at := st.Until
		if st.Due == Through {
			at = st.From
		}
		m := movable{key: moveKey{id: st.ID, n: st.N}, unknown: st.Needs != Nothing, variant: st.Variant, line: st.Line, of: st.Of, day: st.First, first: at}
		if st.Line != nil {
			m.key.line, m.unknown = st.Line.ID, st.Due == Undated
		}
		all = append(all, m)
	}
	return all
}

// SameTimes tells whether everything that every plan has is at the same times in two
// schedules. The family's duties have a count of their own, see SameDates.
func SameTimes(before, after *Schedule) bool {
	return len(Moves(before, after)) == 0 && slices.EqualFunc(before.ends(), after.ends(), time.Time.Equal) &&
		before.Plan.Zone == after.Plan.Zone
}

// ends are the times that Moves does not look at.
func (s *Schedule) ends() []time.Time {
	var ends []time.Time
	for i := range s.Duties {
		if d := &s.Duties[i]; d.Family == nil {
			ends = append(ends, d.Leave, d.There.From, d.There.To, d.Ends.From, d.Ends.To, d.Home.To, d.Free)
		}
	}
	for i := range s.Steps {
		if s.Steps[i].Line == nil { // own lines have days and no times
			ends = append(ends, s.Steps[i].From, s.Steps[i].Until)
		}
	}
	return ends
}

// SameDates tells whether the dates of one of the family's duties are at the same times
// in two schedules.
func SameDates(before, after *Schedule, id uint32) bool {
	return before.Plan.Zone == after.Plan.Zone && slices.EqualFunc(before.dates(id), after.dates(id), time.Time.Equal)
}

func (s *Schedule) dates(id uint32) []time.Time {
	var dates []time.Time
	for _, series := range s.Series {
		if series.Duty.ID != id {
			continue
		}
		for _, i := range series.Dates {
			d := &s.Duties[i]
			dates = append(dates, d.Session.From, d.Session.To)
			for _, busy := range d.Busy() {
				dates = append(dates, busy.From, busy.To)
			}
		}
	}
	return dates
}
