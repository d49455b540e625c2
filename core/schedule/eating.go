package schedule

import (
	"time"

	"newel/core/plan"
)

// The wordings of the eating and drinking steps.
const (
	teamTimes = "team" // follow the team's own times
	askTimes  = "ask"  // the arrival is not known: what to ask, and when the call comes
)

// fastingSteps gives the steps of core/schedule's Fasting. The supper is always
// there; the drink only where one was given.
func (s *Schedule) fastingSteps(k *Kind) []Step {
	eve := s.Plan.Surgery - 1
	f := &s.Fasting
	switch k.ID {
	case "supper":
		return []Step{s.stopAt(k, eve, f.HeavyStop, "")}
	case "food-stop":
		return []Step{s.stopAt(k, eve, f.FoodStop, "")}
	case "drink":
		if !s.Plan.Facts.Has(plan.DrinkGiven) {
			return nil
		}
	}
	return []Step{s.stopAt(k, s.Plan.Surgery, f.LiquidStop, askTimes)}
}

// stopAt is a step that ends at a time, or on a day with the wording that says
// why there is no time.
func (s *Schedule) stopAt(k *Kind, day plan.Date, stop time.Time, unknown string) Step {
	step := s.onDay(k, day)
	switch {
	case s.Fasting.TeamTimes:
		step.Variant = teamTimes
	case stop.IsZero():
		step.Variant = unknown
		if unknown == askTimes {
			step.Needs = NeedsArrival
		}
	default:
		step.Due, step.Until = AtTime, stop
		// Midnight belongs to the evening that it ends.
		step.First = plan.DateOf(stop.Add(-time.Minute))
		step.Last = step.First
	}
	return step
}
