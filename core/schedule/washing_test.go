package schedule

import (
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
	"newel/core/wall"
)

// Common practice, no published source: daily from the fourth day before, plus the
// morning itself.
func TestFiveWashes(t *testing.T) {
	s := build(t, family(t))
	washes := s.byID("wash")
	require.Len(t, washes, 5)
	var days []string
	for i, w := range washes {
		require.Equal(t, i+1, w.N)
		require.Equal(t, 5, w.Of)
		days = append(days, w.First.String())
	}
	require.Equal(t, []string{"2027-03-05", "2027-03-06", "2027-03-07", "2027-03-08", "2027-03-09"}, days)
	require.Equal(t, "2027-03-09 04:15", local(washes[4].Until), "the last one before leaving home")
}

// CDC Guideline for the Prevention of Surgical Site Infection, JAMA Surg
// 2017;152(8):784-791, category IB: bathe on at least the night before the
// operative day. It holds for every number of wash days a hospital may set.
func TestWashOnTheNightBefore(t *testing.T) {
	for days := plan.Rules[plan.WashDays].Min; days <= plan.Rules[plan.WashDays].Max; days++ {
		for morning := 0; morning <= 1; morning++ {
			s := build(t, family(t, func(p *plan.Plan) {
				p.Program.Set(plan.WashDays, days)
				p.Program.Set(plan.WashMorning, morning)
			}))
			washes := s.byID("wash")
			require.Len(t, washes, days+morning)
			require.True(t, washes[days-1].Evening)
			require.Equal(t, "2027-03-08", washes[days-1].First.String())
		}
	}
}

func TestWashWording(t *testing.T) {
	for _, c := range []struct {
		facts plan.Facts
		want  string
	}{
		{plan.SoapGiven, ""},
		{0, "own"},
		{plan.NoSurgicalSoap, "ordinary"},
		{plan.SoapGiven | plan.NoSurgicalSoap, "ordinary"}, // given before anybody knew of the skin
	} {
		s := build(t, family(t, func(p *plan.Plan) { p.Facts = c.facts }))
		for _, w := range s.byID("wash") {
			require.Equal(t, c.want, w.Variant)
		}
	}
}

// Common practice, no published source.
func TestLinenShavingSkin(t *testing.T) {
	s := build(t, family(t))
	linen := s.byID("linen")
	require.Len(t, linen, 2)
	require.Equal(t, "2027-03-05 2027-03-08", linen[0].First.String()+" "+linen[1].First.String())
	shave := s.one(t, "no-shaving")
	require.Equal(t, "2027-03-07 05:30", local(shave.From))
	require.Equal(t, "2027-03-09 05:30", local(shave.Until))
	require.Equal(t, "2027-03-09", s.one(t, "nothing-on-skin").First.String())

	s = build(t, family(t, func(p *plan.Plan) { p.Arrival = wall.NoClock }))
	require.Equal(t, "2027-03-07", s.one(t, "no-shaving").First.String(), "two whole days while the hour is not known")
	s = build(t, family(t, func(p *plan.Plan) { p.Program.Set(plan.WashDays, 1) }))
	require.Len(t, s.byID("linen"), 1, "the first wash day is the eve")
}

// 48 hours are elapsed hours: over the spring change they begin an hour earlier on
// the wall. New York, 14 March 2027, as in testdata/zone.
func TestShavingOverClockChange(t *testing.T) {
	s := build(t, family(t, func(p *plan.Plan) { p.Surgery = day(t, "2027-03-15") }))
	require.Equal(t, "2027-03-13 04:30", local(s.one(t, "no-shaving").From))
}

// Another hospital's numbers work by changing data.
func TestAnotherHospital(t *testing.T) {
	s := build(t, family(t, func(p *plan.Plan) {
		require.True(t, p.Program.Set(plan.WashDays, 3))
		require.True(t, p.Program.Set(plan.NoShaveHours, 7*24))
		require.True(t, p.Program.Set(plan.LiquidsBefore, 60))
		require.True(t, p.Program.Set(plan.DischargeThere, 9*60))
		require.True(t, p.Program.Set(plan.StayWithHours, 72))
		require.True(t, p.Program.Set(plan.PrepMinutes, 90))
		require.True(t, p.Program.Set(plan.RecoveryMax, 120))
	}))
	washes := s.byID("wash")
	require.Len(t, washes, 4)
	require.Equal(t, "2027-03-06", washes[0].First.String())
	require.Equal(t, "2027-03-05", s.one(t, "clean-house").First.String(), "follows the first wash")
	require.Equal(t, "2027-03-02 05:30", local(s.one(t, "no-shaving").From), "a week")
	require.Equal(t, "2027-03-09 04:30", local(s.Fasting.LiquidStop), "the hospital wins")
	require.Len(t, s.Fasting.Concerns, 1, "and the navigator is told")
	d := s.duty(t, "drive-home-morning")
	require.Equal(t, "2027-03-10 09:00", span(d.There))
	require.Equal(t, "2027-03-13 11:00", local(s.Presence()[0].Must.To), "72 hours")
	require.Equal(t, "2027-03-09 07:00", span(s.Stages[1].Begins))
	require.Equal(t, "2027-03-09 09:00 to 2027-03-09 10:30", span(s.Stages[2].Ends))
}
