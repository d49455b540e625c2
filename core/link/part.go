package link

import (
	"slices"
	"strings"

	"newel/core/merge"
	"newel/core/plan"
)

// someoneElse stands for every other helper in a link for one of them.
const someoneElse = "–"

// EncodePart writes the part of a plan that one helper has: the day itself, the hospital,
// and the helper’s own duties. It cannot be joined with a plan, and holds no other
// helper’s name and nothing of what the others can do, no ticks, no own lines but what the
// hospital asks to be called about, nothing of what applies to the patient or the home, and no
// one else’s duties.
func EncodePart(p plan.Plan, helper string) string {
	return encode(merge.New(partOfPlan(p, helper)), helper, true)
}

// DecodePart reads it. Errors: ErrDamaged, ErrNewer, ErrLocked, and ErrPart where it is a
// whole plan.
func DecodePart(fragment string) (p plan.Plan, helper string, err error) {
	d, h, helper, err := decode(fragment)
	if err == nil && !h.Part {
		err = ErrPart
	}
	if err != nil {
		return plan.Plan{}, "", err
	}
	return d.Plan(), helper, nil
}

func partOfPlan(p plan.Plan, helper string) plan.Plan {
	who := uint8(0)
	for i, name := range p.Helpers {
		if name == helper {
			who = uint8(i + 1)
		}
	}
	had, about := p, p.AboutOf(who)
	p.Helpers, p.About, p.Ticked, p.Facts = []string{helper}, nil, nil, p.Facts&plan.ParkingPass
	p.Lines = slices.DeleteFunc(slices.Clone(p.Lines), func(l plan.Line) bool { return l.List != plan.CallNow && l.List != plan.CallOffice })
	if len(p.Lines) == 0 {
		p.Lines = nil
	}
	if about.Told { // their own way decides when they leave; the rest their part does not show
		p = p.WithAbout(1, plan.About{Told: true, Can: plan.AllAbilities, Away: about.Away})
	}
	others := func(was uint8) uint8 {
		switch was {
		case 0, who:
			return min(was, 1)
		}
		if len(p.Helpers) == 1 {
			p.Helpers = append(p.Helpers, someoneElse)
		}
		return 2
	}
	for i := range p.Cover {
		p.Cover[i] = others(p.Cover[i])
	}
	p.Shifts = slices.Clone(p.Shifts)
	for i := range p.Shifts {
		p.Shifts[i].Who = others(p.Shifts[i].Who)
	}
	stays := who != 0 && (had.Cover[plan.StayWith] == who || slices.ContainsFunc(had.Shifts, func(s plan.Shift) bool { return s.Who == who }))
	p.Duties = slices.DeleteFunc(slices.Clone(p.Duties), func(d plan.Duty) bool {
		return who == 0 || d.Dropped || !d.Has(who) && !(stays && d.Kind == plan.Nights)
	})
	for i := range p.Duties {
		d := &p.Duties[i]
		d.Source = 0
		if !d.Has(who) { // another’s night takes the place of staying with the patient; no more is told of it
			d.Title, d.Place, d.Note = "", "", ""
		}
		d.Who = others(d.Who)
		for day := range d.On {
			d.On[day] = others(d.On[day])
		}
		d.Takes = slices.Clone(d.Takes)
		for t := range d.Takes {
			d.Takes[t].Who = others(d.Takes[t].Who)
		}
	}
	return p
}

// Mine tells whether a name in a part link is the helper’s own and not everybody else’s.
func Mine(name string) bool { return name != someoneElse && strings.TrimSpace(name) != "" }
