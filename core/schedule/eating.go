package schedule

import (
	"time"

	"newel/core/plan"
	"newel/core/wall"
)

// The wordings of the eating and drinking steps.
const (
	teamTimes = "team" // follow the team's own times
	askTimes  = "ask"  // the arrival is not known: what to ask, and when the call comes
	openTimes = "open" // the arrival is not known: what an early one would change
)

// fastingSteps gives the steps of the Fasting. The supper is always there; the
// drink only where one was given.
func (s *Schedule) fastingSteps(k *Kind) []Step {
	f := &s.Fasting
	switch k.ID {
	case "supper":
		return []Step{s.supper(k)}
	case "food-stop":
		step := s.stopAt(k, f.FoodStop)
		if s.openFood() {
			step.Variant = openTimes
		}
		return []Step{step}
	case "drink":
		if !s.Plan.Facts.Has(plan.DrinkGiven) {
			return nil
		}
	}
	return []Step{s.stopAt(k, f.LiquidStop)}
}

// supper has no time of its own: it says from when on heavy food is too late.
func (s *Schedule) supper(k *Kind) Step {
	eve := s.Plan.Surgery - 1
	step := s.onDay(k, eve)
	step.Evening, step.Around = true, s.evening(eve).Add(-2*time.Hour)
	if stop := s.Fasting.FoodStop; !stop.IsZero() && !step.Around.Before(stop) {
		step.Around = stop.Add(-time.Hour) // an early stop comes after the supper all the same
	}
	switch {
	case s.Fasting.TeamTimes:
		step.Variant = teamTimes
	case s.Fasting.HeavyStop.IsZero():
		step.Variant = openTimes
	}
	return step
}

// openFood tells whether a built-in time to stop eating is shown that an early
// arrival would still bring forward.
func (s *Schedule) openFood() bool {
	return s.Arrival.IsZero() && !s.Fasting.TeamTimes && !s.Plan.Program.Own(plan.FoodStop)
}

// EarlyArrival is the arrival before which the time to stop eating that is shown
// without an arrival would be too late: that time and the guideline's hours.
func (s *Schedule) EarlyArrival() time.Time { return s.Fasting.FoodStop.Add(guideLight) }

// stopAt is a step that ends at a time. Where there is none it stands on the
// evening before, while there is still somebody to ask.
func (s *Schedule) stopAt(k *Kind, stop time.Time) Step {
	step := s.onDay(k, s.Plan.Surgery-1)
	switch {
	case s.Fasting.TeamTimes:
		step.Variant = teamTimes
	case stop.IsZero():
		step.Variant, step.Needs = askTimes, NeedsArrival
	default:
		step.Due, step.Until = AtTime, stop
		step.First = wall.DateOf(stop)
		step.Last = step.First
	}
	return step
}
