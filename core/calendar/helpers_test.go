package calendar

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/guide"
	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/schedule"
	"newel/core/wall"
	"newel/core/zone"
)

func day(t testing.TB, iso string) wall.Date {
	t.Helper()
	d, err := wall.ParseDate(iso)
	require.NoError(t, err)
	return d
}

func load(t testing.TB, name string) *time.Location {
	t.Helper()
	loc, err := zone.Load(name)
	require.NoError(t, err)
	return loc
}

// rule reads a rule from RECUR text and its first date, such as "2027-03-15 10:30".
func rule(t testing.TB, first, recur string) repeat.Rule {
	t.Helper()
	d, clock, _ := strings.Cut(first, " ")
	c, err := wall.ParseClock(clock)
	require.NoError(t, err)
	if recur == "" {
		return repeat.Rule{First: day(t, d), At: c, Every: 1}
	}
	r, err := repeat.Parse(recur, repeat.Moment{Day: day(t, d), At: c}, time.UTC)
	require.NoError(t, err)
	return r
}

// family is an invented plan: knee replacement on Tuesday 9 March 2027, rides to
// therapy on three days a week for six weeks, one skipped and one moved, pets twice a
// day, a visit, and a ride that was taken out.
func family(t testing.TB, change ...func(*plan.Plan)) plan.Plan {
	t.Helper()
	therapy := rule(t, "2027-03-15 10:30", "FREQ=WEEKLY;BYDAY=MO,WE,FR;COUNT=18")
	therapy.Skipped = []wall.Date{day(t, "2027-04-05")}
	therapy.Moved = []repeat.Move{{From: day(t, "2027-03-26"), To: repeat.Moment{Day: day(t, "2027-03-26"), At: 14 * 60}}}
	therapy.Extra = []repeat.Moment{{Day: day(t, "2027-04-06"), At: 10*60 + 30}}
	p := plan.Plan{
		Number: 77, Revision: 2, Patient: "Rosa", Surgery: day(t, "2027-03-09"), Arrival: 5*60 + 30,
		Zone: "America/New_York", Drive: 40, Parking: 15, Stay: plan.OneNight,
		Facts:   plan.SoapGiven | plan.DrinkGiven,
		Program: plan.Program{Hospital: "Alder Ferry Hospital", Address: "12 Millrace Road, Alder Ferry", Phone: "555-0142"},
		Helpers: []string{"Dana", "Lee"},
		Cover:   [5]uint8{1, 2, 0, 1, 2},
		Duties: []plan.Duty{
			{ID: 1, Revision: 1, Kind: plan.TherapyRide, Place: "Millrace Therapy; 3 Mill Lane, Alder Ferry", Note: "loose trousers, the walker",
				Who: 1, Rule: therapy, Length: 45, Ride: plan.Ride{Own: 10, Drive: 20, Parking: 5, Early: 10, Leaves: true}},
			{ID: 2, Kind: plan.PetCare, Title: "Dog, mornings", Who: 2, Rule: rule(t, "2027-03-09 07:00", "FREQ=DAILY"), Length: 20},
			{ID: 3, Revision: 4, Kind: plan.VisitRide, Rule: rule(t, "2027-03-23 14:15", ""), Length: 30,
				Ride: plan.Ride{Drive: plan.Unknown, Parking: plan.Unknown}},
			{ID: 4, Revision: 2, Kind: plan.OtherRide, Who: 1, Rule: rule(t, "2027-03-20 09:00", "FREQ=WEEKLY;COUNT=3"), Length: 60,
				Ride: plan.Ride{Drive: 15, Parking: 0}, Dropped: true},
		},
	}
	for _, c := range change {
		c(&p)
	}
	return p
}

func build(t testing.TB, p plan.Plan) *schedule.Schedule {
	t.Helper()
	s, err := schedule.Build(p)
	require.NoError(t, err)
	return s
}

var now = time.Date(2027, 3, 1, 12, 30, 0, 0, time.UTC)

func everything() Choice { return Choice{All: true, Alarm: 30, Steps: true} }

func write(t testing.TB, p plan.Plan, c Choice, before string) (file, memory string) {
	t.Helper()
	s := build(t, p)
	return Write(Input{Schedule: s, Now: now, Choice: c, Before: before, Voice: guide.Voice{Book: guide.Open("en"), Today: p.Surgery}})
}

// withoutOurs takes our own properties out of a file, as some programs do.
func withoutOurs(file string) string {
	var lines []string
	for _, line := range unfold(file) {
		if !strings.HasPrefix(line, "X-NEWEL") {
			lines = append(lines, line)
		}
	}
	return strings.Join(lines, "\r\n") + "\r\n"
}
