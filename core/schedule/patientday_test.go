package schedule

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
	"newel/core/wall"
)

// The times are worked out by hand from the family of helpers_test.go: there at 05:30,
// parked at 05:15, leaving at 04:15 (40 minutes and a quarter of that, 10 into the car).
// Where no source stands beside a check it is common practice, without a published one.

func noArrival(p *plan.Plan) { p.Arrival = wall.NoClock }

func oneRule(r plan.Rule, value int) func(*plan.Plan) {
	return func(p *plan.Plan) { p.Program.Set(r, value) }
}

func TestCheckInAndPermit(t *testing.T) {
	s := build(t, family(t))
	check := s.one(t, "check-in")
	require.True(t, check.AtHospital)
	require.Equal(t, AtTime, check.Due)
	require.Equal(t, "2027-03-09 05:30", local(check.Until))
	permit := s.one(t, "parking-permit")
	require.True(t, permit.AtHospital)
	require.Equal(t, "2027-03-09 05:15", local(permit.Around), "when the car is parked")
	require.Equal(t, "2027-03-09 05:30", local(permit.Over))

	unknown := build(t, family(t, func(p *plan.Plan) { p.Parking = plan.Unknown })).one(t, "parking-permit")
	require.Equal(t, "2027-03-09 05:30", local(unknown.Around), "at the arrival at the latest")

	s = build(t, family(t, noArrival))
	check = s.one(t, "check-in")
	require.Equal(t, []any{OnDay, NeedsArrival, true, ""}, []any{check.Due, check.Needs, check.AtHospital, local(check.Until)})
	require.True(t, s.one(t, "parking-permit").Around.IsZero(), "no time is guessed")
}

// ASA's advice for after anesthesia: no driving for 24 hours (steps.txt: asa-after).
// Recovery ends at the latest at 05:30 + 1 h + 1 h 30 + 3 h = 11:00.
func TestNoDrivingForADay(t *testing.T) {
	step := build(t, family(t)).one(t, "no-driving-day")
	require.Equal(t, Through, step.Due)
	require.Equal(t, "2027-03-10 11:00", local(step.Until))
	require.Equal(t, "2027-03-09 2027-03-10", step.First.String()+" "+step.Last.String())

	step = build(t, family(t, noArrival)).one(t, "no-driving-day")
	require.Equal(t, Daily, step.Due)
	require.Equal(t, "2027-03-09 2027-03-10", step.First.String()+" "+step.Last.String())
	require.True(t, step.Until.IsZero())

	late := build(t, family(t, func(p *plan.Plan) { p.Arrival = 20 * 60 })).one(t, "no-driving-day")
	require.Equal(t, "2027-03-11 01:30", local(late.Until))
	require.Equal(t, "2027-03-11", late.Last.String(), "an operation late in the day runs into the second night")
}

func TestLinenIsChangedTwiceOrOnce(t *testing.T) {
	linen := build(t, family(t)).byID("linen")
	require.Len(t, linen, 2)
	require.Equal(t, []int{1, 2, 2, 2}, []int{linen[0].N, linen[0].Of, linen[1].N, linen[1].Of})
	require.False(t, linen[0].Evening)
	require.True(t, linen[1].Evening)
	require.Equal(t, "2027-03-08 20:00", local(linen[1].Around))
	once := build(t, family(t, oneRule(plan.WashDays, 1))).one(t, "linen")
	require.Equal(t, "2027-03-08", once.First.String())
	require.Zero(t, once.Of)
}

// Nothing goes on the skin after the last wash, whichever that is.
func TestNothingOnSkinFromTheLastWash(t *testing.T) {
	morning := build(t, family(t, oneRule(plan.WashMorning, 1))).one(t, "nothing-on-skin")
	require.Equal(t, "2027-03-09", morning.First.String())
	require.False(t, morning.Evening)
	require.Equal(t, "2027-03-09 04:15", local(morning.Around))
	eve := build(t, family(t, oneRule(plan.WashMorning, 0))).one(t, "nothing-on-skin")
	require.Equal(t, "2027-03-08 2027-03-09", eve.First.String()+" "+eve.Last.String())
	require.True(t, eve.Evening)
	require.Equal(t, "2027-03-08 20:00", local(eve.Around))
}

// WHO 2016 and CDC: hair is not shaved. The hours are the program's; while the arrival is
// not known the first day is the one that holds for an arrival at midnight.
func TestNoShavingWithoutAnArrival(t *testing.T) {
	for hours, first := range map[int]string{24: "2027-03-08", 25: "2027-03-07", 48: "2027-03-07", 49: "2027-03-06"} {
		step := build(t, family(t, noArrival, oneRule(plan.NoShaveHours, hours))).one(t, "no-shaving")
		require.Equal(t, first, step.First.String(), "%d h", hours)
		require.Equal(t, Daily, step.Due)
	}
	step := build(t, family(t, func(p *plan.Plan) { p.Arrival = 5*60 + 30 })).one(t, "no-shaving")
	require.Equal(t, Through, step.Due)
	require.Equal(t, "2027-03-07", step.First.String())
}

func TestSupperComesBeforeTheStop(t *testing.T) {
	supper := build(t, family(t)).one(t, "supper")
	require.True(t, supper.Evening)
	require.Equal(t, "2027-03-08 18:00", local(supper.Around))
	require.Empty(t, supper.Variant)
	early := build(t, family(t, oneRule(plan.FoodStop, 18*60))).one(t, "supper")
	require.Equal(t, "2027-03-08 17:00", local(early.Around), "an hour before the stop")
	late := build(t, family(t, oneRule(plan.FoodStop, 18*60+1))).one(t, "supper")
	require.Equal(t, "2027-03-08 18:00", local(late.Around))
	require.Equal(t, openTimes, build(t, family(t, noArrival)).one(t, "supper").Variant)
	team := build(t, family(t, func(p *plan.Plan) { p.Facts |= plan.TeamTimes })).one(t, "supper")
	require.Equal(t, []string{teamTimes, "2027-03-08 18:00"}, []string{team.Variant, local(team.Around)})
}

// Without an arrival only a built-in time to stop eating can still become earlier.
func TestAnOpenTimeToStopEating(t *testing.T) {
	for want, p := range map[string]plan.Plan{
		openTimes: family(t, noArrival),
		"":        family(t, noArrival, oneRule(plan.FoodStop, 22*60)),
		teamTimes: family(t, noArrival, func(p *plan.Plan) { p.Facts |= plan.TeamTimes }),
	} {
		require.Equal(t, want, build(t, p).one(t, "food-stop").Variant)
	}
	require.Empty(t, build(t, family(t)).one(t, "food-stop").Variant)
	over := build(t, family(t, func(p *plan.Plan) { p.Arrival = 7 * 60 }, oneRule(plan.LiquidsBefore, 9*60))).one(t, "liquid-stop")
	require.Equal(t, "2027-03-08 22:00", local(over.Until))
	require.Equal(t, "2027-03-08 2027-03-08", over.First.String()+" "+over.Last.String())
	require.Equal(t, "2027-03-09", build(t, family(t)).one(t, "liquid-stop").First.String(), "03:30 is of the day itself")
}

// ASA 2017 and 2023: clear liquids end 2 h before. A hospital's own rule that is laxer is
// told to the navigator whatever the arrival; one that is as strict is not, and the built-in one never.
func TestALaxRuleIsAConcernBeforeTheArrivalIsKnown(t *testing.T) {
	concerns := func(change ...func(*plan.Plan)) []Concern {
		return build(t, family(t, append(change, noArrival)...)).Fasting.Concerns
	}
	require.Equal(t, []Concern{{Rule: plan.LiquidsBefore}}, concerns(oneRule(plan.LiquidsBefore, 119)))
	require.Empty(t, concerns(oneRule(plan.LiquidsBefore, 120)))
	require.Empty(t, concerns(oneRule(plan.LiquidsBefore, 180)))
	require.Empty(t, concerns())
}

// What is kept up before surgery is over with the arrival; what is kept up after it is not.
func TestWhatIsKeptUp(t *testing.T) {
	s := build(t, family(t, oneRule(plan.HardestDays, 14)))
	ill := s.one(t, "feeling-ill")
	require.Equal(t, []string{"2027-02-23", "2027-03-09", "2027-03-09 05:30"}, []string{ill.First.String(), ill.Last.String(), local(ill.Over)})
	hardest := s.one(t, "hardest-weeks")
	require.Equal(t, []string{"2027-03-09", "2027-03-23", ""}, []string{hardest.First.String(), hardest.Last.String(), local(hardest.Over)})
	walk := s.one(t, "walk-often")
	require.Equal(t, []any{Onward, "2027-03-09", ""}, []any{walk.Due, walk.First.String(), local(walk.Over)})
	gum := s.one(t, "gum-out")
	require.Equal(t, []string{"2027-03-09", "2027-03-09 04:15", "2027-03-09 05:30"}, []string{gum.First.String(), local(gum.Around), local(gum.Over)})
	bag := s.one(t, "bag")
	require.Equal(t, []string{"2027-03-08", "", ""}, []string{bag.First.String(), local(bag.Around), local(bag.Over)})
}

// Only what is done once has a box to tick, and the tick is that one's.
func TestWhatCanBeTicked(t *testing.T) {
	for due, want := range map[Due]bool{ByDay: true, OnDay: true, AtTime: true, Undated: true, Daily: false, Onward: false, Through: false} {
		require.Equal(t, want, (&Step{Due: due}).Once(), due)
	}
	wash := build(t, family(t)).byID("wash")[2]
	require.Equal(t, plan.Tick{Code: 40, N: 3}, wash.Tick(), "40 is its number in steps.txt, which links carry")
	done := family(t, func(p *plan.Plan) { *p = p.WithTick(plan.Tick{Code: 40, N: 3}, true) })
	require.True(t, wash.Done(&done))
	other := build(t, done).byID("wash")[1]
	require.False(t, other.Done(&done))
}

// 42 CFR 416.52(c)(3) and ASA: 24 hours. At the earliest they are over that long after the
// earliest coming home; after a night in the hospital, when the last possible hour is.
func TestUntilWhenSomebodyMustBeThere(t *testing.T) {
	s := build(t, family(t, func(p *plan.Plan) { p.Stay = plan.SameDay }))
	p := s.Presence()[0]
	require.True(t, p.Open)
	require.Equal(t, p.Must.From.Add(24*time.Hour), s.MustLeast(p))
	require.True(t, s.MustLeast(p).Before(p.Must.To))
	s = build(t, family(t))
	p = s.Presence()[0]
	require.False(t, p.Open)
	require.Equal(t, p.Must.To, s.MustLeast(p))
	require.Equal(t, 24*time.Hour, p.Must.To.Sub(s.duty(t, "drive-home-morning").Home.To))

	none := build(t, family(t, oneRule(plan.StayWithHours, 0))).Presence()
	require.Len(t, none, 1)
	require.False(t, none[0].Must.Known(), "a program without such hours")
	require.True(t, none[0].Whole.Known())
	one := build(t, family(t, oneRule(plan.StayWithHours, 1))).Presence()
	require.True(t, one[0].Must.Known())
}

// A stay without times is on the day of the drive home that it follows.
func TestTheDayOfAStayWithoutTimes(t *testing.T) {
	s := build(t, family(t, noArrival, func(p *plan.Plan) { p.Stay, p.Drive = plan.Undecided, plan.Unknown }))
	days := map[Branch]string{}
	for _, d := range s.Duties {
		if d.Kind == Stay {
			days[d.Branch] = d.Day.String()
		}
	}
	require.Equal(t, map[Branch]string{IfSameDay: "2027-03-09", IfOneNight: "2027-03-10"}, days)
}

// IANA tzdata: New York's clocks go from 02:00 to 03:00 on 14 March 2027, and back from 02:00
// to 01:00 on 7 November. A night until seven is until seven on the wall, an hour shorter or longer.
func TestANightEndsOnTheWall(t *testing.T) {
	for first, want := range map[string]time.Duration{"2027-03-12": 10 * time.Hour, "2027-03-13": 9 * time.Hour} {
		s := build(t, family(t, nights(t, first, 21*60, 600, 1)))
		d := s.dateOf(0)
		require.Equal(t, "21:00 07:00", clock(d.Session.From)+" "+clock(d.Session.To))
		require.Equal(t, want, d.Session.To.Sub(d.Session.From))
	}
	s := build(t, family(t, nights(t, "2027-03-14", 90, 60, 1)))
	require.Equal(t, time.Hour, s.dateOf(0).Session.To.Sub(s.dateOf(0).Session.From))
}
