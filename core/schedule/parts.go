package schedule

import (
	"sort"
	"time"

	"newel/core/plan"
	"newel/core/wall"
)

// part is a slot of the presence, or what is left of it.
type part struct {
	slot        plan.Slot
	there, ends Span
	sure        time.Duration // how long it is at least
	must        time.Time     // until when somebody must be there, of all its branches
	branches    [IfOneNight + 1]bool
	open        bool
}

// partBegins are the times of day at which parts begin.
var partBegins = [...]wall.Clock{plan.Morning: 8 * 60, plan.Afternoon: 14 * 60, plan.Night: 20 * 60}

// partStart is when a slot begins on the wall.
func (s *Schedule) partStart(slot plan.Slot) time.Time {
	t, _ := (s.Plan.Surgery + wall.Date(slot.Day())).At(s.Loc, partBegins[slot.Part()])
	return t
}

// partsOf cuts a presence into slots. The first slot takes in what is before it, the last
// what is after it. home is when the patient comes home.
func (s *Schedule) partsOf(p Presence, home Span) []part {
	ends := Span{p.Whole.To.Add(home.From.Sub(home.To)), p.Whole.To}
	var parts []part
	for slot := plan.Slot(0); slot <= plan.MaxSlot; slot++ {
		from, to := s.partStart(slot), ends.To
		if slot == 0 {
			from = earlier(from, home.From)
		}
		if slot < plan.MaxSlot {
			to = earlier(s.partStart(slot+1), ends.To)
		}
		from = later(from, home.From)
		if !from.Before(to) {
			continue
		}
		q := part{slot: slot, must: p.Must.To, open: p.Open && to.Equal(ends.To)}
		q.there = Span{from, later(from, earlier(home.To, to))}
		q.ends = Span{later(from, earlier(ends.From, to)), to}
		q.sure = q.ends.From.Sub(q.there.To)
		q.branches[p.Branch] = true
		parts = append(parts, q)
	}
	return parts
}

// bothBranches makes one part of two with the same slot, which holds both. Where the one has
// an end that is not before what the other has at the earliest, the part has one.
func bothBranches(parts []part) []part {
	sort.SliceStable(parts, func(i, j int) bool { return parts[i].slot < parts[j].slot })
	var all []part
	for _, q := range parts {
		if len(all) == 0 || all[len(all)-1].slot != q.slot {
			all = append(all, q)
			continue
		}
		a := &all[len(all)-1]
		a.open = a.open && !q.ends.To.After(a.ends.To) || q.open && !a.ends.To.After(q.ends.To)
		a.there = Span{earlier(a.there.From, q.there.From), later(a.there.To, q.there.To)}
		a.ends = Span{earlier(a.ends.From, q.ends.From), later(a.ends.To, q.ends.To)}
		a.sure, a.must = max(a.sure, q.sure), later(a.must, q.must)
		a.takeBranches(q)
	}
	return all
}

func (q *part) takeBranches(other part) {
	for b := range q.branches {
		q.branches[b] = q.branches[b] || other.branches[b]
	}
}

// nightsOf lists when somebody is with the patient by the family's own nights, in order.
func nightsOf(family []Duty) []Span {
	var nights []Span
	for i := range family {
		if family[i].Family.Kind == plan.Nights {
			nights = append(nights, family[i].Session)
		}
	}
	sort.Slice(nights, func(i, j int) bool { return nights[i].From.Before(nights[j].From) })
	return nights
}

// cut takes the nights out of the parts.
func cut(parts []part, nights []Span) []part {
	var all []part
	for _, q := range parts {
		from := q.there.From
		for _, night := range nights {
			if night.To.After(from) && night.From.Before(q.ends.To) {
				all = append(all, q.between(from, night.From)...)
				from = night.To
			}
		}
		all = append(all, q.between(from, q.ends.To)...)
	}
	return all
}

// between is what is left of a part from one time to another, if anything.
func (q part) between(from, to time.Time) []part {
	if !from.Before(to) {
		return nil
	}
	q.open = q.open && to.Equal(q.ends.To)
	q.there = Span{later(q.there.From, from), earlier(later(q.there.To, from), to)}
	q.ends = Span{later(earlier(q.ends.From, to), from), earlier(q.ends.To, to)}
	q.sure = min(q.sure, to.Sub(from))
	return []part{q}
}

// shortPart is up to how long a part goes with the one beside it: nobody comes for less.
// Common practice, no published source.
const shortPart = time.Hour

// joined lets a short part, and one of two that a night left of a slot, go with the part
// beside it. Two that have none beside them become one, with the night in between.
func joined(parts []part) []part {
	for i := 0; i < len(parts); i++ {
		twin := i > 0 && parts[i-1].slot == parts[i].slot || i+1 < len(parts) && parts[i+1].slot == parts[i].slot
		if !twin && parts[i].sure > shortPart {
			continue
		}
		switch {
		case i+1 < len(parts) && parts[i].meets(parts[i+1]):
			parts[i+1].startWith(parts[i])
		case i > 0 && parts[i-1].meets(parts[i]):
			parts[i-1].endWith(parts[i])
		default:
			continue
		}
		parts = append(parts[:i], parts[i+1:]...)
		i = max(i-2, -1) // what is beside it may be a twin no longer
	}
	var all []part
	for _, q := range parts {
		if n := len(all); n > 0 && all[n-1].slot == q.slot {
			all[n-1].endWith(q)
			continue
		}
		all = append(all, q)
	}
	return all
}

// meets tells whether a part goes on into the next one, of another slot.
func (q part) meets(next part) bool { return q.slot != next.slot && q.ends.To.Equal(next.there.From) }

func (q *part) startWith(first part) {
	if q.there.Single() {
		q.there.To = first.there.To
	}
	q.there = Span{first.there.From, later(first.there.To, q.there.To)}
	q.add(first)
}

func (q *part) endWith(last part) {
	if q.ends.Single() {
		q.ends.From = last.ends.From
	}
	q.ends, q.open = Span{earlier(q.ends.From, last.ends.From), last.ends.To}, last.open
	q.add(last)
}

func (q *part) add(other part) {
	q.sure, q.must = max(q.ends.From.Sub(q.there.To), q.sure, other.sure), later(q.must, other.must)
	q.takeBranches(other)
}

func (q *part) duty() Duty {
	d := Duty{
		ID: plan.BuiltIn[plan.StayWith], Kind: Stay, Slot: q.slot, Must: q.there.From.Before(q.must), Place: Home,
		Day: wall.DateOf(q.there.From), There: q.there, Ends: q.ends, Open: q.open,
	}
	switch {
	case !q.branches[IfSameDay]:
		d.Branch = IfOneNight
	case !q.branches[IfOneNight]:
		d.Branch = IfSameDay
	}
	if !d.Open {
		d.Free = d.Ends.To
	}
	return d
}
