package schedule

import (
	"time"

	"newel/core/plan"
)

// Trip is how a leave-by time was worked out, so that the page can show the sum
// and nobody has to trust it blindly.
type Trip struct {
	Arrive  time.Time // when to be there
	Early   int       // minutes before the appointment that is
	Parking int       // minutes to park and walk
	Drive   int       // minutes as the family told them
	Slack   int       // minutes added to the drive, rounded up
	Car     int       // minutes to get into the car
	Own     int       // minutes from the helper's own home to the patient's
	Leave   time.Time // Arrive less all of them
}

// trip works out when to leave home to be at the hospital at a time:
//
//	leave = arrive − parking − drive × (1 + slack) − time to get into the car
//
// The slack is rounded up to whole minutes, so leaving errs on the early side.
// ok is false while the drive or the walk from the car is not known.
func (s *Schedule) trip(arrive time.Time) (t Trip, ok bool) {
	p := &s.Plan
	if p.Drive == plan.Unknown || p.Parking == plan.Unknown || arrive.IsZero() {
		return Trip{}, false
	}
	t = Trip{
		Arrive:  arrive,
		Parking: p.Parking,
		Drive:   p.Drive,
		Slack:   slack(p.Drive, s.rule(plan.DriveSlack)),
		Car:     s.rule(plan.CarMinutes),
	}
	all := t.Parking + t.Drive + t.Slack + t.Car
	t.Leave = arrive.Add(-time.Duration(all) * time.Minute)
	return t, true
}

// slack is percent of a drive in whole minutes, rounded up.
func slack(drive, percent int) int { return (drive*percent + 99) / 100 }

// homeward is when the patient is home after leaving the hospital within a span:
// at the earliest by the plain drive, at the latest with slack and the time to
// get into the car.
func (s *Schedule) homeward(leaving Span) Span {
	if s.Plan.Drive == plan.Unknown || !leaving.Known() {
		return Span{}
	}
	drive := time.Duration(s.Plan.Drive) * time.Minute
	late := time.Duration(slack(s.Plan.Drive, s.rule(plan.DriveSlack))) * time.Minute
	return leaving.add(drive, drive+late+s.minutes(plan.CarMinutes))
}
