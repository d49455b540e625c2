package split

import (
	"time"

	"newel/core/assign"
	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/wall"
)

// need is what one duty asks of whoever does it, the same for every helper.
type need struct {
	duty   int // place in Schedule.Duties
	who    uint8
	asks   plan.Abilities
	task   plan.Tasks // one task
	takes  []assign.Take
	tier   assign.Tier
	weight int
	load   int // minutes
	late   bool
}

// needsOf gives what the duties that are not over ask, in the schedule's order.
func needsOf(s *schedule.Schedule, now time.Time) []need {
	var needs []need
	for i := range s.Duties {
		d := &s.Duties[i]
		who, takes := s.Who(d), takesOf(s, d)
		if over(s, d, now) && !(who != 0 && takenAfter(takes, now)) {
			continue
		}
		needs = append(needs, need{
			duty: i, who: who, asks: asks(s, d), task: taskOf(s, d), takes: takes,
			tier: tiers[d.NeedOf()], weight: weightOf(d), load: loadOf(s, d), late: late(d, takes, now),
		})
	}
	return needs
}

// takenAfter tells whether a duty still takes its helper after a time, such as the way back
// from the hospital, although what was to do is done.
func takenAfter(takes []assign.Take, now time.Time) bool {
	for _, t := range takes {
		if t.To > minuteOf(now) {
			return true
		}
	}
	return false
}

// late tells whether it is too late for anybody to begin a duty: a drive that should have left.
// The patient still has to be fetched from where somebody took them, and taken home from the
// hospital, however late it is.
func late(d *schedule.Duty, takes []assign.Take, now time.Time) bool {
	n := len(takes)
	return d.Kind == schedule.Drive && !d.Homeward && n > 0 && takes[n-1].From < minuteOf(now)
}

// over tells whether a duty lies behind. One that nobody can say the end of is over with its
// day, and so is one without times.
func over(s *schedule.Schedule, d *schedule.Duty, now time.Time) bool {
	end := d.Free
	if end.IsZero() && !d.Open {
		end = d.Ends.To
	}
	if end.IsZero() {
		day := d.Day
		if d.Ends.Known() {
			day = max(day, wall.DateOf(d.Ends.To))
		}
		end, _ = (day + 1).At(s.Loc, 0)
	}
	return !end.After(now)
}

// asks is what somebody has to be able to do. Whoever takes the patient home, or is with them
// in the hours in which somebody must be, has to be able to steady them, and so has whoever
// does a duty of which the family says so.
func asks(s *schedule.Schedule, d *schedule.Duty) (all plan.Abilities) {
	switch {
	case d.Kind == schedule.Drive:
		all |= plan.CanDrive
	case d.Kind == schedule.Stay && overnight(s, d):
		all |= plan.CanNight
	}
	if d.Family == nil {
		if d.Homeward || d.Kind == schedule.Stay && d.Must {
			all |= plan.CanSteady
		}
		return all
	}
	switch d.Family.Kind {
	case plan.Nights:
		all |= plan.CanNight
		if d.Must {
			all |= plan.CanSteady
		}
	case plan.PetCare:
		all |= plan.CanPets
	}
	if d.Family.Steady {
		all |= plan.CanSteady
	}
	return all
}

// overnight tells whether a part of staying at home is in a night: between midnight and six.
// What is left of a night that ends before midnight is an evening.
func overnight(s *schedule.Schedule, d *schedule.Duty) bool {
	if !d.IsSlot() {
		return false
	}
	day := wall.DateOf(d.There.From)
	if six, _ := day.At(s.Loc, 6*60); d.There.From.Before(six) {
		return true
	}
	midnight, _ := (day + 1).At(s.Loc, 0)
	return d.Ends.To.After(midnight)
}

func taskOf(s *schedule.Schedule, d *schedule.Duty) plan.Tasks {
	if d.Family == nil {
		switch {
		case d.Kind != schedule.Stay:
			return plan.HospitalTask
		case overnight(s, d):
			return plan.NightTask
		}
		return plan.CompanyTask
	}
	switch {
	case d.Family.Kind.IsRide():
		return plan.RideTask
	case d.Family.Kind == plan.PetCare:
		return plan.PetsTask
	case d.Family.Kind == plan.Meals:
		return plan.MealsTask
	case d.Family.Kind == plan.Nights:
		return plan.NightTask
	}
	return plan.OtherTask
}

// tiers are the tiers of what the plan says.
var tiers = [...]assign.Tier{plan.MustBe: assign.Must, plan.ShouldBe: assign.Should, plan.NiceToHave: assign.Nice}

// weightOf is how much a duty counts within its tier: getting to the hospital and home 24,
// being with the patient one for each hour begun, anything else one. So of two that cannot
// both be covered a therapy ride gives way to the drive home and to an evening with the
// patient. Ours; no published source.
func weightOf(d *schedule.Duty) int {
	switch {
	case d.Family == nil && d.Kind == schedule.Drive, d.Kind == schedule.Stay && !d.IsSlot():
		return 24
	case d.Kind == schedule.Stay, d.Family != nil && d.Family.Kind == plan.Nights:
		return min(max((minuteOf(d.Ends.To)-minuteOf(d.There.From)+59)/60, 1), 24)
	}
	return 1
}

// nightLoad is what a night counts: three hours, since whoever is there sleeps. Ours, shown.
const nightLoad = 3 * 60

// loadOf is the minutes that a duty counts: without the way from the helper's own home, and
// without the time at home while somebody else has the patient. A way that is not known counts
// nothing.
func loadOf(s *schedule.Schedule, d *schedule.Duty) int {
	spans, n := spansOf(s, d, 0)
	minutes := 0
	for _, span := range spans[:n] {
		minutes += span.to - span.from
	}
	if d.Family != nil && d.Family.Kind == plan.Nights || overnight(s, d) {
		minutes = min(minutes, nightLoad)
	}
	return min(minutes, assign.MaxLoad)
}
