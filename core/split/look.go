package split

import (
	"time"

	"newel/core/schedule"
	"newel/core/wall"
)

// Look says of each duty that is not over at a time whether it has somebody who can do it,
// and why not, where nobody is with the patient, and who has how much. It takes some
// microseconds a duty and keeps nothing. Who two people took, each without having heard of
// the other, is not asked here (merge.Doc.Questions).
func Look(s *schedule.Schedule, now time.Time) *Report {
	return viewOf(s, now).report()
}

func (v *view) report() *Report {
	r := &Report{v: v, Findings: make([]Finding, 0, len(v.needs))}
	clashes := v.clashes(func(int) bool { return true })
	var found []obstacle
	for i := range v.needs {
		f := Finding{Duty: v.needs[i].duty, Who: v.needs[i].who}
		found = v.judge(&f, &v.needs[i], clashes[i], found[:0])
		r.Findings = append(r.Findings, f)
		r.Count[f.State]++
	}
	r.Gaps = v.gaps(r)
	r.Loads = v.loads()
	return r
}

// Of finds what there is to say of a duty by its place in Schedule.Duties; nil where it is
// over.
func (r *Report) Of(duty int) *Finding {
	low, high := 0, len(r.Findings)
	for low < high {
		middle := (low + high) / 2
		if r.Findings[middle].Duty < duty {
			low = middle + 1
		} else {
			high = middle
		}
	}
	if low < len(r.Findings) && r.Findings[low].Duty == duty {
		return &r.Findings[low]
	}
	return nil
}

// view is a schedule with what its duties ask and what is known of its helpers.
type view struct {
	s      *schedule.Schedule
	now    time.Time
	needs  []need
	people []person
	fixed  []int // places in needs of what Ask.Fixed names

	busyDays []wall.Date // of days
}

func viewOf(s *schedule.Schedule, now time.Time) *view {
	v := &view{s: s, now: now, needs: needsOf(s, now)}
	v.people = peopleOf(s, v.reach())
	return v
}

// reach is the time in which it matters what helpers do: from a week before the first of the
// duties to a week after the last, so that "the next time that they can" is found.
func (v *view) reach() stretch {
	const week = 7 * 24 * 60
	r := stretch{minuteOf(v.now), minuteOf(v.now)}
	for i := range v.needs {
		for _, t := range v.needs[i].takes {
			r.from, r.to = min(r.from, t.From), max(r.to, t.To)
		}
	}
	return stretch{r.from - week, r.to + week}
}

func (v *view) duty(n *need) *schedule.Duty { return &v.s.Duties[n.duty] }

// judge fills in how a duty stands.
func (v *view) judge(f *Finding, n *need, clashes []Reason, found []obstacle) []obstacle {
	if n.who == 0 || int(n.who) > len(v.people) {
		f.State = Open
		return found
	}
	p := &v.people[n.who-1]
	found = p.obstacles(v.s, n, found)
	for _, o := range found {
		f.Why = append(f.Why, o.reason(v.s))
	}
	if !p.out {
		f.Why = append(f.Why, clashes...)
	}
	switch {
	case len(f.Why) > 0:
		f.State = Cannot
	case !p.told:
		f.State = Untold
	}
	return found
}

// loads is how much each helper has of what is not over.
func (v *view) loads() []Load {
	loads := make([]Load, len(v.people))
	offers := v.offers()
	for i := range loads {
		loads[i] = Load{Who: uint8(i + 1), Offer: offers[i]}
	}
	for i := range v.needs {
		if who := v.needs[i].who; who != 0 && int(who) <= len(loads) {
			loads[who-1].Before += v.needs[i].load
		}
	}
	for i := range loads {
		loads[i].After = loads[i].Before
	}
	return loads
}

// mostWeeks keeps an offer within what a programme takes.
const mostWeeks = 1400

// offers is the minutes that each helper offered for the days from the first to the last
// duty that is not over, a week at least. They are multiples of one another as the hours a
// week are.
func (v *view) offers() []int {
	days := 7
	if n := len(v.needs); n > 0 {
		first, last := v.duty(&v.needs[0]).Day, v.duty(&v.needs[n-1]).Day
		days = min(max(int(last-first)+1, 7), 7*mostWeeks)
	}
	offers := make([]int, len(v.people))
	for i := range offers {
		offers[i] = v.people[i].offer * (60 * days / 7)
	}
	return offers
}
