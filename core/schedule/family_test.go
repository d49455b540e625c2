package schedule

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/wall"
	"newel/core/zone"
)

// withRide is a plan with one ride: 10:30 for 45 minutes, 20 minutes' drive, 10 to
// park, 10 early; slack 25 %, 10 minutes into the car.
func withRide(t *testing.T, change func(*plan.Duty)) *Schedule {
	d := plan.Duty{
		ID: 1, Kind: plan.TherapyRide, Length: 45, Ride: plan.Ride{Own: 15, Drive: 20, Parking: 10, Early: 10},
		Rule: repeat.Rule{First: day(t, "2027-03-15"), At: 630, Freq: repeat.Weekly, Every: 1, Days: repeat.DaysOf(time.Monday), Week: time.Monday, Count: 2},
	}
	if change != nil {
		change(&d)
	}
	p := plan.Plan{Surgery: day(t, "2027-03-09"), Arrival: 330, Zone: "America/Chicago", Drive: 40, Parking: 15, Duties: []plan.Duty{d}}
	require.Empty(t, plan.Check(&p, p.Surgery))
	s, err := Build(p)
	require.NoError(t, err)
	return s
}

func (s *Schedule) dateOf(i int) *Duty { return &s.Duties[s.Series[0].Dates[i]] }

func clock(t time.Time) string { return t.Format("15:04") }

// The sum is worked out by hand: 10:30 − 10 early − 10 parking − 20 drive − 5 slack −
// 10 into the car − 15 own way = 09:20; 11:15 + 10 + 10 + 20 + 5 + 15 = 12:15.
func TestARideTakesLongerThanItsAppointment(t *testing.T) {
	s := withRide(t, nil)
	require.Len(t, s.Series, 1)
	require.Len(t, s.Series[0].Dates, 2)
	d := s.dateOf(0)
	require.Equal(t, "2027-03-15", d.Day.String())
	require.Equal(t, []string{"09:20", "10:20", "10:30", "11:15", "11:55", "12:00", "12:15"}, []string{
		clock(d.Leave), clock(d.There.From), clock(d.Session.From), clock(d.Session.To), clock(d.Home.From), clock(d.Home.To), clock(d.Free),
	})
	require.Equal(t, []Span{{d.Leave, d.Free}}, d.Busy())
	require.Equal(t, Trip{Arrive: d.There.From, Early: 10, Parking: 10, Drive: 20, Slack: 5, Car: 10, Own: 15, Leave: d.Leave}, d.Trip)
}

// Who does not wait is home between: back from 10:20 with 10 + 20 + 5 + 15 minutes,
// and as long before the end.
func TestComingBackLaterFreesTheTimeBetween(t *testing.T) {
	long := func(d *plan.Duty) { d.Length, d.Ride.Leaves = 150, true }
	d := withRide(t, long).dateOf(0)
	require.Equal(t, []string{"11:10", "12:10"}, []string{clock(d.Gap.From), clock(d.Gap.To)})
	require.Equal(t, []Span{{d.Leave, d.Gap.From}, {d.Gap.To, d.Free}}, d.Busy())
	waits := withRide(t, func(d *plan.Duty) { d.Length = 150 }).dateOf(0)
	require.False(t, waits.Gap.Known())
	require.Equal(t, waits.Leave, d.Leave)
	require.Equal(t, waits.Free, d.Free)
	short := withRide(t, func(d *plan.Duty) { d.Ride.Leaves = true }).dateOf(0)
	require.False(t, short.Gap.Known(), "45 minutes are too short to go home")
	require.Len(t, short.Busy(), 1)
}

func TestARideWhoseWayIsNotKnownHasNoLeaveBy(t *testing.T) {
	for _, unknown := range []func(*plan.Duty){
		func(d *plan.Duty) { d.Ride.Drive = plan.Unknown }, func(d *plan.Duty) { d.Ride.Parking = plan.Unknown },
	} {
		d := withRide(t, unknown).dateOf(0)
		require.Equal(t, NeedsRide, d.Needs)
		require.True(t, d.Leave.IsZero() && d.Free.IsZero())
		require.Nil(t, d.Busy())
		require.Equal(t, "10:30", clock(d.Session.From))
		require.Equal(t, "10:20", clock(d.There.From))
	}
}

// A ride to an appointment soon after midnight begins on the day before, and stands
// there.
func TestARideMayBeginTheDayBefore(t *testing.T) {
	d := withRide(t, func(d *plan.Duty) { d.Rule.At = 30 }).dateOf(0)
	require.Equal(t, "2027-03-14", d.Day.String())
	require.Equal(t, "2027-03-15", d.On.Day.String())
	require.Equal(t, "23:20", clock(d.Leave))
}

// New York's clocks go from 02:00 to 03:00 on 14 March 2027 and from 02:00 to 01:00
// on 7 November (Energy Policy Act of 2005). RFC 5545 3.3.5: a skipped time has the
// offset before the gap, a repeated one is the first.
func TestARideOnTheNightOfAClockChange(t *testing.T) {
	change := func(first string, at wall.Clock) func(*plan.Duty) {
		return func(d *plan.Duty) {
			d.Rule = repeat.Rule{First: day(t, first), At: at, Freq: repeat.Daily, Every: 1, Count: 3}
		}
	}
	newYork := func(change func(*plan.Duty)) *Schedule {
		s := withRide(t, change)
		s.Plan.Zone = "America/New_York"
		again, err := Build(s.Plan)
		require.NoError(t, err)
		return again
	}
	s := newYork(change("2027-03-13", 150))
	for i, want := range []string{"2027-03-13T02:30:00-05:00", "2027-03-14T03:30:00-04:00", "2027-03-15T02:30:00-04:00"} {
		require.Equal(t, want, s.dateOf(i).Session.From.Format(time.RFC3339))
	}
	require.Equal(t, []zone.Fit{zone.Exact, zone.Skipped, zone.Exact}, []zone.Fit{s.dateOf(0).Fit, s.dateOf(1).Fit, s.dateOf(2).Fit})
	s = newYork(change("2027-11-06", 90))
	require.Equal(t, "2027-11-07T01:30:00-04:00", s.dateOf(1).Session.From.Format(time.RFC3339))
	require.Equal(t, zone.Repeated, s.dateOf(1).Fit)
	// The way there is counted in elapsed time: 70 minutes before 03:30 daylight time
	// are 01:20 standard time.
	s = newYork(change("2027-03-13", 210))
	require.Equal(t, "2027-03-14T01:20:00-05:00", s.dateOf(1).Leave.Format(time.RFC3339))
	require.Equal(t, 175*time.Minute, s.dateOf(1).Free.Sub(s.dateOf(1).Leave), "as long as on any other day")
}

func TestHelpAtHomeIsBusyFromLeavingHome(t *testing.T) {
	d := withRide(t, func(d *plan.Duty) {
		d.Kind, d.Length, d.Ride = plan.PetCare, 20, plan.Ride{Own: 5, Drive: -1, Parking: -1}
	}).dateOf(0)
	require.Equal(t, Help, d.Kind)
	require.Equal(t, []string{"10:25", "10:30", "10:50", "10:55"}, []string{clock(d.Leave), clock(d.There.From), clock(d.Ends.To), clock(d.Free)})
	d = withRide(t, func(d *plan.Duty) { d.Kind, d.Ride = plan.Meals, plan.Ride{Drive: -1, Parking: -1} }).dateOf(0)
	require.True(t, d.Leave.IsZero())
	require.Equal(t, []Span{{d.Session.From, d.Session.To}}, d.Busy())
}

func TestDroppedDutiesAreNotInTheSchedule(t *testing.T) {
	s := withRide(t, func(d *plan.Duty) { d.Dropped = true })
	require.Empty(t, s.Series)
	for i := range s.Duties {
		require.Nil(t, s.Duties[i].Family)
	}
}

func TestEverySeriesKnowsItsDatesAmongAllDuties(t *testing.T) {
	s := withRide(t, nil)
	p := s.Plan
	second := p.Duties[0]
	second.ID, second.Rule.At, second.Who = 2, 600, 1
	p.Helpers = []string{"Dana"}
	p.Cover[0] = 1
	p = p.WithDuty(second)
	s, err := Build(p)
	require.NoError(t, err)
	require.Len(t, s.Series, 2)
	for _, series := range s.Series {
		require.Len(t, series.Dates, 2)
		for _, i := range series.Dates {
			require.Same(t, series.Duty, s.Duties[i].Family)
		}
	}
	for i := range s.Duties {
		d := &s.Duties[i]
		if i > 0 {
			require.LessOrEqual(t, s.Duties[i-1].Day, d.Day)
		}
		want := uint8(0)
		if d.ID == "drive-there" || d.Family != nil && d.Family.ID == 2 {
			want = 1
		}
		require.Equal(t, want, s.Who(d), d.ID)
	}
}

// A date that was moved belongs to whoever has its place in the pattern, wherever it is
// now; an extra one goes by its own day. Days as in a printed calendar of 2027.
func TestEachDateHasItsOwnHelper(t *testing.T) {
	s := withRide(t, func(d *plan.Duty) {
		d.Rule.Days, d.Rule.Count = repeat.DaysOf(time.Monday, time.Wednesday), 4 // 15, 17, 22 and 24 March
		d.Rule.Moved = []repeat.Move{{From: day(t, "2027-03-22"), To: repeat.Moment{Day: day(t, "2027-03-24"), At: 900}}}
		d.Rule.Extra = []repeat.Moment{{Day: day(t, "2027-03-20"), At: 630}}
	})
	p := s.Plan
	p.Helpers = []string{"Dana", "Luis", "Ann"}
	d := p.Duties[0]
	d.Who, d.On[time.Wednesday], d.On[time.Saturday] = 1, 2, 3
	d.Takes = []plan.Take{{Day: day(t, "2027-03-22"), Who: 3}, {Day: day(t, "2027-03-24"), Who: 0}}
	s, err := Build(p.WithDuty(d))
	require.NoError(t, err)
	var got []string
	for i := range s.Series[0].Dates {
		date := s.dateOf(i)
		got = append(got, date.Day.String()+" "+s.Plan.Helper(s.Who(date)))
	}
	require.Equal(t, []string{"2027-03-15 Dana", "2027-03-17 Luis", "2027-03-20 Ann", "2027-03-24 ", "2027-03-24 Ann"}, got)
}

func TestSameTimesSeesWhatCalendarsMustHear(t *testing.T) {
	before := withRide(t, nil)
	for name, c := range map[string]struct {
		change func(*plan.Plan)
		same   bool
	}{
		"nothing":              {func(*plan.Plan) {}, true},
		"who does it":          {func(p *plan.Plan) { p.Helpers, p.Cover[0] = []string{"Dana"}, 1 }, true},
		"the phone number":     {func(p *plan.Plan) { p.Program.Phone = "555-0142" }, true},
		"the arrival":          {func(p *plan.Plan) { p.Arrival = 360 }, false},
		"the day":              {func(p *plan.Plan) { p.Surgery++ }, false},
		"the drive":            {func(p *plan.Plan) { p.Drive = 50 }, false},
		"the slack of rides":   {func(p *plan.Plan) { p.Program.Set(plan.DriveSlack, 50) }, false},
		"into the car":         {func(p *plan.Plan) { p.Program.Set(plan.CarMinutes, 20) }, false},
		"how long they stay":   {func(p *plan.Plan) { p.Program.Set(plan.PresenceHours, 48) }, false},
		"how long they must":   {func(p *plan.Plan) { p.Program.Set(plan.StayWithHours, 48) }, true},
		"who has one part":     {func(p *plan.Plan) { *p = p.WithShift(4, 0) }, true},
		"the zone":             {func(p *plan.Plan) { p.Zone = "America/Denver" }, false},
		"the end of liquids":   {func(p *plan.Plan) { p.Program.Set(plan.LiquidsBefore, 180) }, false},
		"going home same day":  {func(p *plan.Plan) { p.Stay = plan.SameDay }, false},
		"the arrival is known": {func(p *plan.Plan) { p.Arrival = wall.NoClock }, false},
	} {
		p := before.Plan
		c.change(&p)
		after, err := Build(p)
		require.NoError(t, err)
		require.Equal(t, c.same, SameTimes(before, after), name)
	}
}
