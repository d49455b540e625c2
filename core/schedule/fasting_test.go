package schedule

import (
	"encoding/json"
	"os"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
	"newel/core/wall"
)

// fastingVectors are testdata/schedule/fasting.json, which names its source.
func fastingVectors(t *testing.T) (cases []struct {
	Procedure string `json:"procedure_local"`
	Zone      string `json:"tzid"`
	Liquids   cutoff `json:"clear_liquids"`
	Light     cutoff `json:"light_meal"`
	Heavy     cutoff `json:"fatty_fried_meat"`
}) {
	t.Helper()
	data, err := os.ReadFile("../../testdata/schedule/fasting.json")
	require.NoError(t, err)
	file := struct {
		Cases any `json:"cases"`
	}{&cases}
	require.NoError(t, json.Unmarshal(data, &file))
	require.GreaterOrEqual(t, len(cases), 11)
	return cases
}

type cutoff struct {
	UTC string `json:"utc"`
}

func (c cutoff) time(t *testing.T) time.Time {
	t.Helper()
	at, err := time.Parse("2006-01-02T15:04Z", c.UTC)
	require.NoError(t, err)
	return at
}

// ASA 2017 and 2023, counted from arrival, which is never later than the
// procedure: 2 h, 6 h and 8 h of elapsed time, over midnight, month, year, leap
// day and both nights of a clock change.
func TestFastingVectors(t *testing.T) {
	for _, c := range fastingVectors(t) {
		t.Run(c.Procedure+" "+c.Zone, func(t *testing.T) {
			at, err := time.Parse("2006-01-02T15:04", c.Procedure)
			require.NoError(t, err)
			p := family(t, func(p *plan.Plan) {
				p.Surgery, p.Arrival, p.Zone = wall.DateOf(at), wall.Clock(at.Hour()*60+at.Minute()), c.Zone
			})
			f := build(t, p).Fasting
			require.Equal(t, c.Liquids.time(t), f.LiquidStop.UTC())
			require.False(t, f.FoodStop.After(c.Light.time(t)), "food stops no later than a light meal may")
			require.False(t, f.HeavyStop.After(c.Heavy.time(t)))
			require.Empty(t, f.Concerns)

			// A hospital that says "until you leave home" is laxer than all three limits:
			// what the navigator is shown as the guideline's time is the published one.
			p.Program.Set(plan.FoodStop, 24*60)
			p.Program.Set(plan.LiquidsBefore, 0)
			f = build(t, p).Fasting
			require.Equal(t, f.LiquidStop.UTC(), c.Liquids.time(t).Add(2*time.Hour), "the hospital wins")
			lax := map[plan.Rule]time.Time{}
			for _, concern := range f.Concerns {
				lax[concern.Rule] = concern.Guide.UTC()
			}
			require.Equal(t, c.Liquids.time(t), lax[plan.LiquidsBefore])
			if f.FoodStop.After(c.Light.time(t)) {
				require.Equal(t, c.Light.time(t), lax[plan.FoodStop])
			} else {
				require.NotContains(t, lax, plan.FoodStop)
			}
		})
	}
}

// The built-in 23:00 gives way where the arrival is so early that 6 hours before
// it is earlier still (ASA 2017, light meal).
func TestBuiltInFoodStopKeepsToGuideline(t *testing.T) {
	s := build(t, family(t, func(p *plan.Plan) { p.Arrival = 4 * 60 }))
	require.Equal(t, "2027-03-08 22:00", local(s.Fasting.FoodStop))
	require.Equal(t, "2027-03-08 20:00", local(s.Fasting.HeavyStop))
	s = build(t, family(t))
	require.Equal(t, "2027-03-08 23:00", local(s.Fasting.FoodStop), "common practice, no published source")
	require.Equal(t, "2027-03-08 21:30", local(s.Fasting.HeavyStop))
	require.Equal(t, "2027-03-09 03:30", local(s.Fasting.LiquidStop))
	s = build(t, family(t, func(p *plan.Plan) { p.Arrival = 13 * 60 }))
	require.Equal(t, "2027-03-08 23:00", local(s.Fasting.FoodStop), "an afternoon surgery does not move it")
	require.Equal(t, "2027-03-08 23:00", local(s.Fasting.HeavyStop), "never later than food at all")
}

// A hospital that sets a stricter rule is followed without a word.
func TestStricterHospital(t *testing.T) {
	s := build(t, family(t, func(p *plan.Plan) {
		p.Program.Set(plan.LiquidsBefore, 4*60)
		p.Program.Set(plan.FoodStop, 20*60)
	}))
	require.Equal(t, "2027-03-09 01:30", local(s.Fasting.LiquidStop))
	require.Equal(t, "2027-03-08 20:00", local(s.Fasting.FoodStop))
	require.Empty(t, s.Fasting.Concerns)
}

// "Nothing after midnight" is the minute before it, on the evening that it ends:
// 00:00 would be taken for the other end of the day.
func TestMidnightIsTheMinuteBefore(t *testing.T) {
	s := build(t, family(t, func(p *plan.Plan) { p.Arrival = 9 * 60; p.Program.Set(plan.FoodStop, 24*60) }))
	food := s.one(t, "food-stop")
	require.Equal(t, "2027-03-08 23:59", local(food.Until))
	require.Equal(t, "2027-03-08", food.First.String())
	s = build(t, family(t, func(p *plan.Plan) { p.Arrival = 2 * 60 }))
	require.Equal(t, "2027-03-08 23:59", local(s.one(t, "liquid-stop").Until))
}

// Without an arrival the built-in time to stop eating is shown with what an early
// arrival would change, and the questions stand on the evening before, while there
// is somebody to ask.
func TestEveningBeforeAnUnknownArrival(t *testing.T) {
	s := build(t, family(t, func(p *plan.Plan) { p.Arrival = wall.NoClock }))
	require.Equal(t, "open", s.one(t, "food-stop").Variant)
	require.Equal(t, "2027-03-09 05:00", local(s.EarlyArrival()), "six hours after 23:00")
	require.Equal(t, "2027-03-08", s.one(t, "liquid-stop").First.String())
	s = build(t, family(t, func(p *plan.Plan) { p.Arrival = wall.NoClock; p.Program.Set(plan.FoodStop, 24*60) }))
	require.Empty(t, s.one(t, "food-stop").Variant, "the hospital's own rule needs no comment of ours")
}

// ASA 2017 (from memory): the guideline does not fit diabetes or reflux as it is;
// the team's times hold, so none is computed.
func TestTeamTimes(t *testing.T) {
	s := build(t, family(t, func(p *plan.Plan) { p.Facts |= plan.TeamTimes }))
	require.Equal(t, Fasting{TeamTimes: true}, s.Fasting)
	for _, id := range []string{"supper", "food-stop", "drink", "liquid-stop"} {
		st := s.one(t, id)
		require.Equal(t, "team", st.Variant, id)
		require.True(t, st.Until.IsZero(), id)
	}
}

// No drink given, no line about it.
func TestDrinkOnlyWhereGiven(t *testing.T) {
	s := build(t, family(t, func(p *plan.Plan) { p.Facts &^= plan.DrinkGiven }))
	require.Empty(t, s.byID("drink"))
	s = build(t, family(t))
	require.Equal(t, "2027-03-09 03:30", local(s.one(t, "drink").Until), "counts as a clear liquid")
}

// A hospital that stops food early: the supper still comes before it.
func TestSupperBeforeTheStop(t *testing.T) {
	for stop := plan.Rules[plan.FoodStop].Min; stop <= plan.Rules[plan.FoodStop].Max; stop += 15 {
		s := build(t, family(t, func(p *plan.Plan) { p.Program.Set(plan.FoodStop, stop) }))
		require.True(t, s.one(t, "supper").Around.Before(s.Fasting.FoodStop), wall.Clock(stop).String())
	}
}
