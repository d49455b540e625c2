package split

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/wall"
)

// What is known of a duty counts although a way is not: the times are worked out by hand from
// the plan of family. Ours; no published source.

var everyDay = []time.Weekday{0, 1, 2, 3, 4, 5, 6}

// statesOf writes how each duty of one id stands.
func statesOf(t *testing.T, p plan.Plan, id string) (all []string) {
	t.Helper()
	s := build(t, p)
	report := Look(s, start(s))
	for _, place := range places(s, id) {
		f := report.Of(place)
		all = append(all, states[f.State]+": "+told(s, f.Why))
	}
	return all
}

// Dana is away all day: however near the hospital is, she can neither drive there nor home.
func TestAnUnknownWayToTheHospitalIsNoWayOut(t *testing.T) {
	for name, unknown := range map[string]func(*plan.Plan){
		"the drive":   func(p *plan.Plan) { p.Drive = plan.Unknown },
		"the parking": func(p *plan.Plan) { p.Parking = plan.Unknown },
	} {
		p := family(t, unknown, func(p *plan.Plan) {
			dana := able()
			dana.Times = []plan.Times{times(plan.Gone, p.Surgery-1, 0, 0, everyDay...)}
			p.About, p.Stay = []plan.About{dana, able()}, plan.Undecided
			p.Cover = [5]uint8{1, 1, 1, 1, 1}
		})
		for _, id := range []string{"drive-there", "wait", "drive-home", "drive-home-morning"} {
			for _, state := range statesOf(t, p, id) {
				require.Contains(t, state, "cannot: away", "%s, %s", name, id)
			}
		}
		p.About[0].Times = nil
		for _, id := range []string{"drive-there", "wait", "drive-home", "drive-home-morning"} {
			require.Contains(t, statesOf(t, p, id), "covered: ", "%s, %s", name, id)
		}
	}
}

// The minute of the arrival, 05:30, counts and no other: Dana begins to work at it, or after it.
func TestOfADriveOfUnknownLengthTheArrivalCounts(t *testing.T) {
	for from, want := range map[wall.Clock]string{5*60 + 30: "cannot: work Tue 05:30-Tue 09:00", 5*60 + 31: "covered: "} {
		p := family(t, func(p *plan.Plan) {
			dana := able()
			dana.Times = []plan.Times{times(plan.Work, p.Surgery, from, 9*60, time.Tuesday)}
			p.Drive, p.About, p.Cover[0] = plan.Unknown, []plan.About{dana, able()}, 1
		})
		require.Equal(t, []string{want}, statesOf(t, p, "drive-there"))
	}
}

// A ride to 10:30 for 45 minutes, ten early, of unknown length. Dana is at work, or has two of
// them at one time. Who leaves and comes back is there at 10:20 and at 11:15.
func TestARideOfUnknownLength(t *testing.T) {
	ride := func(id uint32, day wall.Date, at wall.Clock, leaves bool) plan.Duty {
		d := therapy(id, once(day, at))
		d.Ride.Drive, d.Ride.Leaves, d.Who = plan.Unknown, leaves, 1
		return d
	}
	for _, c := range []struct {
		from, to wall.Clock
		leaves   bool
		want     State
	}{
		{8 * 60, 17 * 60, false, Cannot}, {8 * 60, 17 * 60, true, Cannot},
		{10*60 + 25, 11 * 60, false, Cannot}, {10*60 + 25, 11 * 60, true, Covered},
		{11 * 60, 12 * 60, true, Cannot}, {11*60 + 15, 12 * 60, false, Covered}, {9 * 60, 10*60 + 20, false, Covered},
	} {
		p := family(t, func(p *plan.Plan) {
			dana := able()
			dana.Times = []plan.Times{times(plan.Work, p.Surgery+6, c.from, c.to, everyDay...)}
			p.About, p.Duties = []plan.About{dana, able()}, []plan.Duty{ride(1, p.Surgery+6, 10*60+30, c.leaves)}
		})
		s := build(t, p)
		require.Equal(t, c.want, Look(s, start(s)).Of(places(s, "therapy")[0]).State, "%+v", c)
	}
	p := family(t, func(p *plan.Plan) {
		p.About = []plan.About{able(), able()}
		p.Duties = []plan.Duty{ride(1, p.Surgery+6, 10*60+30, false), ride(2, p.Surgery+6, 10*60+30, true)}
	})
	require.Equal(t, []string{"cannot: other Mon 10:20-Mon 10:21 therapy", "cannot: other Mon 10:20-Mon 11:15 therapy"}, statesOf(t, p, "therapy"))
}

// Arrival 05:30: recovery is over between 08:30 and 11:00, and home is 60 minutes from there with
// slack and the car. Whoever is at work from 09:15 cannot drive home; from 12:00 they can.
func TestTheDriveHomeOnTheDayOfSurgeryWaitsForRecovery(t *testing.T) {
	for from, want := range map[wall.Clock]string{
		9*60 + 15: "cannot: work Tue 09:15-Tue 21:00", 11*60 + 59: "cannot: work Tue 11:59-Tue 21:00", 12 * 60: "covered: ",
	} {
		p := family(t, func(p *plan.Plan) {
			dana := able()
			dana.Times = []plan.Times{times(plan.Work, p.Surgery, from, 21*60, time.Tuesday)}
			p.About, p.Stay, p.Cover[2] = []plan.About{dana, able()}, plan.SameDay, 1
		})
		require.Equal(t, []string{want}, statesOf(t, p, "drive-home"))
		p.Cover[2] = 0
		s := build(t, p)
		line := lineOf(t, ptr(Suggest(s, Ask{Now: start(s)})), places(s, "drive-home")[0])
		if from < 12*60 {
			require.EqualValues(t, 2, line.To)
		}
	}
}

func ptr[T any](v T) *T { return &v }

// Dana arrives at 05:30 and is back at 06:35; the cat at 05:45 is not hers, also once she has
// arrived. At 05:20 nobody can leave at 04:15 any more.
func TestTheWayBackCountsUntilItIsOver(t *testing.T) {
	p := family(t, func(p *plan.Plan) {
		p.About, p.Cover[0] = []plan.About{able(), able()}, 1
		cat := atHome(1, plan.PetCare, 20, once(p.Surgery, 5*60+45))
		cat.Who = 1
		p.Duties = []plan.Duty{cat}
	})
	s := build(t, p)
	at := func(minute int) time.Time {
		now, _ := p.Surgery.At(s.Loc, wall.Clock(minute))
		return now
	}
	for _, minute := range []int{5*60 + 20, 5*60 + 31, 6*60 + 4} {
		require.Equal(t, "other Tue 04:15-Tue 06:35 drive-there", told(s, Look(s, at(minute)).Of(places(s, "pets")[0]).Why))
	}
	require.Nil(t, Look(s, at(6*60+35)).Of(places(s, "drive-there")[0]))
	p.Cover[0] = 0
	s = build(t, p)
	there, home := places(s, "drive-there")[0], places(s, "drive-home-morning")[0]
	proposal := Suggest(s, Ask{Now: at(5*60 + 20)})
	require.Contains(t, proposal.Open, there)
	for _, c := range proposal.Changes {
		require.NotContains(t, c.Covers, there)
	}
	lineOf(t, &proposal, home)
	require.Nil(t, Look(s, at(5*60+30)).Of(there), "nobody has it, so nobody is on the way back")
	lineOf(t, ptr(Suggest(s, Ask{Now: at(4*60 + 15)})), there)
	lineOf(t, ptr(Suggest(s, Ask{Now: at(24*60+9*60).AddDate(0, 0, 0)})), home) // late, and still to be fetched
}

// Shifts told 200 days before surgery without an end hold 200 days after it, by the day and by
// the week. A rule of RFC 5545 3.3.10 without COUNT and UNTIL goes on.
func TestHoursWithoutAnEndGoOn(t *testing.T) {
	for name, rule := range map[string]func(plan.Plan) repeat.Rule{
		"weekly": func(p plan.Plan) repeat.Rule { return weekly(p.Surgery-200, 8*60, 0, 1, 2, 3, 4, 5) },
		"daily":  func(p plan.Plan) repeat.Rule { return daily(p.Surgery-200, 8*60, 0) },
		"monthly": func(p plan.Plan) repeat.Rule {
			return repeat.Rule{First: p.Surgery - 200, At: 8 * 60, Freq: repeat.Monthly, Every: 1, MonthDays: []int8{23, 24, 25}}.Canonical()
		},
	} {
		p := family(t, func(p *plan.Plan) {
			dana, luis := able(), able()
			dana.Times = []plan.Times{{Use: plan.Work, Length: 9 * 60, Rule: rule(*p)}}
			luis.Times = []plan.Times{{Use: plan.Free, Length: 9 * 60, Rule: rule(*p)}}
			p.About = []plan.About{dana, luis}
			a, b := therapy(1, once(day(t, "2027-09-24"), 10*60+30)), therapy(2, once(day(t, "2027-09-24"), 10*60+30)) // a Friday
			a.Who, b.Who = 1, 2
			p.Duties = []plan.Duty{a, b}
		})
		require.Equal(t, []string{"cannot: work Fri 08:00-Fri 17:00", "covered: "}, statesOf(t, p, "therapy"), name)
	}
	every2 := repeat.Rule{First: day(t, "2020-01-06"), At: 0, Freq: repeat.Weekly, Every: 2, Days: repeat.DaysOf(time.Monday), Week: time.Monday}.Canonical()
	from, to := day(t, "2027-03-01"), day(t, "2027-05-01")
	for _, d := range daysWithin(every2, from, to) {
		require.Zero(t, (d-every2.First)%14, "the same Mondays as from the beginning")
	}
	for d := every2.First; d <= to; d += 14 {
		if d >= from {
			require.Contains(t, daysWithin(every2, from, to), d)
		}
	}
	require.Less(t, len(daysWithin(daily(from, 0, 0), from, from+100000)), 3*repeat.Year+2, "a link can be about centuries")
}

// Dana's night ends at 05:30, when the patient has to be in the hospital 65 minutes away.
func TestWhoWaitsHasToGetThere(t *testing.T) {
	for until, want := range map[wall.Clock]string{4*60 + 26: "cannot: work Mon 21:00-Tue 04:26", 4*60 + 25: "covered: "} {
		p := family(t, func(p *plan.Plan) {
			dana := able()
			dana.Times = []plan.Times{times(plan.Work, p.Surgery-8, 21*60, until, time.Monday)}
			p.About, p.Cover[1] = []plan.About{dana, able()}, 1
		})
		require.Equal(t, []string{want}, statesOf(t, p, "wait"))
	}
}
