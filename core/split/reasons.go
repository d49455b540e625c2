package split

import (
	"newel/core/plan"
	"newel/core/schedule"
)

// lacks pairs the abilities with the reasons, in the order in which reasons are said.
var lacks = [...]struct {
	ability plan.Abilities
	why     Why
}{{plan.CanDrive, NoCar}, {plan.CanNight, NoNight}, {plan.CanSteady, NoSteady}, {plan.CanPets, NoPets}}

// obstacle is a Reason on the axis of minutes: cheap to make, since whole families are asked
// about thousands of dates.
type obstacle struct {
	why Why
	in  stretch // AtWork, IsAway, NotThen: that time; empty: there is none
}

// obstacles appends why somebody cannot do a duty, whatever else they have: nothing where
// they can. The most telling comes first: that they are out, then what they cannot do, then
// when they cannot.
func (p *person) obstacles(s *schedule.Schedule, n *need, into []obstacle) []obstacle {
	if p.out {
		return append(into, obstacle{why: IsOut})
	}
	for _, l := range lacks {
		if n.asks&^p.can&l.ability != 0 {
			into = append(into, obstacle{why: l.why})
		}
	}
	if !p.limited && len(p.work)+len(p.gone) == 0 {
		return into
	}
	d := &s.Duties[n.duty]
	spans, count := spansOf(s, d, p.ownWay(d))
	for _, span := range spans[:count] {
		into = p.notAt(span, into)
	}
	return into
}

// notAt appends why somebody cannot at a time, each kind of reason once.
func (p *person) notAt(span stretch, into []obstacle) []obstacle {
	if at, found := touching(p.work, span); found && !said(into, AtWork) {
		into = append(into, obstacle{AtWork, at})
	}
	if at, found := touching(p.gone, span); found && !said(into, IsAway) {
		into = append(into, obstacle{IsAway, at})
	}
	if p.limited && !said(into, NotThen) {
		if at, inside := p.nearestFree(span); !inside {
			into = append(into, obstacle{NotThen, at})
		}
	}
	return into
}

func said(all []obstacle, why Why) bool {
	for _, o := range all {
		if o.why == why {
			return true
		}
	}
	return false
}

// nearestFree finds the free time that a span lies in, or the one that it overlaps most, or
// the one nearest to it; of two that are equal the earlier.
func (p *person) nearestFree(span stretch) (nearest stretch, inside bool) {
	first := max(after(p.free, span.from)-1, 0)
	best := 0
	for i := first; i < len(p.free); i++ {
		f := p.free[i]
		if f.from <= span.from && span.to <= f.to {
			return f, true
		}
		// Above 0 is how long they overlap, below it how far they are apart.
		if near := min(f.to, span.to) - max(f.from, span.from); i == first || near > best {
			nearest, best = f, near
		}
		if f.from >= span.to {
			break
		}
	}
	return nearest, false
}

// reason puts an obstacle on the wall.
func (o obstacle) reason(s *schedule.Schedule) Reason {
	r := Reason{Why: o.why}
	if o.in != (stretch{}) {
		r.From, r.Until = timeAt(o.in.from, s.Loc), timeAt(o.in.to, s.Loc)
	}
	return r
}
