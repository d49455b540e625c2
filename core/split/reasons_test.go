package split

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
)

// The sentences of the issue that asked for this package: "Luis is at work until 15:00", "Dana
// would still be driving back from therapy until 11:50", "it needs someone who drives".
func TestTheReasonsOfTheIssue(t *testing.T) {
	monday := day(t, "2027-03-15") // a Monday, from a printed calendar
	p := family(t, func(p *plan.Plan) {
		p.Helpers = []string{"Dana", "Luis", "Mina"}
		luis, mina := able(), able()
		luis.Times = []plan.Times{times(plan.Work, monday, 7*60, 15*60, time.Monday)}
		mina.Can &^= plan.CanDrive
		p.About = []plan.About{able(), luis, mina}
		// 10:15 and 45 minutes, then 10 to the car, 10 into it, 24 to drive and a quarter more:
		// home at 11:50.
		ride := therapy(1, weekly(monday, 10*60+15, 3, time.Monday))
		ride.Ride.Drive, ride.Who = 24, 1
		ride.Takes = []plan.Take{{Day: monday + 7, Who: 2}, {Day: monday + 14, Who: 3}}
		meals := atHome(2, plan.Meals, 30, once(monday, 11*60+30))
		meals.Who = 1
		p.Duties = []plan.Duty{ride, meals}
	})
	s := build(t, p)
	r := Look(s, start(s))
	rides := places(s, "therapy")
	meal := r.Of(places(s, "meal")[0])
	require.Equal(t, "other Mon 09:15-Mon 11:50 therapy", told(s, meal.Why))
	require.Equal(t, rides[0], meal.Why[0].Other)
	require.Equal(t, Cannot, meal.State)
	require.Equal(t, "other Mon 11:30-Mon 12:00 meal", told(s, r.Of(rides[0]).Why))
	require.Equal(t, "work Mon 07:00-Mon 15:00", told(s, r.Of(rides[1]).Why))
	require.Equal(t, "no car", told(s, r.Of(rides[2]).Why))
}

// What each duty asks. The escort home and somebody in the house for the first day: ASA and
// 42 CFR 416.52(c)(3), as core/plan has it; that they can steady the patient, and all else:
// common practice, no published source.
func TestWhatADutyAsks(t *testing.T) {
	p := family(t, func(p *plan.Plan) {
		p.Stay = plan.Undecided
		first := p.Surgery + 7
		steady := atHome(4, plan.OtherDuty, 30, once(first, 600))
		steady.Steady = true
		p.Duties = []plan.Duty{
			therapy(1, once(first, 9*60)), atHome(2, plan.PetCare, 20, once(first, 7*60)), atHome(3, plan.Meals, 30, once(first, 12*60)),
			steady, atHome(5, plan.Nights, 10*60, once(p.Surgery+1, 22*60)), atHome(6, plan.Nights, 10*60, once(first, 22*60)),
		}
	})
	s := build(t, p)
	const drive, night, steady, pets = plan.CanDrive, plan.CanNight, plan.CanSteady, plan.CanPets
	want := map[string]plan.Abilities{
		"drive-there": drive, "wait": 0, "drive-home": drive | steady, "drive-home-morning": drive | steady,
		"therapy": drive, "pets": pets, "meal": 0, "other": steady,
	}
	nights := 0
	for _, n := range needsOf(s, start(s)) {
		d := &s.Duties[n.duty]
		switch {
		case d.ID == "night":
			nights++
			require.Equal(t, night|map[bool]plan.Abilities{true: steady}[d.Day == p.Surgery+1], n.asks, "a night in the hours in which somebody must be there asks for both")
		case d.ID == "stay-with":
			asks := plan.Abilities(0)
			if d.Slot.Part() == plan.Night && d.Slot != plan.SlotOf(1, plan.Night) { // of that one the family's night leaves the evening
				asks = night
			}
			if d.Must {
				asks |= steady
			}
			require.Equal(t, asks, n.asks, "slot %d", d.Slot)
		default:
			require.Equal(t, want[d.ID], n.asks, d.ID)
		}
	}
	require.Equal(t, 2, nights)
	require.Equal(t, want["drive-home"], asks(s, &s.Duties[places(s, "drive-home")[0]]))
}

// When somebody can, by hand. All of one Monday and the Tuesday after it, a ride that takes
// its helper from 09:35 to 12:00 with ten minutes of their own way.
func TestWhenSomebodyCan(t *testing.T) {
	monday := day(t, "2027-03-15")
	on := func(use plan.TimesUse, from, to int) plan.Times {
		return plan.Times{Use: use, Length: to - from, Rule: onceAt(monday, from)}
	}
	for _, c := range []struct {
		name  string
		times []plan.Times
		want  string
	}{
		{"nothing", nil, ""},
		{"free for it to the minute", []plan.Times{on(plan.Free, 9*60+35, 12*60)}, ""},
		{"a minute late", []plan.Times{on(plan.Free, 9*60+36, 12*60)}, "not then Mon 09:36-Mon 12:00"},
		{"a minute short", []plan.Times{on(plan.Free, 9*60, 12*60-1)}, "not then Mon 09:00-Mon 11:59"},
		{"two that adjoin", []plan.Times{on(plan.Free, 9*60, 11*60), on(plan.Free, 11*60, 13*60)}, ""},
		{"two that overlap", []plan.Times{on(plan.Free, 10*60, 13*60), on(plan.Free, 9*60, 11*60)}, ""},
		{"two with a minute between", []plan.Times{on(plan.Free, 9*60, 11*60), on(plan.Free, 11*60+1, 13*60)}, "not then Mon 09:00-Mon 11:00"},
		{"the nearer one", []plan.Times{on(plan.Free, 6*60, 7*60), on(plan.Free, 14*60, 15*60)}, "not then Mon 14:00-Mon 15:00"},
		{"another day, still the nearest", []plan.Times{on(plan.Free, 40*60, 41*60)}, "not then Tue 16:00-Tue 17:00"},
		{"work until it begins and from its end", []plan.Times{on(plan.Work, 0, 9*60+35), on(plan.Work, 12*60, 20*60)}, ""},
		{"work a minute into it", []plan.Times{on(plan.Work, 0, 9*60+36)}, "work Mon 00:00-Mon 09:36"},
		{"work in it", []plan.Times{on(plan.Work, 10*60, 10*60+1)}, "work Mon 10:00-Mon 10:01"},
		{"away all day", []plan.Times{on(plan.Gone, 0, 24*60)}, "away Mon 00:00-Tue 00:00"},
		{"free, but at work and away", []plan.Times{on(plan.Free, 0, 24*60), on(plan.Work, 11*60, 14*60), on(plan.Gone, 8*60, 10*60)}, "work Mon 11:00-Mon 14:00, away Mon 08:00-Mon 10:00"},
		{"out of every time that they can", []plan.Times{{Use: plan.Free, Length: 60, Rule: once(monday+300, 600)}}, "not then -"},
	} {
		p := family(t, func(p *plan.Plan) {
			dana := able()
			dana.Away, dana.Times = 10, c.times
			ride := therapy(1, once(monday, 10*60+40))
			ride.Who, ride.Length = 1, 25
			p.About, p.Duties = []plan.About{dana, {}}, []plan.Duty{ride}
		})
		s := build(t, p)
		f := Look(s, start(s)).Of(places(s, "therapy")[0])
		require.Equal(t, c.want, told(s, f.Why), c.name)
	}
}

// Night shifts go over midnight. In the night to 14 March 2027 the clocks in New York go
// forward (testdata/zone), and a shift until six is until six on the wall all the same
// (RFC 5545 3.3.5: a wall-clock time is placed in the zone by itself).
func TestNightShiftsAndTheChangeOfTheClocks(t *testing.T) {
	saturday := day(t, "2027-03-13")
	for _, c := range []struct {
		at   int
		want string
	}{
		{6*60 + 1, ""}, {5*60 + 59, "work Sat 22:00-Sun 06:00"}, {3 * 60, "work Sat 22:00-Sun 06:00"},
	} {
		p := family(t, func(p *plan.Plan) {
			dana := able()
			dana.Times = []plan.Times{{Use: plan.Work, Length: 8 * 60, Rule: daily(saturday-3, 22*60, 4)}}
			d := atHome(1, plan.PetCare, 10, onceAt(saturday+1, c.at))
			d.Who = 1
			p.About, p.Duties = []plan.About{dana, {}}, []plan.Duty{d}
		})
		s := build(t, p)
		require.Equal(t, c.want, told(s, Look(s, start(s)).Of(places(s, "pets")[0]).Why), c.at)
	}
	// A time that the clocks leave nothing of still lasts as long as it was told: 02:30 is read
	// as 03:30, and 03:00 is before that.
	skipped := appendTimes(nil, &plan.Times{Length: 30, Rule: once(saturday+1, 2*60+30)}, build(t, family(t)).Loc, stretch{0, 1 << 40})
	require.Len(t, skipped, 1)
	require.Equal(t, "Sun 03:30 Sun 04:00", local(timeAt(skipped[0].from, build(t, family(t)).Loc))+" "+local(timeAt(skipped[0].to, build(t, family(t)).Loc)))
}
