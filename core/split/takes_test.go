package split

import (
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/assign"
	"newel/core/plan"
	"newel/core/schedule"
)

// The table of the package comment, worked out by hand for one plan: 40 minutes to the
// hospital and a quarter more, 15 to park, 10 into the car; surgery at 06:30 for 1 h to 1 h 30,
// recovery 1 h to 3 h. With what each duty counts. Ours; no published source.
func TestTheTableOfWhatADutyTakes(t *testing.T) {
	s := build(t, everyDuty(t))
	want := map[string]string{
		"drive-there 0":        "Tue 04:15-Tue 06:35 as driver there; must 24, 75 min",
		"wait 0":               "Tue 04:25-Tue 12:05 as who waits; nice 1, 330 min",
		"drive-home 1":         "Tue 07:15-Tue 12:00 as driver home; must 24, 285 min",
		"drive-home-morning 2": "Wed 07:15-Wed 11:00 as driver of the morning; must 24, 225 min",
		"therapy 0":            "Thu 09:05-Thu 11:30 hands; must 1, 145 min",
		"therapy 0 drop":       "Fri 09:05-Fri 10:25, Fri 11:55-Fri 13:15 hands; must 1, 160 min",
		"pets 0":               "Fri 10:00-Fri 10:20 hands; should 1, 20 min",
		"other 0":              "Fri 09:35-Fri 11:25 hands and place; nice 1, 60 min",
		"night 0":              "Fri 21:00-Sat 07:00 place at night; must 10, 180 min",
		"visit 0":              "Fri 10:05-Fri 12:30 hands; must 1, 145 min",
		"ride 0":               "Fri 14:05-Fri 16:30 hands; must 1, 145 min",
		"stay-with 1 1":        "Tue 14:00-Tue 20:00 place, same day; must 6, 360 min",
		"stay-with 2 1":        "Tue 20:00-Wed 08:00 place, same day; must 12, 180 min",
		"stay-with 3 0":        "Wed 08:00-Wed 14:00 place, both stays; must 6, 360 min",
		"stay-with 10 2":       "Fri 14:00-Fri 20:00 place, one night; should 6, 360 min",
		"stay-with 12 2":       "Sat 08:00-Sat 11:00 place, one night; should 3, 180 min",
	}
	seen := 0
	for _, n := range needsOf(s, start(s)) {
		d := &s.Duties[n.duty]
		name := d.ID
		if d.IsSlot() {
			name += " " + itoa(int(d.Slot))
		}
		name += " " + itoa(int(d.Branch))
		if d.Family != nil && d.Family.ID == 2 {
			name += " drop"
		}
		if want[name] != "" {
			seen++
			require.Equal(t, want[name], taken1(s, &n), name)
		}
	}
	require.Equal(t, len(want), seen)
}

// everyDuty is a plan with a duty of each row of the table.
func everyDuty(t *testing.T) plan.Plan {
	return family(t, func(p *plan.Plan) {
		p.Stay = plan.Undecided
		first := p.Surgery + 10 // Friday 19 March
		drop, away, own := therapy(2, once(first, 600)), atHome(4, plan.OtherDuty, 60, once(first, 600)), therapy(6, once(first, 660))
		drop.Ride.Leaves, drop.Length = true, 150
		away.Place, away.Ride.Own = "Millrace", 25
		own.Ride.Own, own.Kind = 15, plan.VisitRide
		short := therapy(7, once(first, 900))
		short.Ride.Leaves, short.Kind = true, plan.OtherRide
		p.Duties = []plan.Duty{
			therapy(1, once(first-1, 600)), drop, atHome(3, plan.PetCare, 20, once(first, 600)), away,
			atHome(5, plan.Nights, 10*60, once(first, 21*60)), own, short,
		}
	})
}

func itoa(n int) string { return string(padded(nil, n, 1)) }

// taken1 writes what a duty takes and counts in one line.
func taken1(s *schedule.Schedule, n *need) string {
	text, uses := "", assign.Uses(0)
	for i, take := range n.takes {
		if i > 0 {
			text += ", "
		}
		text += local(timeAt(take.From, s.Loc)) + "-" + local(timeAt(take.To, s.Loc))
		uses = take.Uses
	}
	names := map[assign.Uses]string{
		byDriverThere: " as driver there", byWaiting: " as who waits", byDriverHome: " as driver home", byMorningDriver: " as driver of the morning",
		hands: " hands", hands | place: " hands and place", inNight: " place at night",
		inSameDay: " place, same day", inOneNight: " place, one night", inSameDay | inOneNight: " place, both stays",
	}
	tiers := [...]string{assign.Must: "must", assign.Should: "should", assign.Nice: "nice"}
	return text + names[uses] + "; " + tiers[n.tier] + " " + itoa(n.weight) + ", " + itoa(n.load) + " min"
}

// Whoever waits for the patient has driven there: at home somebody else feeds the cat, and the
// way back is theirs too.
func TestWaitingIsFarFromTheCat(t *testing.T) {
	for at, want := range map[int]State{4*60 + 4: Covered, 4*60 + 6: Cannot, 12*60 + 4: Cannot, 12*60 + 5: Covered} {
		p := family(t, func(p *plan.Plan) {
			p.About, p.Cover[1] = []plan.About{able(), able()}, 1
			cat := atHome(1, plan.PetCare, 20, onceAt(p.Surgery, at))
			cat.Who = 1
			p.Duties = []plan.Duty{cat}
		})
		s := build(t, p)
		require.Equal(t, want, Look(s, start(s)).Of(places(s, "pets")[0]).State, at)
	}
}

// A part of the staying can have one of the family's nights in its middle, where nothing is
// beside it. One helper may have both.
func TestANightWithinAPart(t *testing.T) {
	p := family(t, func(p *plan.Plan) {
		p.Stay, p.Arrival = plan.SameDay, 17*60+30
		p.Program.Set(plan.StayWithHours, 10)
		p.Program.Set(plan.PresenceHours, 10)
		p.Cover[plan.StayWith], p.About = 1, []plan.About{able(), able()}
		night := atHome(1, plan.Nights, 7*60, once(p.Surgery, 23*60))
		night.Who = 1
		p.Duties = []plan.Duty{night}
	})
	s := build(t, p)
	part, night := &s.Duties[places(s, "stay-with")[0]], &s.Duties[places(s, "night")[0]]
	require.True(t, part.There.From.Before(night.There.From) && part.Ends.To.After(night.Ends.To))
	report := Look(s, start(s))
	require.Equal(t, Covered, report.Of(places(s, "stay-with")[0]).State)
	require.Equal(t, Covered, report.Of(places(s, "night")[0]).State)
	require.Empty(t, report.Gaps)
}
