package split

import (
	"slices"
	"sort"

	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/wall"
)

// Apply writes lines of a proposal into a plan: the one that the schedule was built from.
// Afterwards who has a date of these lines is who they say, and who has any other date is as
// before; dates that share one register (programme) go together. Of all ways to say so the
// one that writes the fewest registers is taken, and of these the one that leaves the fewest
// settings: so a duty that goes to one helper is one setting, every Tuesday is one, and
// what somebody wrote for a date stays written where it still holds. So it can be that whoever
// took a whole duty on their own phone, and keeps a few dates of it, has these from now on
// by settings that somebody else wrote.
//
// A duty holds at most plan.MostTakes single dates. Where a split of one needs more, which
// takes a duty with hundreds of dates, the last ones stay as they are.
//
// The plan that it is given keeps its own.
func Apply(p plan.Plan, s *schedule.Schedule, lines []Line) plan.Plan {
	byDuty := map[uint32][]Line{}
	var slots []Line
	for _, l := range lines {
		d := &s.Duties[l.Duty]
		switch {
		case d.Family != nil:
			byDuty[d.Family.ID] = append(byDuty[d.Family.ID], l)
		case d.Kind == schedule.Stay:
			slots = append(slots, l)
		default:
			p = withCover(p, d.ID, l.To)
		}
	}
	if len(slots) > 0 {
		p = withSlots(p, s, slots)
	}
	if len(byDuty) > 0 {
		p.Duties = slices.Clone(p.Duties)
	}
	for i := range p.Duties {
		if changed := byDuty[p.Duties[i].ID]; changed != nil {
			p.Duties[i] = withLines(p.Duties[i], s, changed)
		}
	}
	return p
}

// withCover gives one of the duties that every plan has to somebody.
func withCover(p plan.Plan, id string, who uint8) plan.Plan {
	for i, known := range plan.BuiltIn {
		if known == id {
			p.Cover[i] = who
		}
	}
	return p
}

// withLines writes the lines of one of the family's duties, as many as it can hold.
func withLines(d plan.Duty, s *schedule.Schedule, lines []Line) plan.Duty {
	sort.SliceStable(lines, func(i, j int) bool { return lines[i].Duty < lines[j].Duty })
	for {
		q := withDates(d, datesOf(&d, s, lines))
		beyond := len(q.Takes) - plan.MostTakes
		if beyond <= 0 || len(lines) == 0 {
			return q
		}
		lines = lines[:max(len(lines)-beyond, 0)]
	}
}

// datesOf lists the dates of a duty in a schedule with who should have them after the lines.
func datesOf(d *plan.Duty, s *schedule.Schedule, lines []Line) []date {
	wanted := map[wall.Date]uint8{}
	for _, l := range lines {
		wanted[s.Duties[l.Duty].On.Of] = l.To
	}
	var all []date
	known := map[wall.Date]bool{}
	for i := range s.Series {
		if s.Series[i].Duty.ID != d.ID {
			continue
		}
		for _, place := range s.Series[i].Dates {
			day := s.Duties[place].On.Of
			if known[day] {
				continue
			}
			known[day] = true
			who, changed := wanted[day]
			if !changed {
				who = d.WhoHas(day)
			}
			all = append(all, dateOf(d.Takes, day, who))
		}
	}
	return all
}

// withSlots writes the lines of the parts of staying at home: they are the single dates of
// one duty without weekdays. A stay whose times are not known is that duty as a whole.
func withSlots(p plan.Plan, s *schedule.Schedule, lines []Line) plan.Plan {
	wanted := map[register]uint8{}
	for _, l := range lines {
		wanted[registerOf(&s.Duties[l.Duty])] = l.To
	}
	stay := plan.Duty{Who: p.Cover[plan.StayWith]}
	for _, shift := range p.Shifts {
		stay.Takes = append(stay.Takes, plan.Take{Day: wall.Date(shift.Slot), Who: shift.Who})
	}
	var dates []date
	whole, fixed := stay.Who, false
	for i := range s.Duties {
		d := &s.Duties[i]
		if d.Kind != schedule.Stay {
			continue
		}
		who, changed := wanted[registerOf(d)]
		switch {
		case !d.IsSlot() && changed:
			whole, fixed = who, true
		case !d.IsSlot():
			fixed = true
		case len(dates) == 0 || dates[len(dates)-1].day != wall.Date(d.Slot):
			if !changed {
				who = p.WhoHasSlot(d.Slot)
			}
			dates = append(dates, dateOf(stay.Takes, wall.Date(d.Slot), who))
		}
	}
	if !fixed {
		whole = bestWhole(stay.Who, dates)
	}
	takes := stay.Takes
	stay.Who = whole
	stay.Takes = takesFor(&stay, takes, dates)
	p.Cover[plan.StayWith], p.Shifts = stay.Who, nil
	for _, t := range stay.Takes {
		p.Shifts = append(p.Shifts, plan.Shift{Slot: plan.Slot(t.Day), Who: t.Who})
	}
	return p
}
