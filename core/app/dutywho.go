package app

import (
	"slices"
	"strconv"

	"newel/core/plan"
	"newel/core/wall"
)

// giveDate says who has one date of a duty, or that nobody has it.
func (s *session) giveDate(p plan.Plan, d plan.Duty) {
	day, err := wall.ParseDate(s.field("day"))
	if err != nil || !slices.Contains(ruleDays(d), day) {
		s.dutyPage(p, d.ID, s.voice.Say("dates.no-day"))
		return
	}
	next, who, problems := s.helper(p, s.field("who"))
	if len(problems) > 0 {
		s.dutyPage(p, d.ID, s.voice.Problem(problems[0], s.voice.Say("dates.who"), s.field("who")))
		return
	}
	d = withTake(d, plan.Take{Day: day, Who: who})
	if d = withDates(d); len(d.Takes) > plan.MostTakes {
		s.dutyPage(p, d.ID, s.voice.Say("problem.duties-many"))
		return
	}
	s.keepDuty(p, next, d)
}

// giveDays says who has the dates on each weekday. The weekdays that the form had no field
// for stay.
func (s *session) giveDays(p plan.Plan, d plan.Duty) {
	next := p
	for day := range d.On {
		name := "on-" + strconv.Itoa(day)
		if !s.sent(name) {
			continue
		}
		var problems []plan.Problem
		// In the plan with what was read so far, so that a name that it needs keeps its place.
		if next, d.On[day], problems = s.helper(next.WithDuty(d), s.field(name)); len(problems) > 0 {
			s.dutyPage(p, d.ID, s.voice.Problem(problems[0], s.voice.Say("weekday."+strconv.Itoa(day)), s.field(name)))
			return
		}
	}
	s.keepDuty(p, next, d)
}

// sent tells whether a field was sent at all.
func (s *session) sent(name string) bool {
	return slices.ContainsFunc(s.in.Fields, func(f Field) bool { return f.Name == name })
}

// withTake gives a single date to somebody.
func withTake(d plan.Duty, t plan.Take) plan.Duty {
	d.Takes = slices.DeleteFunc(slices.Clone(d.Takes), func(old plan.Take) bool { return old.Day == t.Day })
	at, _ := slices.BinarySearchFunc(d.Takes, t.Day, func(old plan.Take, day wall.Date) int { return int(old.Day - day) })
	d.Takes = slices.Insert(d.Takes, at, t)
	return d
}

// withDates drops of who has single dates those that the duty does not have, and that nobody
// has one where that is so anyway. A date that is left out for now keeps whose it is. What
// somebody took stays written, also where they have it by the weekday or the whole duty: so
// it stays theirs when those are given to somebody else, and stands against what another
// says at the same time.
func withDates(d plan.Duty) plan.Duty {
	days, usual := ruleDays(d), d
	usual.Takes = nil
	d.Takes = slices.DeleteFunc(slices.Clone(d.Takes), func(t plan.Take) bool {
		return !slices.Contains(days, t.Day) || t.Who == 0 && usual.WhoHas(t.Day) == 0
	})
	if len(d.Takes) == 0 {
		d.Takes = nil
	}
	return d
}

// ruleDays are the days by which the dates of a duty are called: those of the pattern, and
// those that were added.
func ruleDays(d plan.Duty) []wall.Date {
	days, _ := d.Rule.Pattern()
	for _, extra := range d.Rule.Extra {
		days = append(days, extra.Day)
	}
	return days
}

// tooMany tells whether a form adds a duty to a plan that has as many as forms give out.
// Copies that are joined may have more; those stay.
func tooMany(before, next *plan.Plan) []plan.Problem {
	if len(next.Duties) > plan.MaxDuties && len(next.Duties) > len(before.Duties) {
		return []plan.Problem{{Field: "first", Code: plan.DutiesMany}}
	}
	return nil
}
