package schedule

import (
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
)

// What a calendar has to hear of: a date's time, its way there and back, the zone; and of
// that duty only. That it must hear is RFC 5546 2.1.4: what was sent is sent anew when it changes.
func TestSameDatesSeesEachTime(t *testing.T) {
	before := withRide(t, nil)
	require.True(t, SameDates(before, withRide(t, nil), 1))
	for what, change := range map[string]func(*plan.Duty){
		"later":         func(d *plan.Duty) { d.Rule.At += 15 },
		"longer":        func(d *plan.Duty) { d.Length += 15 },
		"a longer way":  func(d *plan.Duty) { d.Ride.Drive += 15 },
		"one date more": func(d *plan.Duty) { d.Rule.Count++ },
	} {
		require.False(t, SameDates(before, withRide(t, change), 1), what)
		require.True(t, SameDates(before, withRide(t, change), 2), "another duty's dates are not asked for: %s", what)
	}
	p := before.Plan
	p.Zone = "America/New_York"
	require.False(t, SameDates(before, build(t, p), 1))

	p = before.Plan // a second duty whose dates move leaves the first one's alone, and is found behind it
	second := p.Duties[0]
	second.ID, second.Rule.At = 2, 900
	p.Duties = []plan.Duty{p.Duties[0], second}
	two := build(t, p)
	second.Rule.At = 915
	p.Duties = []plan.Duty{p.Duties[0], second}
	moved := build(t, p)
	require.True(t, SameDates(two, moved, 1))
	require.False(t, SameDates(two, moved, 2))
}

// A stop that moves is seen though its day does not, and so is an end that Moves does not say.
func TestSameTimesSeesStepsEnds(t *testing.T) {
	before := build(t, family(t))
	require.True(t, SameTimes(before, build(t, family(t))))
	late := build(t, family(t, oneRule(plan.RecoveryMax, plan.Rules[plan.RecoveryMax].Common+30)))
	require.False(t, SameTimes(before, late), "how long nobody drives ends later")
}

// Of a ride whose way is not known it is not known either when the helper leaves home, nor
// for how long they are busy.
func TestWhatIsNotKnownOfARide(t *testing.T) {
	d := withRide(t, func(d *plan.Duty) { d.Ride.Drive = plan.Unknown }).dateOf(0)
	require.True(t, d.FromHome().From.IsZero())
	require.Empty(t, d.Busy(), "nobody is said to be busy at times that were guessed")
	s := build(t, family(t, func(p *plan.Plan) { p.Drive = plan.Unknown }))
	there := s.duty(t, "drive-there")
	require.True(t, there.FromHome().From.IsZero(), "no time is made of nothing")
	require.True(t, there.OwnLeave().IsZero())
}

// 25 hours before 23:00 is 22:00 on the day before: the first day is that one, and not the
// one that an arrival at midnight would need.
func TestNoShavingFromItsHour(t *testing.T) {
	step := build(t, family(t, func(p *plan.Plan) { p.Arrival = 23 * 60 }, oneRule(plan.NoShaveHours, 25))).one(t, "no-shaving")
	require.Equal(t, "2027-03-08 22:00", local(step.From))
	require.Equal(t, "2027-03-08", step.First.String())
}

// CDC 2017: at least the night before; only that one is an evening's, and who leaves on the
// day before washes that day, and no later.
func TestOnlyTheLastDailyWashIsAnEvenings(t *testing.T) {
	for i, w := range build(t, family(t)).byID("wash") {
		require.Equal(t, i == 3, w.Evening, i)
	}
	far := build(t, family(t, func(p *plan.Plan) { p.Arrival, p.Drive = 60, 5*60 })).byID("wash")
	last := far[len(far)-1]
	require.Equal(t, "2027-03-08 2027-03-08", last.First.String()+" "+last.Last.String())
}

// A duty without times says what is missing, and leaves the others their places.
func TestWaitingWithoutAnArrival(t *testing.T) {
	wait := build(t, family(t, noArrival)).duty(t, "wait")
	require.Equal(t, NeedsArrival, wait.Needs)
	require.True(t, wait.There.From.IsZero())
	known := build(t, family(t)).duty(t, "wait")
	require.Equal(t, Nothing, known.Needs)
	require.Equal(t, known.Ends.To, known.Free)
}
