package schedule

import (
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
	"newel/core/wall"
)

// The values in this file are common practice, no published source, unless a test
// names one.

// leave = arrival − parking and walking − drive × (1 + slack) − time to get into
// the car, in whole minutes, rounded to the safe side. Worked out by hand.
func TestLeaveBy(t *testing.T) {
	for _, c := range []struct {
		arrival        wall.Clock
		parking, drive int
		slack, car     int
		want           string
	}{
		{330, 15, 40, 25, 10, "2027-03-09 04:15"},   // 05:30 − 15 − 50 − 10
		{330, 0, 0, 0, 0, "2027-03-09 05:30"},       // next door
		{330, 15, 33, 25, 10, "2027-03-09 04:23"},   // 33 × 1.25 = 41.25, counted as 42
		{330, 15, 1, 1, 10, "2027-03-09 05:03"},     // 1 % of a minute is a minute
		{60, 20, 90, 25, 10, "2027-03-08 22:37"},    // over midnight: 112.5 counted as 113
		{720, 10, 720, 50, 0, "2027-03-08 17:50"},   // twelve hours, half as much again
		{330, 15, 40, 200, 120, "2027-03-09 01:15"}, // the greatest settings
	} {
		s := build(t, family(t, func(p *plan.Plan) {
			p.Arrival, p.Parking, p.Drive = c.arrival, c.parking, c.drive
			p.Program.Set(plan.DriveSlack, c.slack)
			p.Program.Set(plan.CarMinutes, c.car)
		}))
		d := s.duty(t, "drive-there")
		require.Equal(t, c.want, local(d.Leave))
		sum := d.Trip.Parking + d.Trip.Drive + d.Trip.Slack + d.Trip.Car
		require.EqualValues(t, sum, d.Trip.Arrive.Sub(d.Trip.Leave).Minutes(), "the sum that is shown adds up")
	}
}

// A duty stands on the day on which it begins, and that is when to leave home.
func TestLeavingOnTheDayBefore(t *testing.T) {
	s := build(t, family(t, func(p *plan.Plan) { p.Drive = 300 }))
	d := s.duty(t, "drive-there")
	require.Equal(t, "2027-03-08 22:50", local(d.Leave))
	require.Equal(t, "2027-03-08", d.Day.String())
	require.Equal(t, "2027-03-08", s.byID("wash")[4].First.String(), "the last wash too")
}

// A drive through the night of a clock change is as long as any other. The change
// itself: 15 U.S.C. 260a, as in testdata/zone.
func TestLeaveByOverClockChange(t *testing.T) {
	s := build(t, family(t, func(p *plan.Plan) { p.Surgery, p.Arrival = day(t, "2027-03-14"), 3*60+15 }))
	// 03:15 EDT less 75 minutes is 01:00 EST: 02:00 to 03:00 does not exist.
	require.Equal(t, "2027-03-14 01:00", local(s.duty(t, "drive-there").Leave))
	s = build(t, family(t, func(p *plan.Plan) { p.Surgery, p.Arrival = day(t, "2027-11-07"), 2*60+15 }))
	// 02:15 EST less 75 minutes is 01:00 EST, the second 01:00 of that night.
	leave := s.duty(t, "drive-there").Leave
	require.Equal(t, "2027-11-07 01:00", local(leave))
	name, _ := leave.Zone()
	require.Equal(t, "EST", name)
}

func TestDayInTheHospital(t *testing.T) {
	for _, c := range []struct {
		operation             plan.Operation
		begins, ends, outside string
	}{
		{plan.First, "2027-03-09 06:30", "2027-03-09 07:30 to 2027-03-09 08:00", "2027-03-09 08:30 to 2027-03-09 11:00"},
		{plan.Revision, "2027-03-09 06:30", "2027-03-09 08:30", "2027-03-09 09:30 to 2027-03-09 11:30"},
		{plan.BothSides, "2027-03-09 06:30", "2027-03-09 09:00 to 2027-03-09 09:30", "2027-03-09 10:00 to 2027-03-09 12:30"},
	} {
		s := build(t, family(t, func(p *plan.Plan) { p.Operation = c.operation }))
		require.Len(t, s.Stages, 3)
		require.Equal(t, "2027-03-09 05:30", span(s.Stages[0].Begins))
		require.Equal(t, c.begins, span(s.Stages[1].Begins))
		require.Equal(t, c.ends, span(s.Stages[1].Ends))
		require.Equal(t, c.outside, span(s.Stages[2].Ends))
		wait := s.duty(t, "wait")
		require.Equal(t, "2027-03-09 05:30", span(wait.There))
		require.Equal(t, c.outside, span(wait.Ends), "a helper can usually wait")
	}
}

func TestMorningDischarge(t *testing.T) {
	s := build(t, family(t))
	d := s.duty(t, "drive-home-morning")
	require.True(t, d.Must)
	require.Equal(t, "2027-03-10", d.Day.String())
	require.Equal(t, "2027-03-10 08:30", span(d.There))
	require.Equal(t, "2027-03-10 07:15", local(d.Leave))
	require.Equal(t, "2027-03-10 10:00", span(d.Ends))
	require.Equal(t, "2027-03-10 10:40", local(d.Home.From), "home about 10:00 and the drive")
	require.Equal(t, "2027-03-10 11:00", local(d.Free), "with slack and getting into the car")
	for _, other := range s.Duties {
		require.NotEqual(t, "drive-home", other.ID, "one night: nobody drives home on the day")
	}
}

// Source: 42 CFR 416.52(c)(3) (a responsible adult goes along) and ASA, Anesthesia
// & You (24 h); the recovery times are common practice.
func TestSameDay(t *testing.T) {
	s := build(t, family(t, func(p *plan.Plan) { p.Stay = plan.SameDay }))
	d := s.duty(t, "drive-home")
	require.True(t, d.Must)
	require.Equal(t, "2027-03-09 08:30", span(d.There), "ready from the earliest end of recovery")
	require.True(t, d.Open, "the checks come after recovery; nobody can say how long they take")
	require.Equal(t, "2027-03-09 09:10", local(d.Home.From), "home at the earliest")
	require.True(t, d.Free.IsZero())
	stay := s.duty(t, "stay-with")
	require.True(t, stay.Must)
	require.Equal(t, "2027-03-09 09:10", local(stay.There.From))
	require.False(t, stay.Open, "until 14:00, when the next part begins")
	require.Equal(t, "2027-03-09 14:00", local(stay.Free))
	require.Equal(t, Home, stay.Place)
}

func TestUndecidedNeedsBoth(t *testing.T) {
	s := build(t, family(t, func(p *plan.Plan) { p.Stay = plan.Undecided }))
	var same, night []string
	for _, d := range s.Duties {
		switch d.Branch {
		case IfSameDay:
			same = append(same, d.ID)
		case IfOneNight:
			night = append(night, d.ID)
		}
		require.True(t, d.Must || d.ID == "wait" || d.IsSlot(), "both ways need cover: %s", d.ID)
	}
	require.Equal(t, []string{"drive-home", "stay-with", "stay-with", "stay-with"}, same, "the first day and night")
	require.Equal(t, []string{"drive-home-morning", "stay-with", "stay-with", "stay-with"}, night, "the last ones")
	first, last := s.HomeDays()
	require.Equal(t, "2027-03-09 2027-03-10", first.String()+" "+last.String())
}

// Without an arrival time nothing that counts from it has a time.
func TestArrivalNotKnown(t *testing.T) {
	s := build(t, family(t, func(p *plan.Plan) { p.Arrival, p.Stay = wall.NoClock, plan.Undecided }))
	require.Empty(t, s.Stages)
	require.True(t, s.Fasting.LiquidStop.IsZero(), "no drinking cut-off is computed from a guess")
	require.True(t, s.Fasting.HeavyStop.IsZero())
	require.Equal(t, "2027-03-08 23:00", local(s.Fasting.FoodStop), "a time of the evening, not counted from the arrival")
	require.Equal(t, NeedsArrival, s.duty(t, "drive-there").Needs)
	require.Equal(t, NeedsArrival, s.duty(t, "drive-home").Needs)
	require.Equal(t, "2027-03-10 08:30", span(s.duty(t, "drive-home-morning").There), "does not depend on it")
	for _, id := range []string{"liquid-stop", "drink"} {
		st := s.one(t, id)
		require.Equal(t, "ask", st.Variant)
		require.Equal(t, NeedsArrival, st.Needs)
	}
}

func TestDriveNotKnown(t *testing.T) {
	s := build(t, family(t, func(p *plan.Plan) { p.Drive, p.Parking = plan.Unknown, plan.Unknown }))
	d := s.duty(t, "drive-there")
	require.Equal(t, NeedsDrive, d.Needs)
	require.True(t, d.Leave.IsZero())
	require.Equal(t, "2027-03-09 05:30", span(d.There))
	require.Equal(t, NeedsDrive, s.duty(t, "stay-with").Needs)
}
