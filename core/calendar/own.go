package calendar

import (
	"time"

	"newel/core/plan"
)

// takeOwn takes an event of ours over: as the duty that it holds, or with the times to
// which somebody moved it.
func (r *reader) takeOwn(g *group, k known) {
	d := k.duty
	what := r.titleOf(g, k)
	have := r.plan.Duty(d.ID)
	switch {
	case !k.ofPlan: // another plan's: its numbers mean nothing here
		d.ID, d.Revision, have = 0, 0, nil
		d.Source = source(g)
	case have != nil && d.Revision < have.Revision:
		r.left(what, LeftOlder, "")
		return
	}
	r.had[d.ID] = k.ofPlan
	if cancelled(g.main) {
		if have == nil {
			r.left(what, LeftCancelled, "")
			return
		}
		dropped := *have
		dropped.Dropped = true
		r.found.Duties = append(r.found.Duties, dropped)
		return
	}
	d.Dropped = false
	e, why, value := r.raw(g, what)
	if why == "" && e.timing().print() != k.is {
		for _, s := range r.singles[k.duty.ID] {
			t := s.t.Add(time.Duration(s.lead-k.lead) * time.Minute) // as if it began as the series does
			e.extra = append(e.extra, when{t: t, loc: r.loc, single: true})
		}
		d.Rule, why, value = r.adopt(what, &e, k.lead, k.leads)
	}
	if why != "" {
		r.left(what, why, value)
		return
	}
	switch {
	case have != nil: // a file may be old: words and helpers are the plan's own
		d = asHave(d, have)
	case !k.ofPlan:
		r.asBefore(&d, false)
	}
	r.found.Duties = append(r.found.Duties, d)
}

// asHave gives a duty of a file what the plan has of it besides its times.
func asHave(d plan.Duty, have *plan.Duty) plan.Duty {
	d.Revision, d.Who, d.On, d.Takes = have.Revision, have.Who, have.On, have.Takes
	d.Title, d.Place, d.Note = have.Title, have.Place, have.Note
	d.Need, d.Steady = have.Need, have.Steady
	return d
}

// titleOf is what a person knows an event of ours by.
func (r *reader) titleOf(g *group, k known) string {
	if k.duty.Title != "" {
		return k.duty.Title
	}
	if have := r.plan.Duty(k.duty.ID); k.ofPlan && have != nil && have.Title != "" {
		return have.Title
	}
	return title(g.main)
}

// takePart takes over one helper's part of a duty. Its event has only some of the duty's
// dates, so its times say nothing about the others: where somebody moved it, that is told.
func (r *reader) takePart(g *group, k known) {
	d, have := k.duty, r.plan.Duty(k.duty.ID)
	switch {
	case !k.ofPlan && k.share == shareRest: // what was not theirs in another plan
		r.found.Others++
		return
	case !k.ofPlan:
		r.takeStrangersPart(g, k)
		return
	case r.had[d.ID]:
		return
	case have != nil && d.Revision < have.Revision:
		r.left(r.titleOf(g, k), LeftOlder, "")
		return
	}
	r.had[d.ID] = true
	e, why, value := r.raw(g, r.titleOf(g, k))
	gone := cancelled(g.main)
	switch {
	case why != "":
		r.left(r.titleOf(g, k), why, value)
		return
	case gone && have != nil && d.Revision > have.Revision: // a later copy of the plan took it out
		d = *have
		d.Dropped = true
	case gone && (have == nil || !have.Dropped), !gone && e.timing().print() != k.is:
		r.left(r.titleOf(g, k), LeftShared, "")
		return
	default:
		d.Dropped = gone
	}
	if have != nil {
		d = asHave(d, have)
	}
	r.found.Duties = append(r.found.Duties, d)
}

// takeStrangersPart takes over a part of a duty of another plan: of its dates only those.
func (r *reader) takeStrangersPart(g *group, k known) {
	d, what := k.duty, r.titleOf(g, k)
	if cancelled(g.main) {
		r.left(what, LeftCancelled, "")
		return
	}
	e, why, value := r.raw(g, what)
	if why == "" {
		d.Rule, why, value = r.adopt(what, &e, k.lead, k.leads)
	}
	if why != "" {
		r.left(what, why, value)
		return
	}
	d.ID, d.Revision, d.Dropped, d.Source = 0, 0, false, source(g)
	r.asBefore(&d, false)
	r.found.Duties = append(r.found.Duties, d)
}

// part is a helper's part of a duty of the plan, which the plan need not have now.
type part struct {
	duty        *plan.Duty
	part, share string
}

// partOf finds the part that a UID names.
func (r *reader) partOf(id string) (part, bool) {
	if !isUID(id) {
		return part{}, false
	}
	if r.parts == nil {
		r.parts = map[string]part{}
		marks := shareMarks(r.plan)
		for i := range r.plan.Duties {
			d := &r.plan.Duties[i]
			for _, mark := range marks {
				key := shareKey(d.ID, mark)
				r.parts[uid(r.plan.Number, key)] = part{d, "", mark}
				r.parts[uid(r.plan.Number, key+"."+partBack)] = part{d, partBack, mark}
			}
		}
	}
	p, ok := r.parts[id]
	return p, ok
}
