package schedule

import (
	"time"

	"newel/core/plan"
)

// The published limits, in elapsed time before the procedure. They are counted
// from arrival here, which is earlier and so the safe side.
// ASA, Anesthesiology 2017;126(3):376-393, kept by the 2023 update,
// Anesthesiology 2023;138(2):132-151: clear liquids 2 h, a light meal 6 h, fried
// or fatty food or meat 8 h or more.
const (
	guideLiquids = 2 * time.Hour
	guideLight   = 6 * time.Hour
	guideHeavy   = 8 * time.Hour
)

// Fasting is when eating and drinking stop. A zero time is one that must not be
// computed: the arrival is not known, or the team's own times hold.
type Fasting struct {
	TeamTimes  bool      // follow the team's times; none is computed
	FoodStop   time.Time // no food from then on
	HeavyStop  time.Time // nothing fried or fatty and no meat from then on
	LiquidStop time.Time // no clear liquids from then on
	Concerns   []Concern // for the navigator, not for the family
}

// Concern is a hospital's own rule that is laxer than published guidance. The
// hospital's time is used; the navigator is told.
type Concern struct {
	Rule  plan.Rule
	Own   time.Time // the time by the hospital's rule, which is used; zero without an arrival
	Guide time.Time // the time by the published guideline, counted from arrival; or zero
}

func (s *Schedule) fasting() Fasting {
	if s.Plan.Facts.Has(plan.TeamTimes) {
		return Fasting{TeamTimes: true}
	}
	f := Fasting{FoodStop: beforeMidnight(s.clock(s.Plan.Surgery-1, plan.FoodStop))}
	if s.Arrival.IsZero() {
		if own := s.minutes(plan.LiquidsBefore); s.Plan.Program.Own(plan.LiquidsBefore) && own < guideLiquids {
			f.Concerns = []Concern{{Rule: plan.LiquidsBefore}} // laxer whatever the arrival
		}
		return f
	}
	f.HeavyStop = s.Arrival.Add(-guideHeavy)
	f.LiquidStop = beforeMidnight(s.Arrival.Add(-s.minutes(plan.LiquidsBefore)))
	s.limit(&f, plan.FoodStop, &f.FoodStop, guideLight)
	s.limit(&f, plan.LiquidsBefore, &f.LiquidStop, guideLiquids)
	if f.HeavyStop.After(f.FoodStop) {
		f.HeavyStop = f.FoodStop
	}
	return f
}

// beforeMidnight makes a stop at midnight the minute before it. "Midnight" and
// "00:00" are read by some as the other end of the day; 23:59 is read by all alike.
func beforeMidnight(stop time.Time) time.Time {
	if stop.Hour() == 0 && stop.Minute() == 0 {
		return stop.Add(-time.Minute)
	}
	return stop
}

// limit holds a built-in rule to the guideline. A hospital's own rule wins, and
// where it is laxer that becomes a concern.
func (s *Schedule) limit(f *Fasting, r plan.Rule, stop *time.Time, guide time.Duration) {
	latest := s.Arrival.Add(-guide)
	if !stop.After(latest) {
		return
	}
	if s.Plan.Program.Own(r) {
		f.Concerns = append(f.Concerns, Concern{Rule: r, Own: *stop, Guide: latest})
		return
	}
	*stop = beforeMidnight(latest)
}
