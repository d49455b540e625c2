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
	require.Zero(t, repair.Moved)
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
