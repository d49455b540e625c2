package merge

import (
	"sort"
	"time"

	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/wall"
)

// shownDuty is a duty that is being put together.
type shownDuty struct {
	plan.Duty
	alive   bool
	pattern string
	skipped []wall.Date
	moved   []repeat.Move
	extra   []repeat.Moment
}

// duty takes over a register of a duty.
func (s *shownPlan) duty(k Key) {
	d := s.duties[k.Of]
	if d == nil {
		d = &shownDuty{Duty: plan.Duty{ID: k.Of, Ride: plan.Ride{Drive: plan.Unknown, Parking: plan.Unknown}}}
		s.duties[k.Of] = d
	}
	v := s.doc.value(k)
	switch k.Field {
	case Alive:
		d.alive = true
	case Title:
		d.Title = v
	case Place:
		d.Place = v
	case Note:
		d.Note = v
	case Leaves:
		d.Ride.Leaves = true
	case Steady:
		d.Steady = true
	case Pattern:
		d.pattern = v
	case Date:
		d.date(wall.Date(k.Sub), v)
	case Extra:
		d.extra = append(d.extra, momentOf(k.Sub))
	case Who:
		d.Who = s.helpers.who(v)
	case On:
		if k.Sub < uint32(len(d.On)) {
			d.On[time.Weekday(k.Sub)] = s.helpers.who(v)
		}
	case Takes:
		d.take(plan.Take{Day: wall.Date(k.Sub), Who: s.helpers.who(v)})
	default:
		d.number(k.Field, v)
	}
}

// number takes over a register that holds a number.
func (d *shownDuty) number(f Field, v string) {
	n := numberOr(v, 0)
	switch f {
	case Kind:
		if d.Kind = plan.DutyKind(n); d.Kind >= plan.DutyKindEnd {
			d.Kind = plan.OtherDuty
		}
	case Source:
		d.Source = uint32(n)
	case Length:
		d.Length = n
	case Own:
		d.Ride.Own = n
	case Way:
		d.Ride.Drive = n
	case Walk:
		d.Ride.Parking = n
	case Early:
		d.Ride.Early = n
	case Need:
		if n <= int(plan.NiceToHave) {
			d.Need = plan.Need(n)
		}
	}
}

func (d *shownDuty) date(day wall.Date, v string) {
	if to, moved := Moved(v); moved {
		d.moved = append(d.moved, repeat.Move{From: day, To: to})
	} else {
		d.skipped = append(d.skipped, day)
	}
}

// take notes who has a single date; of more than a plan may have, the first ones.
func (d *shownDuty) take(t plan.Take) {
	if len(d.Takes) < plan.MostTakes {
		d.Takes = append(d.Takes, t)
	}
}

// family gives the duties in the order of their numbers. A duty without a pattern is not
// shown; Check lets none through.
func (s *shownPlan) family() []plan.Duty {
	ids := make([]uint32, 0, len(s.duties))
	for id := range s.duties {
		ids = append(ids, id)
	}
	sort.Slice(ids, func(i, j int) bool { return ids[i] < ids[j] })
	moves := s.doc.moves()
	var family []plan.Duty
	for _, id := range ids {
		d := s.duties[id]
		pattern, ok := readPattern(d.pattern)
		if !ok {
			continue
		}
		d.Revision = uint16(min(moves[id], maxMoves))
		rule, dates := d.rule(pattern)
		d.Rule, d.Dropped = rule, !d.alive || !dates
		family = append(family, d.Duty)
	}
	return family
}

// rule puts the exceptions to a pattern. dates is false where they leave no date, which
// happens only when copies are joined: then the pattern is given alone.
func (d *shownDuty) rule(pattern repeat.Rule) (r repeat.Rule, dates bool) {
	if len(d.skipped)+len(d.moved)+len(d.extra) == 0 {
		return pattern, true
	}
	r = pattern
	near := func(m repeat.Moment) bool {
		return m.Day >= r.First-repeat.MaxSpan && m.Day <= r.First+2*repeat.MaxSpan
	}
	r.Skipped = d.skipped[:min(len(d.skipped), repeat.MaxList)]
	for _, m := range d.moved {
		if near(m.To) && len(r.Moved) < repeat.MaxList {
			r.Moved = append(r.Moved, m)
		}
	}
	for _, m := range d.extra {
		if near(m) && len(r.Extra) < repeat.MaxList {
			r.Extra = append(r.Extra, m)
		}
	}
	r = settled(r)
	if r.Check() != nil {
		return pattern, false
	}
	return r, true
}

// settled makes a rule canonical. A date that was moved off a day which the pattern no
// longer has becomes an extra one, and may then undo another exception: so it is done
// until nothing changes.
func settled(r repeat.Rule) repeat.Rule {
	for range 4 {
		next := r.Canonical()
		next.Extra = next.Extra[:min(len(next.Extra), repeat.MaxList)]
		if next.Equal(r) {
			return r
		}
		r = next
	}
	return r
}
