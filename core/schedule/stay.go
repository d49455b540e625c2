package schedule

import (
	"time"

	"newel/core/plan"
)

// Presence is the time at home in which somebody should be with the patient, in one branch.
type Presence struct {
	Branch Branch
	// Must is the part in which somebody has to be there (plan.StayWithHours; 42 CFR
	// 416.52(c)(3) for the escort, ASA for the 24 h), from when the patient may be home at
	// the earliest to when it may be over at the latest. Zero where the program has no hours.
	Must Span
	// Whole is all of it (plan.PresenceHours), with Must in it. Where nobody can say when the
	// patient comes home (Open, as Duty.Open of the drive) it ends at the earliest.
	Whole Span
	Open  bool
}

// Presence gives the time that has to be covered, for each branch whose coming home is known.
func (s *Schedule) Presence() []Presence { return s.presence }

// MustLeast is until when somebody has to be there at the earliest.
func (s *Schedule) MustLeast(p Presence) time.Time {
	if p.Open {
		return p.Must.From.Add(time.Duration(s.rule(plan.StayWithHours)) * time.Hour)
	}
	return p.Must.To
}

// presenceAfter works out the time after a drive home; ok is false while that is not known.
//
// A same-day discharge has no end, so neither has what follows it. But it is on that day: so
// the hours in which somebody must be there are over, at the latest, so long after midnight.
func (s *Schedule) presenceAfter(home Duty) (p Presence, ok bool) {
	if !home.Home.Known() {
		return Presence{}, false
	}
	must := time.Duration(s.rule(plan.StayWithHours)) * time.Hour
	whole := max(must, time.Duration(s.rule(plan.PresenceHours))*time.Hour)
	p = Presence{Branch: home.Branch, Open: home.Open, Whole: home.Home.add(0, whole)}
	if must == 0 {
		return p, true
	}
	p.Must = home.Home.add(0, must)
	if home.Open {
		midnight, _ := (s.Plan.Surgery + 1).At(s.Loc, 0)
		p.Must.To = earlier(later(p.Must.To, midnight.Add(must)), p.Whole.To)
	}
	return p, true
}

// stays keeps somebody with the patient from the moment they are home: one duty for each
// part of a day (plan.Slot), as far as nobody has a night there anyway. A part that both
// branches need is one duty. While the coming home is not known there is a duty without
// times, which says what is missing.
func (s *Schedule) stays(homes, family []Duty) []Duty {
	var all []Duty
	var parts []part
	for _, home := range homes {
		p, ok := s.presenceAfter(home)
		if !ok {
			all = append(all, s.stayUnknown(home))
			continue
		}
		s.presence = append(s.presence, p)
		parts = append(parts, s.partsOf(p, home.Home)...)
	}
	parts = joined(cut(bothBranches(parts), nightsOf(family)))
	for i := range parts {
		all = append(all, parts[i].duty())
	}
	return all
}

func (s *Schedule) stayUnknown(home Duty) Duty {
	d := Duty{ID: plan.BuiltIn[plan.StayWith], Kind: Stay, Branch: home.Branch, Must: true, Place: Home, Day: s.Plan.Surgery, Needs: home.Needs}
	if home.Branch == IfOneNight {
		d.Day++
	}
	return d
}

// IsSlot tells whether a duty is one part of staying with the patient, whose times are known.
func (d *Duty) IsSlot() bool { return d.Kind == Stay && d.Needs == Nothing }

func earlier(a, b time.Time) time.Time {
	if b.Before(a) {
		return b
	}
	return a
}

func later(a, b time.Time) time.Time {
	if a.Before(b) {
		return b
	}
	return a
}
