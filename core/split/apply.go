package split

import (
	"slices"
	"sort"
	"time"

	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/wall"
)

// Apply writes lines of a proposal into a plan: the one that the schedule was built from.
// Afterwards who has a date of these lines is who they say, and who has any other date is as
// before; dates that share one register (programme) go together. Who has a duty as a whole,
// or on a weekday, is written only where none of its dates stays with whoever has it: so what
// the lines do not touch has nothing written for it, and what somebody says of it at the
// same time on another phone holds when the plans join. Of all ways that are left the one that
// writes the fewest registers is taken, and of these the one that leaves the fewest settings:
// so a duty that goes to one helper is one setting, every Tuesday is one, and what somebody
// wrote for a date stays written where it still holds. The one exception is a stay whose
// times are known for one of two branches only: the other one is the whole of it.
//
// Dates that are over by now stand in the way of nothing; who had them is kept, if need be
// by a setting of their own. Where the time is zero nothing is over.
//
// A duty holds at most plan.MostTakes single dates. Where a split of one needs more, which
// takes a duty with hundreds of dates, the last ones stay as they are.
//
// The plan that it is given keeps its own.
func Apply(p plan.Plan, s *schedule.Schedule, now time.Time, lines []Line) plan.Plan {
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
		p = withSlots(p, s, now, slots)
	}
	if len(byDuty) > 0 {
		p.Duties = slices.Clone(p.Duties)
	}
	for i := range p.Duties {
		if changed := byDuty[p.Duties[i].ID]; changed != nil {
			p.Duties[i] = withLines(p.Duties[i], s, now, changed)
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
func withLines(d plan.Duty, s *schedule.Schedule, now time.Time, lines []Line) plan.Duty {
	sort.SliceStable(lines, func(i, j int) bool { return lines[i].Duty < lines[j].Duty })
	for {
		q := withDates(d, datesOf(&d, s, now, lines))
		beyond := len(q.Takes) - plan.MostTakes
		if beyond <= 0 || len(lines) == 0 {
			return q
		}
		lines = lines[:max(len(lines)-beyond, 0)]
	}
}

// datesOf lists the dates of a duty in a schedule with who should have them after the lines.
func datesOf(d *plan.Duty, s *schedule.Schedule, now time.Time, lines []Line) []date {
	wanted := map[wall.Date]uint8{}
	for _, l := range lines {
		wanted[s.Duties[l.Duty].On.Of] = l.To
	}
	var all []date
	known := map[wall.Date]int{} // 1 + place in all
	for i := range s.Series {
		if s.Series[i].Duty.ID != d.ID {
			continue
		}
		for _, place := range s.Series[i].Dates {
			day := s.Duties[place].On.Of
			has := d.WhoHas(day)
			who, changed := wanted[day]
			if !changed {
				who = has
			}
			stays := who == has && !over(s, &s.Duties[place], now)
			if at := known[day]; at > 0 {
				all[at-1].stays = all[at-1].stays || stays
				continue
			}
			all = append(all, dateOf(d.Takes, day, who, stays))
			known[day] = len(all)
		}
	}
	return all
}

// withSlots writes the lines of the parts of staying at home: they are the single dates of
// one duty without weekdays. A stay whose times are not known is that duty as a whole.
func withSlots(p plan.Plan, s *schedule.Schedule, now time.Time, lines []Line) plan.Plan {
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
		default:
			has := p.WhoHasSlot(d.Slot)
			if !changed {
				who = has
			}
			stays := who == has && !over(s, d, now)
			if n := len(dates); n > 0 && dates[n-1].day == wall.Date(d.Slot) {
				dates[n-1].stays = dates[n-1].stays || stays
				continue
			}
			dates = append(dates, dateOf(stay.Takes, wall.Date(d.Slot), who, stays))
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
