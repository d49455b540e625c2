package schedule

import (
	"time"

	"newel/core/plan"
	"newel/core/wall"
)

// The wordings of a wash.
const (
	ordinarySoap = "ordinary" // skin condition or soap allergy: an ordinary antibacterial soap
	ownSoap      = "own"      // the hospital gave no surgical soap
)

func (s *Schedule) washVariant() string {
	switch {
	case s.Plan.Facts.Has(plan.NoSurgicalSoap):
		return ordinarySoap
	case !s.Plan.Facts.Has(plan.SoapGiven):
		return ownSoap
	}
	return ""
}

// washes are daily from the first wash day to the eve, and on the morning itself.
// Common practice: from the fourth day before, so five washes. CDC 2017 (category
// IB): at least the night before, so the last of the daily ones is an evening one.
func (s *Schedule) washes(k *Kind) []Step {
	days := s.rule(plan.WashDays)
	of := days + s.rule(plan.WashMorning)
	var all []Step
	for n := 1; n <= days; n++ {
		step := s.onDay(k, s.Plan.Surgery-wall.Date(days-n+1))
		step.N, step.Of, step.Variant = n, of, s.washVariant()
		if n == days {
			step.Evening, step.Around = true, s.evening(step.First)
		}
		all = append(all, step)
	}
	if of > days {
		step := s.onDay(k, s.Plan.Surgery)
		step.N, step.Of, step.Variant = of, of, s.washVariant()
		if out := s.leaving(); !out.IsZero() {
			step.Due, step.Until, step.BeforeLeaving = AtTime, out, true
			step.First = wall.DateOf(out)
			step.Last = step.First
		}
		all = append(all, step)
	}
	return all
}

// leaving is when the patient leaves home for surgery, or arrives at the latest;
// zero while neither is known.
func (s *Schedule) leaving() time.Time {
	if t, ok := s.trip(s.Arrival); ok {
		return t.Leave
	}
	return s.Arrival
}

// linen is changed on the first wash day and once more on the eve; with a single
// wash day that is one change.
func (s *Schedule) linen(k *Kind) []Step {
	first, eve := s.Plan.Surgery-wall.Date(s.rule(plan.WashDays)), s.Plan.Surgery-1
	one, two := s.onDay(k, first), s.onDay(k, eve)
	two.Evening, two.Around = true, s.evening(eve)
	if first == eve {
		return []Step{two}
	}
	one.N, one.Of, two.N, two.Of = 1, 2, 2, 2
	return []Step{one, two}
}

// noShaving begins the program's hours before arrival (common practice: 48 h).
// While the arrival is not known it begins with the day that is surely early
// enough: an arrival at midnight would be the earliest.
func (s *Schedule) noShaving(k *Kind) Step {
	hours := s.rule(plan.NoShaveHours)
	step := Step{Kind: k, Due: Daily, First: s.Plan.Surgery - wall.Date((hours+23)/24), Last: s.Plan.Surgery}
	if !s.Arrival.IsZero() {
		step.Due = Through
		step.From, step.Until = s.Arrival.Add(-time.Duration(hours)*time.Hour), s.Arrival
		step.First = wall.DateOf(step.From)
	}
	return step
}

// nothingOnSkin begins with the last wash and lasts until surgery.
func (s *Schedule) nothingOnSkin(k *Kind) Step {
	day := s.Plan.Surgery
	if s.rule(plan.WashMorning) == 0 {
		day--
	}
	step := Step{Kind: k, Due: OnDay, First: day, Last: s.Plan.Surgery, Around: s.leaving(), Over: s.Arrival}
	if day < s.Plan.Surgery {
		step.Evening, step.Around = true, s.evening(day)
	}
	return step
}

// evening is where "in the evening" stands among the times of a day.
func (s *Schedule) evening(day wall.Date) time.Time {
	t, _ := day.At(s.Loc, 20*60)
	return t
}
