package schedule

import (
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
)

// The own way is arithmetic, worked out by hand: who lives 25 minutes away leaves 25 minutes
// before, and is back 25 minutes after.
func TestTheOwnWayIsTheHelpers(t *testing.T) {
	s := withRide(t, func(d *plan.Duty) { d.Ride.Own = 10 })
	p := s.Plan
	p.Helpers = []string{"Dana", "Luis"}
	d := p.Duties[0]
	d.Takes = []plan.Take{{Day: s.dateOf(1).On.Of, Who: 2}}
	d.Who = 1
	p = p.WithDuty(d).WithAbout(2, plan.About{Told: true, Away: 25})
	after, err := Build(p)
	require.NoError(t, err)
	require.Equal(t, 10, after.dateOf(0).Own, "nobody told how far Dana has: as the duty says")
	require.Equal(t, s.dateOf(0).Leave, after.dateOf(0).Leave)
	theirs, was := after.dateOf(1), s.dateOf(1)
	require.Equal(t, 25, theirs.Own)
	require.Equal(t, 25, theirs.Trip.Own)
	require.Equal(t, -15.0, theirs.Leave.Sub(was.Leave).Minutes())
	require.Equal(t, 15.0, theirs.Free.Sub(was.Free).Minutes())
	require.Equal(t, Span{theirs.Leave, theirs.Free}, theirs.FromHome())
	require.False(t, SameDates(s, after, d.ID), "calendars have to hear of it")

	lives, err := Build(p.WithAbout(2, plan.About{Told: true}))
	require.NoError(t, err)
	require.Zero(t, lives.dateOf(1).Own, "who lives with the patient has no way")
	unknown, err := Build(p.WithAbout(2, plan.About{Told: true, Away: plan.Unknown}))
	require.NoError(t, err)
	require.Equal(t, 10, unknown.dateOf(1).Own)
}

// What every plan has stays the patient's time; the own way is beside it.
func TestTheOwnWayOfWhatEveryPlanHas(t *testing.T) {
	p := family(t, func(p *plan.Plan) { p.Helpers, p.Cover = []string{"Dana"}, [5]uint8{1, 1, 1, 1, 1} })
	before := build(t, p)
	after := build(t, p.WithAbout(1, plan.About{Told: true, Away: 35}))
	require.True(t, SameTimes(before, after))
	there := after.duty(t, "drive-there")
	require.Equal(t, "2027-03-09 04:15", local(there.Leave))
	require.Equal(t, "2027-03-09 03:40", local(there.OwnLeave()))
	require.True(t, func() bool { d := before.duty(t, "drive-there"); return d.OwnLeave().IsZero() }())
	home := after.duty(t, "drive-home-morning")
	require.Equal(t, "2027-03-10 06:40", local(home.OwnLeave()))
	require.Equal(t, "2027-03-10 11:35", local(home.FromHome().To))
	stay := after.duty(t, "stay-with")
	require.Equal(t, "2027-03-10 10:05", local(stay.OwnLeave()))
	require.Equal(t, "2027-03-10 14:35", local(stay.FromHome().To))
	wait := after.duty(t, "wait")
	require.Zero(t, wait.Own)
}

// The order of need is ours; what must be in it: ASA and 42 CFR 416.52(c)(3).
func TestNeedOf(t *testing.T) {
	p := family(t, nights(t, "2027-03-10", 20*60, 12*60, 3))
	d := p.Duties[0]
	d.Need = plan.NiceToHave
	s := build(t, p.WithDuty(d))
	var needs []plan.Need
	for i := range s.Duties {
		needs = append(needs, s.Duties[i].NeedOf())
	}
	require.Equal(t, []plan.Need{
		plan.MustBe, plan.NiceToHave, // the drive there, waiting
		plan.MustBe, plan.MustBe, plan.MustBe, // the drive home, and that day
		plan.MustBe,                                 // the first night, whatever it says
		plan.MustBe, plan.ShouldBe, plan.NiceToHave, // the day after, and its night
		plan.ShouldBe, plan.ShouldBe, plan.NiceToHave, plan.ShouldBe,
	}, needs)
}
