package split

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/schedule"
	"newel/core/wall"
)

// All families here are invented.

func day(t testing.TB, iso string) wall.Date {
	t.Helper()
	d, err := wall.ParseDate(iso)
	require.NoError(t, err)
	return d
}

// family is a plan that the tests vary: first knee replacement on Tuesday 9 March 2027 in New
// York, arrival 05:30, one night, 40 minutes' drive, 15 to park. Of Dana and Luis nobody told
// anything.
func family(t testing.TB, change ...func(*plan.Plan)) plan.Plan {
	t.Helper()
	p := plan.Plan{
		Number: 7, Surgery: day(t, "2027-03-09"), Arrival: 5*60 + 30, Zone: "America/New_York", Drive: 40, Parking: 15,
		Helpers: []string{"Dana", "Luis"},
	}
	for _, c := range change {
		c(&p)
	}
	return p
}

func build(t testing.TB, p plan.Plan) *schedule.Schedule {
	t.Helper()
	require.True(t, plan.Usable(plan.Check(&p, p.Surgery)), "the test's own plan is wrong: %v", plan.Check(&p, p.Surgery))
	s, err := schedule.Build(p)
	require.NoError(t, err)
	return s
}

// start is before anything of a plan.
func start(s *schedule.Schedule) time.Time {
	t, _ := (s.Plan.Surgery - 30).At(s.Loc, 0)
	return t
}

// weekly is every week on some days, from a day on, so many dates.
func weekly(first wall.Date, at wall.Clock, count int, days ...time.Weekday) repeat.Rule {
	r := repeat.Rule{First: first, At: at, Freq: repeat.Weekly, Every: 1, Days: repeat.DaysOf(days...), Week: time.Monday, Count: count}
	return r.Canonical()
}

func once(day wall.Date, at wall.Clock) repeat.Rule {
	return repeat.Rule{First: day, At: at, Every: 1}.Canonical()
}

func daily(first wall.Date, at wall.Clock, count int) repeat.Rule {
	return repeat.Rule{First: first, At: at, Freq: repeat.Daily, Every: 1, Count: count}.Canonical()
}

// therapy is a ride: 45 minutes, 20 of driving, 10 to park, 10 early; slack a quarter, 10
// minutes into the car. So leaving is 55 minutes before, and home 45 to 45 after the end.
func therapy(id uint32, rule repeat.Rule) plan.Duty {
	return plan.Duty{ID: id, Kind: plan.TherapyRide, Length: 45, Rule: rule, Ride: plan.Ride{Drive: 20, Parking: 10, Early: 10}}
}

func atHome(id uint32, kind plan.DutyKind, length int, rule repeat.Rule) plan.Duty {
	return plan.Duty{ID: id, Kind: kind, Length: length, Rule: rule, Ride: plan.Ride{Drive: plan.Unknown, Parking: plan.Unknown}}
}

// able is somebody who can do everything at any time.
func able() plan.About { return plan.About{Told: true, Can: plan.AllAbilities} }

// at work and the like: weekly times on a clock.
func times(use plan.TimesUse, first wall.Date, from, to wall.Clock, days ...time.Weekday) plan.Times {
	length := int(to - from)
	if length <= 0 {
		length += 24 * 60
	}
	for !repeat.DaysOf(days...).Has(first.Weekday()) {
		first++
	}
	return plan.Times{Use: use, Length: length, Rule: weekly(first, from, 30, days...)}
}

// places finds duties by their id.
func places(s *schedule.Schedule, id string) (found []int) {
	for i := range s.Duties {
		if s.Duties[i].ID == id {
			found = append(found, i)
		}
	}
	return found
}

// local is a time on the wall; empty for none.
func local(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.Format("Mon 15:04")
}

var whys = [...]string{"", "no car", "no night", "no steady", "no pets", "out", "work", "away", "not then", "other"}
var states = [...]string{"covered", "untold", "open", "cannot"}

// told writes reasons in one line.
func told(s *schedule.Schedule, why []Reason) string {
	var all []string
	for _, r := range why {
		text := whys[r.Why]
		if r.Why >= AtWork {
			text += " " + local(r.From) + "-" + local(r.Until)
		}
		if r.Why == HasOther {
			text += " " + s.Duties[r.Other].ID
		}
		all = append(all, text)
	}
	return strings.Join(all, ", ")
}

// onceAt is a single date so many minutes after a midnight.
func onceAt(day wall.Date, minute int) repeat.Rule {
	return once(day+wall.Date(minute/(24*60)), wall.Clock(minute%(24*60)))
}
