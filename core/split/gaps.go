package split

import (
	"newel/core/plan"
	"newel/core/schedule"
)

// gaps finds the times in which nobody is with the patient, of those in which somebody
// should be and that are not over, for each stay by itself. Somebody is there who has a part
// of the staying, or a night, and can; and whoever drives the patient somewhere is with
// them from leaving home to being home again at the earliest. Waiting in the hospital is
// not at home.
func (v *view) gaps(r *Report) []Gap {
	var gaps []Gap
	for _, p := range v.s.Presence() {
		from, to := max(minuteOf(p.Whole.From), minuteOf(v.now)), minuteOf(p.Whole.To)
		for _, empty := range subtract([]stretch{{from, to}}, v.withPatient(r, p.Branch)) {
			gaps = v.appendGap(gaps, p.Branch, empty, minuteOf(p.Must.To))
		}
	}
	return gaps
}

// appendGap splits a gap where the hours end for which somebody must be there.
func (v *view) appendGap(gaps []Gap, b schedule.Branch, in stretch, must int) []Gap {
	if middle := min(max(must, in.from), in.to); middle > in.from {
		gaps = append(gaps, Gap{Branch: b, From: timeAt(in.from, v.s.Loc), To: timeAt(middle, v.s.Loc), Must: true})
		in.from = middle
	}
	if in.from < in.to {
		gaps = append(gaps, Gap{Branch: b, From: timeAt(in.from, v.s.Loc), To: timeAt(in.to, v.s.Loc)})
	}
	return gaps
}

// withPatient gives the times in which somebody is with the patient in one of the stays.
func (v *view) withPatient(r *Report, b schedule.Branch) []stretch {
	var there []stretch
	for i := range v.needs {
		if state := r.Findings[i].State; state == Open || state == Cannot {
			continue
		}
		d := v.duty(&v.needs[i])
		if !timed(d) || d.Kind == schedule.Drive && !hasWay(d) || d.Branch != schedule.Always && d.Branch != b {
			continue
		}
		switch {
		case d.Kind == schedule.Stay, d.Family != nil && d.Family.Kind == plan.Nights:
			there = append(there, stretch{minuteOf(d.There.From), minuteOf(d.Ends.To)})
		case d.Family != nil && d.Family.Kind.IsRide():
			there = append(there, stretch{leaveAt(d), minuteOf(d.Home.From)})
		}
	}
	return joined(there)
}
