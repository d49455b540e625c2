package schedule

import (
	"time"

	"newel/core/plan"
	"newel/core/wall"
)

// Due says how a step's days and times are meant.
type Due uint8

// The ways to be due.
const (
	ByDay   Due = iota // any time up to the end of Last
	OnDay              // on the days First to Last; they are one day unless the stay is undecided
	Daily              // every day from First to Last
	Onward             // every day from First on, with no end that the plan knows
	AtTime             // done, or stopped, by Until
	Through            // holds from From to Until
	Undated            // an own line without a day: in its list, and nowhere else
)

// Gathered are the lists whose lines stand as one row, or as one entry of a calendar, on
// the day they are due: ten lines of packing would bury the one time that matters.
var Gathered = map[string]bool{"home": true, "equipment": true, "pack": true, "going": true}

// Step is a line of a list with its due time. First and Last are set unless it is Undated.
// From and Until are instants, and zero where only days are known.
type Step struct {
	*Kind
	Line    *plan.Line // the family's or the hospital's own line; nil for a line of steps.txt
	N, Of   int        // which of several; 0, 0 for a step that comes once
	Variant string     // which of the step's wordings holds; empty for the usual one
	Due     Due
	First   wall.Date
	Last    wall.Date
	From    time.Time
	Until   time.Time
	Needs   Need

	AtHospital    bool      // done there, not at home
	Evening       bool      // OnDay: in the evening of it
	BeforeLeaving bool      // AtTime: Until is when they leave home
	Around        time.Time // where it stands among the times of its day, if it has none of its own
	Over          time.Time // from when on it makes no sense any more, if it has no time of its own
}

// Done tells whether the step is marked as done in a plan.
func (s *Step) Done(p *plan.Plan) bool {
	if s.Line != nil {
		l := p.Line(s.Line.ID)
		return l != nil && l.Done
	}
	return p.Has(s.Tick())
}

// Tick is the mark in the plan of a step from steps.txt.
func (s *Step) Tick() plan.Tick { return plan.Tick{Code: s.Code, N: uint8(s.N)} }

// Once tells whether the step is a thing to be done once, and so to be ticked.
// What is kept up for days is not.
func (s *Step) Once() bool {
	return s.Due == ByDay || s.Due == OnDay || s.Due == AtTime || s.Due == Undated
}

// steps walks through the table, so that the order of the file is the order of
// the lists.
func (s *Schedule) steps() []Step {
	var all []Step
	for i := range Kinds {
		k := &Kinds[i]
		if !k.applies(s.Plan.Facts) {
			continue
		}
		if k.Due.How == Computed {
			all = append(all, s.computed(k)...)
		} else {
			all = append(all, s.simple(k))
		}
	}
	return append(all, s.ownLines()...)
}

// computed calls the rule that a step with due "computed" names by its id.
func (s *Schedule) computed(k *Kind) []Step {
	switch k.ID {
	case "hospital-call":
		return []Step{s.hospitalCall(k)}
	case "wash":
		return s.washes(k)
	case "linen":
		return s.linen(k)
	case "no-shaving":
		return []Step{s.noShaving(k)}
	case "nothing-on-skin":
		return []Step{s.nothingOnSkin(k)}
	case "supper", "food-stop", "drink", "liquid-stop":
		return s.fastingSteps(k)
	case "check-in":
		return []Step{s.checkIn(k)}
	case "parking-permit":
		return []Step{s.parkingPermit(k)}
	case "no-driving-day":
		return []Step{s.noDriving(k)}
	}
	panic("schedule: steps.txt says that " + k.ID + " is computed, but no code does it")
}

// simple dates a step whose due column needs no working out.
func (s *Schedule) simple(k *Kind) Step {
	day, t := s.Plan.Surgery, k.Due
	switch t.How {
	case By, ByWash:
		before := s.rule(plan.WashDays) + 1
		if t.How == By {
			before = s.rule(t.Rule)
		}
		last := day - wall.Date(before)
		return Step{Kind: k, Due: ByDay, First: last, Last: last}
	case OnHome:
		first, last := s.HomeDays()
		step := Step{Kind: k, Due: OnDay, First: first, Last: last, Evening: t.Evening}
		if t.Evening && first == last {
			step.Around = s.evening(first)
		}
		return step
	case On:
		step := s.onDay(k, day+wall.Date(t.From))
		if t.From == 0 {
			step.Around, step.Over = s.leaving(), s.Arrival
		}
		return step
	}
	return s.daily(k)
}

// daily is a step that is kept up: to a number of days, to a rule's, or with no end.
func (s *Schedule) daily(k *Kind) Step {
	day, t := s.Plan.Surgery, k.Due
	step := Step{Kind: k, Due: Daily, First: day + wall.Date(t.From)}
	switch {
	case t.Open:
		step.Due, step.Last = Onward, step.First
	case t.ByRule:
		step.Last = day + wall.Date(s.rule(t.Rule))
	default:
		step.Last = day + wall.Date(t.To)
	}
	if !t.Open && step.Last == day {
		step.Over = s.Arrival // what is kept up before surgery ends with the arrival
	}
	return step
}

func (s *Schedule) onDay(k *Kind, day wall.Date) Step {
	return Step{Kind: k, Due: OnDay, First: day, Last: day}
}

// checkIn is the arrival itself, as a line of the patient's day.
func (s *Schedule) checkIn(k *Kind) Step {
	step := s.onDay(k, s.Plan.Surgery)
	step.AtHospital = true
	if s.Arrival.IsZero() {
		step.Needs = NeedsArrival
		return step
	}
	step.Due, step.Until = AtTime, s.Arrival
	return step
}

// hospitalCall is on the day before. Where that is on a weekend the call may come
// on the Friday, so that is when to ask for it.
func (s *Schedule) hospitalCall(k *Kind) Step {
	step := Step{Kind: k, Due: OnDay}
	step.First, step.Last = s.CallDays()
	if step.First != step.Last {
		step.Variant = "weekend"
	}
	return step
}

// CallDays are the days on which the hospital's call may come; one, but for a
// weekend.
func (s *Schedule) CallDays() (first, last wall.Date) {
	eve := s.Plan.Surgery - 1
	switch eve.Weekday() {
	case time.Sunday:
		return eve - 2, eve
	case time.Saturday:
		return eve - 1, eve
	}
	return eve, eve
}

// parkingPermit is put up when the car is parked, just before the arrival.
func (s *Schedule) parkingPermit(k *Kind) Step {
	step := s.onDay(k, s.Plan.Surgery)
	step.AtHospital, step.Around, step.Over = true, s.Arrival, s.Arrival
	if !s.Arrival.IsZero() && s.Plan.Parking != plan.Unknown {
		step.Around = s.Arrival.Add(-time.Duration(s.Plan.Parking) * time.Minute)
	}
	return step
}

// noDriving covers the 24 hours after anesthesia, counted from the latest usual
// end of recovery, which is later than the anesthesia and so the safe side.
func (s *Schedule) noDriving(k *Kind) Step {
	step := Step{Kind: k, Due: Daily, First: s.Plan.Surgery, Last: s.Plan.Surgery + 1}
	if out := s.outOfRecovery(); out.Known() {
		step.Due, step.From, step.Until = Through, out.From, out.To.Add(24*time.Hour)
		step.Last = wall.DateOf(step.Until)
	}
	return step
}
