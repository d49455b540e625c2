package schedule

import (
	"math/rand"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
	"newel/core/wall"
	"newel/core/zone"
)

// randomPlan is any plan that plan.Check lets pass.
func randomPlan(r *rand.Rand) plan.Plan {
	zones := zone.Names()
	for {
		p := plan.Plan{
			Surgery: wall.FirstDate + 8000 + wall.Date(r.Intn(7000)), Arrival: wall.Clock(r.Intn(1441) - 1),
			Joint: plan.Joint(r.Intn(2)), Operation: plan.Operation(r.Intn(3)), Stay: plan.Stay(r.Intn(3)),
			Zone: zones[r.Intn(len(zones))], Drive: r.Intn(plan.MaxDrive+2) - 1, Parking: r.Intn(plan.MaxParking+2) - 1,
			Facts: plan.Facts(r.Intn(int(plan.AllFacts) + 1)),
		}
		for rule, info := range plan.Rules {
			if r.Intn(4) == 0 {
				p.Program.Set(plan.Rule(rule), info.Min+r.Intn(info.Max-info.Min+1))
			}
		}
		if plan.Usable(plan.Check(&p, p.Surgery)) {
			return p
		}
	}
}

// What must hold for every plan, whatever a family or a hospital puts in.
func TestEveryPlan(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	for i := range 3000 {
		p := randomPlan(r)
		s, err := Build(p)
		require.NoError(t, err)
		require.NotPanics(t, func() { checkPlan(t, s) }, "plan %d: %+v", i, p)
		if t.Failed() {
			t.Fatalf("plan %d: %+v", i, p)
		}
	}
}

func checkPlan(t *testing.T, s *Schedule) {
	p := &s.Plan
	checkFasting(t, s)
	for i, d := range s.Duties {
		require.True(t, d.Leave.IsZero() || d.Leave.Equal(d.There.From.Add(-minutesOf(d.Trip))), d.ID)
		require.False(t, d.There.To.Before(d.There.From), d.ID)
		require.False(t, d.Ends.To.Before(d.Ends.From), d.ID)
		require.True(t, d.Free.IsZero() || !d.Free.Before(d.There.From), d.ID)
		require.True(t, i == 0 || s.Duties[i-1].Day <= d.Day, "in order of days")
		require.Equal(t, d.Needs != Nothing, d.There.From.IsZero() || d.Place == Hospital && d.ID != "wait" && d.Leave.IsZero(), d.ID)
	}
	// 42 CFR 416.52(c)(3): a same-day discharge always has an escort.
	if p.Stay != plan.OneNight {
		d := s.duty(t, "drive-home")
		require.True(t, d.Must)
	}
	// CDC 2017, IB: a wash on the evening before.
	night := false
	for _, w := range s.byID("wash") {
		night = night || w.Evening && w.First == p.Surgery-1
	}
	require.True(t, night)
	for _, st := range s.Steps {
		require.LessOrEqual(t, st.First, st.Last, st.ID)
		require.False(t, st.Until.IsZero() && st.Due == AtTime, st.ID)
		if s.Arrival.IsZero() && st.List == "eat" && st.ID != "food-stop" {
			require.True(t, st.Until.IsZero(), "%s has a time without an arrival", st.ID)
		}
	}
}

// ASA 2017 and 2023, counted from arrival: never later, unless the hospital itself
// says so, and then the navigator hears of it.
func checkFasting(t *testing.T, s *Schedule) {
	f := s.Fasting
	if s.Arrival.IsZero() || f.TeamTimes {
		require.True(t, f.LiquidStop.IsZero())
		require.Empty(t, f.Concerns)
		return
	}
	late := 0
	if f.LiquidStop.After(s.Arrival.Add(-2 * time.Hour)) {
		require.True(t, s.Plan.Program.Own(plan.LiquidsBefore))
		late++
	}
	if f.FoodStop.After(s.Arrival.Add(-6 * time.Hour)) {
		require.True(t, s.Plan.Program.Own(plan.FoodStop))
		late++
	}
	require.Len(t, f.Concerns, late)
	require.False(t, f.HeavyStop.After(s.Arrival.Add(-8*time.Hour)))
}

func minutesOf(t Trip) time.Duration {
	return time.Duration(t.Parking+t.Drive+t.Slack+t.Car) * time.Minute
}

func TestUnknownZone(t *testing.T) {
	p := family(t, func(p *plan.Plan) { p.Zone = "Mars/Olympus" })
	_, err := Build(p)
	require.Error(t, err)
}
