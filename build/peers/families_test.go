package peers

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/calendar"
	"newel/core/guide"
	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/schedule"
	"newel/core/wall"
	"newel/core/zone"
)

// families are where an invented family lives, and the day of the surgery: the dates
// of its duties run across a change of the clocks, where there is one.
var families = map[string]string{
	"America/Chicago":     "2027-02-23", // 14 March, forward in the night
	"America/New_York":    "2026-10-13", // 1 November, back
	"America/Havana":      "2027-02-25", // 14 March, forward at midnight
	"America/Santiago":    "2026-08-20", // 6 September, forward at midnight
	"Europe/Berlin":       "2027-03-10", // 28 March
	"Africa/Casablanca":   "2027-01-25", // 7 February and 14 March, for Ramadan
	"Australia/Lord_Howe": "2027-03-16", // 4 April, back by half an hour
	"Australia/Adelaide":  "2026-09-15", // 4 October, forward, half an hour off the hour
	"Asia/Kathmandu":      "2027-02-09", // never; 5:45 from UTC
	"Pacific/Chatham":     "2027-03-16", // 4 April; 12:45 from UTC
}

// recur reads a rule that starts some days after the surgery.
func recur(t testing.TB, day wall.Date, at wall.Clock, text string) repeat.Rule {
	t.Helper()
	r, err := repeat.Parse(text, repeat.Moment{Day: day, At: at}, time.UTC)
	require.NoError(t, err, text)
	return r
}

func clock(hour, minute int) wall.Clock { return wall.Clock(hour*60 + minute) }

// therapy is Monday, Wednesday and Friday at 10:30 for six weeks; one date is skipped,
// one is in the afternoon, one is added on a Saturday.
func therapy(t testing.TB, surgery wall.Date) repeat.Rule {
	r := recur(t, surgery+3, clock(10, 30), "FREQ=WEEKLY;BYDAY=MO,WE,FR;COUNT=18")
	days, _ := r.Pattern()
	r.Skipped = []wall.Date{days[8]}
	r.Moved = []repeat.Move{{From: days[5], To: repeat.Moment{Day: days[5], At: clock(14, 30)}}}
	r.Extra = []repeat.Moment{{Day: days[10] + wall.Date(6-days[10].Weekday()), At: clock(10, 30)}}
	return r.Canonical()
}

// family is a family's plan with duties of every kind.
func family(t testing.TB, where string) plan.Plan {
	surgery, err := wall.ParseDate(families[where])
	require.NoError(t, err)
	ride := plan.Ride{Own: 10, Drive: 25, Parking: 5, Early: 10}
	home := plan.Ride{Own: 15}
	leaves := ride
	leaves.Leaves = true
	first := therapy(t, surgery)
	days, _ := first.Pattern()
	p := plan.Plan{
		Number: 20_270_304, Patient: "Rosa", Surgery: surgery, Arrival: clock(5, 30), Zone: where,
		Joint: plan.Knee, Operation: plan.First, Stay: plan.OneNight, Drive: 40, Parking: 15,
		Facts:   plan.SoapGiven | plan.DrinkGiven | plan.HomeAnswered | plan.Stairs | plan.Pets | plan.Glasses,
		Program: plan.Program{Hospital: "Alder Ferry Hospital", Address: "12 Millrace Road; Alder Ferry, upstairs", Phone: "555-0142"},
		Helpers: []string{"Marco", "Inés", "Theo"},
		Cover:   [len(plan.BuiltIn)]uint8{1, 1, 2, 2, 3},
	}
	for _, d := range []plan.Duty{
		{Kind: plan.TherapyRide, Who: 1, Rule: first, Length: 60, Ride: ride, Place: "Millrace Therapy, 3 Weir Lane",
			Note: "Walker, shoes with backs; the exercise sheet, pages 1\\2"},
		{Kind: plan.TherapyRide, Who: 2, Length: 150, Ride: leaves,
			Rule: recur(t, days[len(days)-1]+1, clock(10, 30), "FREQ=WEEKLY;BYDAY=TU,TH;COUNT=12")},
		{Kind: plan.PetCare, Who: 2, Rule: recur(t, surgery, clock(7, 30), "FREQ=DAILY"), Length: 20, Ride: home},
		{Kind: plan.PetCare, Who: 3, Rule: recur(t, surgery, clock(18, 0), "FREQ=DAILY;COUNT=60"), Length: 20, Title: "Dog, evening"},
		{Kind: plan.Meals, Rule: recur(t, surgery+2, clock(12, 0), "FREQ=DAILY;COUNT=50"), Length: 45, Title: "Soup 🍲 for two; café rolls, buttered",
			Note: "A second helping where Rosa likes it — «más» — and señor Núñez's bread: 12 €"},
		{Kind: plan.VisitRide, Who: 3, Rule: recur(t, surgery+14, clock(9, 15), "FREQ=DAILY;COUNT=1"), Length: 40,
			Ride: plan.Ride{Own: 10, Drive: 95, Parking: 10, Early: 15}, Title: "Dr. Okafor, two weeks"},
		{Kind: plan.OtherRide, Who: 1, Rule: recur(t, surgery+4, clock(0, 45), "FREQ=WEEKLY;COUNT=6"), Length: 30,
			Ride: plan.Ride{Drive: 60, Parking: 5, Early: 5}, Title: "Night train"},
		{Kind: plan.Nights, Who: 3, Rule: recur(t, surgery+1, clock(21, 30), "FREQ=DAILY;INTERVAL=2;COUNT=24"), Length: 9 * 60, Ride: home},
		{Kind: plan.OtherDuty, Rule: recur(t, surgery+20, clock(8, 0), "FREQ=MONTHLY;BYDAY=-1FR;COUNT=6"), Length: 30, Title: "Bins"},
		{Kind: plan.VisitRide, Who: 2, Length: 30, Ride: ride,
			Rule: recur(t, surgery+30, clock(3, 10), "FREQ=MONTHLY;BYMONTHDAY=1,-1;COUNT=4")},
		// At times that the clocks skip or repeat in one or another of the zones.
		{Kind: plan.OtherDuty, Who: 3, Rule: recur(t, surgery, clock(0, 20), "FREQ=DAILY;COUNT=50"), Length: 25, Title: "Drops"},
		{Kind: plan.OtherDuty, Who: 3, Rule: recur(t, surgery, clock(1, 40), "FREQ=DAILY;COUNT=50"), Length: 15, Title: "Turn over"},
		{Kind: plan.OtherDuty, Who: 3, Rule: recur(t, surgery, clock(2, 15), "FREQ=DAILY;COUNT=50"), Length: 15, Title: "Ice"},
	} {
		d.ID = p.FreshDuty(0)
		p = p.WithDuty(d)
	}
	// Each has a way of their own: Marco as the duties say, Inés 25 minutes, Theo none.
	p = p.WithAbout(2, plan.About{Told: true, Can: plan.AllAbilities, Away: 25}).WithAbout(3, plan.About{Told: true})
	p = p.WithShift(plan.SlotOf(1, plan.Afternoon), 1).WithShift(plan.SlotOf(2, plan.Morning), 0)
	require.Empty(t, plan.Check(&p, surgery))
	return p
}

func build(t testing.TB, p plan.Plan) *schedule.Schedule {
	t.Helper()
	s, err := schedule.Build(p)
	require.NoError(t, err)
	return s
}

// written is the moment of the first file; later ones are written later.
var written = time.Date(2026, 7, 1, 12, 0, 0, 0, time.UTC)

func everybody() calendar.Choice { return calendar.Choice{All: true, Alarm: 45} }

// export writes a plan's file, n hours after the first one.
func export(t testing.TB, p plan.Plan, c calendar.Choice, n int, before string) (file, memory string) {
	t.Helper()
	return calendar.Write(calendar.Input{
		Schedule: build(t, p), Now: written.Add(time.Duration(n) * time.Hour), Choice: c, Before: before,
		Voice: guide.Voice{Book: guide.Open("en"), Today: p.Surgery},
	})
}

func load(t testing.TB, name string) *time.Location {
	t.Helper()
	loc, err := zone.Load(name)
	require.NoError(t, err)
	return loc
}
