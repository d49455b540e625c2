package split

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
)

// busyFamily has everything of somebody: Dana the hospital and the rides, Luis the nights and
// the cat.
func busyFamily(t testing.TB) plan.Plan {
	return family(t, func(p *plan.Plan) {
		p.About = []plan.About{able(), able()}
		p.Cover = [5]uint8{1, 1, 1, 1, 1}
		for n := range 4 {
			p.Shifts = append(p.Shifts, plan.Shift{Slot: plan.SlotOf(n, plan.Night), Who: 2})
		}
		rides, cat := therapy(1, weekly(p.Surgery+6, 630, 6, time.Monday)), atHome(2, plan.PetCare, 20, daily(p.Surgery+1, 18*60, 14))
		rides.Who, cat.Who = 1, 2
		rides.Takes = []plan.Take{{Day: p.Surgery + 13, Who: 2}}
		p.Duties = []plan.Duty{rides, cat}
	})
}

func TestDroppingOut(t *testing.T) {
	p := busyFamily(t)
	s := build(t, p)
	before := Look(s, start(s))
	require.Equal(t, [Cannot + 1]int{Covered: len(s.Duties)}, before.Count)
	q := p.WithAbout(2, plan.About{Told: true, Can: plan.AllAbilities, Out: true})
	then := build(t, q)
	lost, kept := Lost(before, Look(then, start(s)))
	require.Len(t, lost, 3+14+1, "three nights, the cat, one ride")
	for _, f := range lost {
		require.EqualValues(t, 2, f.Who)
		require.Equal(t, "out", told(then, f.Why))
	}
	require.Len(t, kept, len(s.Duties)-len(lost))
	// Dana takes them all: in one tap, and nothing that she had moves.
	repair := Suggest(then, Ask{Now: start(s)})
	require.Len(t, repair.Lines, len(lost))
	for i, l := range repair.Lines {
		require.Equal(t, lost[i].Duty, l.Duty)
		require.EqualValues(t, 1, l.To)
		require.Equal(t, []Because{OnlyOne}, l.Because[:1])
		require.Equal(t, []Other{{Who: 2, Why: []Reason{{Why: IsOut}}}}, l.Others)
	}
	require.Empty(t, repair.Open)
}

// The surgery moves by a week, to where Luis is away: the parts of staying at home move
// along, since they are counted from the day of surgery; rides and the cat stay.
func TestTheSurgeryMoves(t *testing.T) {
	p := busyFamily(t)
	gone := plan.Times{Use: plan.Gone, Rule: once(p.Surgery+7, 0), Length: 3 * 24 * 60}
	p.About[1].Times = []plan.Times{gone}
	p.Duties[1].Rule = once(p.Surgery+1, 18*60)
	s := build(t, p)
	before := Look(s, start(s))
	require.Zero(t, before.Count[Cannot])
	p.Surgery += 7
	then := build(t, p)
	lost, kept := Lost(before, Look(then, start(s)))
	require.Len(t, lost, 2, "the nights of the day after surgery and the next one; in the third Luis is back")
	for _, f := range lost {
		require.Equal(t, plan.Night, then.Duties[f.Duty].Slot.Part())
		require.Equal(t, IsAway, f.Why[0].Why)
	}
	require.Len(t, kept, len(then.Duties)-2)
	// A stay that is longer has a part that was not there before: it is new, and nobody has it.
	p.Surgery -= 7
	p.Program.Set(plan.PresenceHours, 78)
	p = p.WithShift(plan.SlotOf(4, plan.Afternoon), 0)
	then = build(t, p)
	lost, kept = Lost(before, Look(then, start(s)))
	require.Len(t, lost, 1)
	require.Equal(t, plan.SlotOf(4, plan.Afternoon), then.Duties[lost[0].Duty].Slot)
	require.Equal(t, Open, lost[0].State)
	require.Len(t, kept, len(s.Duties))
}

// Dana drives the patient home and drops out. Luis could, but was given the cat at that time,
// which Tom can feed: the cat goes to Tom, that once, and Luis drives. What Luis took himself on
// his own phone stays his, and the drive stays open.
func TestWhatWasGivenMakesWayForWhatMustBe(t *testing.T) {
	p := family(t, func(p *plan.Plan) {
		out, atHome2 := able(), able()
		out.Out = true
		atHome2.Can &^= plan.CanDrive
		p.Helpers, p.About = []string{"Dana", "Luis", "Tom"}, []plan.About{out, able(), atHome2}
		p.Stay = plan.OneNight
		p.Cover[3] = 1
		cat := atHome(1, plan.PetCare, 20, daily(p.Surgery, 8*60, 5))
		cat.Who = 2
		p.Duties = []plan.Duty{cat}
	})
	s := build(t, p)
	drive := places(s, "drive-home-morning")[0]
	given := func(ask Ask) map[int]uint8 {
		to := map[int]uint8{}
		for _, l := range Suggest(s, ask).Lines {
			to[l.Duty] = l.To
		}
		return to
	}
	to := given(Ask{Now: start(s)})
	require.EqualValues(t, 2, to[drive])
	moved := 0
	for _, cat := range places(s, "pets") {
		if who, changed := to[cat]; changed {
			moved++
			require.Equal(t, p.Surgery+1, s.Duties[cat].Day)
			require.EqualValues(t, 3, who)
		}
	}
	require.Equal(t, 1, moved)
	to = given(Ask{Now: start(s), Held: func(int) bool { return true }})
	require.NotContains(t, to, drive)
}
