package split

import (
	"math/rand"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/assign"
	"newel/core/plan"
	"newel/core/schedule"
)

// The programme is sound, and its answer says of itself what it reaches: core/assign's own
// evaluation from the definition, which its tests hold against brute force and another solver.
func TestTheProgrammeIsSound(t *testing.T) {
	r := rand.New(rand.NewSource(6))
	held, free := 0, 0
	for range 150 {
		s := build(t, randomFamily(t, r))
		ask := randomAsk(r, s)
		v := viewOf(s, ask.Now)
		pr, beyond := programmeOf(v, ask)
		require.NoError(t, pr.Check())
		require.Zero(t, beyond)
		answer := assign.Solve(&pr.Problem, assign.Options{})
		got, broken := pr.Values(answer.To, answer.Values[assign.Peak].Got)
		require.Empty(t, broken)
		for level := range assign.LevelEnd {
			if level != assign.Peak { // there Got is what was reached on the way, see assign.Value
				require.Equal(t, answer.Values[level].Got, got[level], "level %d", level)
			}
		}
		for j := range pr.Items {
			held += yes(pr.Items[j].Held)
			free += yes(!pr.Items[j].Held)
		}
	}
	require.Greater(t, held, 200)
	require.Greater(t, free, 200)
}

// What a proposal promises is so once it is accepted: each line's helper has the duty and can
// do it, what it calls open is what nobody able has, nobody else's date has moved, the loads
// are what they were said to be, and asking again changes nothing.
func TestAProposalHoldsWhenItIsAccepted(t *testing.T) {
	r := rand.New(rand.NewSource(7))
	lines, back := 0, 0
	for range 250 {
		p := randomFamily(t, r)
		s := build(t, p)
		ask := randomAsk(r, s)
		before := Look(s, ask.Now)
		proposal := Suggest(s, ask)
		for _, l := range proposal.Lines {
			require.NotEqual(t, l.From, l.To)
			require.Equal(t, l.From, s.Who(&s.Duties[l.Duty]))
			require.Equal(t, l.To == 0, len(l.Because) == 0)
			lines++
			back += yes(l.To == 0)
		}
		then := build(t, Apply(p, s, time.Time{}, proposal.Lines))
		after := Look(then, ask.Now)
		heldWord(t, &proposal, before, after)
		for i, l := range proposal.Loads {
			require.Equal(t, before.Loads[i].Before, l.Before)
			require.Equal(t, after.Loads[i].Before, l.After)
			require.Equal(t, after.Loads[i].Offer, l.Offer)
		}
		again := Suggest(then, Ask{Now: ask.Now, Held: ask.Held})
		require.Empty(t, again.Lines, "everybody keeps what they have and can do")
		require.ElementsMatch(t, registersOf(s, proposal.Open), registersOf(then, again.Open))
	}
	require.Greater(t, lines, 1500)
	require.Greater(t, back, 5)
}

// heldWord holds the reports of before and after against the lines of a proposal and what it
// calls open.
func heldWord(t *testing.T, p *Proposal, before, after *Report) {
	t.Helper()
	want, open := map[register]uint8{}, map[register]bool{}
	for _, f := range before.Findings {
		want[registerOf(&before.v.s.Duties[f.Duty])] = f.Who
	}
	for _, l := range p.Lines {
		want[registerOf(&before.v.s.Duties[l.Duty])] = l.To
	}
	for _, reg := range registersOf(before.v.s, p.Open) {
		open[reg] = true
	}
	require.Len(t, after.Findings, len(before.Findings))
	for _, f := range after.Findings {
		reg := registerOf(&after.v.s.Duties[f.Duty])
		require.Equal(t, want[reg], f.Who, "%v", reg)
		require.Equal(t, open[reg], f.State > Untold, "%v: %s", reg, told(after.v.s, f.Why))
	}
}

func registersOf(s *schedule.Schedule, duties []int) (all []register) {
	for _, duty := range duties {
		all = append(all, registerOf(&s.Duties[duty]))
	}
	return all
}

// With FillOpen whoever has a duty and can do it keeps it, unless they get something that it
// overlaps; with either scope whoever took theirs themselves keeps it, unless two such clash.
func TestWhatIsHeldStays(t *testing.T) {
	r := rand.New(rand.NewSource(8))
	kept, asked, way := 0, 0, 0
	for range 150 {
		s := build(t, randomFamily(t, r))
		ask := randomAsk(r, s)
		report := Look(s, ask.Now)
		changed, gets := map[int]bool{}, map[uint8][]int{}
		for _, l := range Suggest(s, ask).Lines {
			changed[l.Duty] = true
			gets[l.To] = append(gets[l.To], l.Duty)
		}
		madeWay := func(f Finding) bool {
			return (ask.Held == nil || !ask.Held(f.Duty)) && slices.ContainsFunc(gets[f.Who], func(duty int) bool {
				return overlap(takesOf(s, &s.Duties[duty]), takesOf(s, &s.Duties[f.Duty]))
			})
		}
		for _, f := range report.Findings {
			if f.State > Untold || ask.Scope == Anew && (ask.Held == nil || !ask.Held(f.Duty)) || sharesRegister(s, report, f.Duty) {
				continue
			}
			if changed[f.Duty] && madeWay(f) {
				way++
				continue
			}
			require.False(t, changed[f.Duty], "scope %d: %s on %s", ask.Scope, s.Duties[f.Duty].ID, s.Duties[f.Duty].Day)
			kept += yes(ask.Scope == FillOpen)
			asked += yes(ask.Scope == Anew)
		}
	}
	require.Greater(t, kept, 200)
	require.Greater(t, asked, 50)
	require.Greater(t, way, 3)
}

// sharesRegister tells whether another date goes together with a duty.
func sharesRegister(s *schedule.Schedule, r *Report, duty int) bool {
	for _, f := range r.Findings {
		if f.Duty != duty && registerOf(&s.Duties[f.Duty]) == registerOf(&s.Duties[duty]) {
			return true
		}
	}
	return false
}

// One who took two things at one time keeps neither for certain; of what only clashes with
// what nobody took themselves, the one that was taken stays.
func TestTakenByOneselfBeatsGivenByOthers(t *testing.T) {
	p := family(t, func(p *plan.Plan) {
		first := p.Surgery + 10
		p.About = []plan.About{able(), able()}
		a, b := therapy(1, once(first, 600)), therapy(2, once(first, 615))
		a.Who, b.Who = 1, 1
		p.Duties = []plan.Duty{a, b}
	})
	s := build(t, p)
	rides := places(s, "therapy")
	for _, scope := range []Scope{FillOpen, Anew} {
		for _, held := range rides {
			proposal := Suggest(s, Ask{Scope: scope, Now: start(s), Held: func(duty int) bool { return duty == held }})
			for _, l := range proposal.Lines {
				require.NotEqual(t, held, l.Duty)
			}
			require.EqualValues(t, 2, lineOf(t, &proposal, rides[0]+rides[1]-held).To)
		}
		both := Suggest(s, Ask{Scope: scope, Now: start(s), Held: func(int) bool { return true }})
		require.NotContains(t, both.Open, rides[0])
		require.NotContains(t, both.Open, rides[1])
	}
}

func lineOf(t *testing.T, p *Proposal, duty int) *Line {
	t.Helper()
	for i := range p.Lines {
		if p.Lines[i].Duty == duty {
			return &p.Lines[i]
		}
	}
	require.Fail(t, "no line")
	return nil
}

// What is over is left alone, and what has begun stays with whoever has it, also where somebody
// else would rather do it and gets the rest.
func TestWhatIsOverIsLeftAlone(t *testing.T) {
	p := family(t, func(p *plan.Plan) {
		dana, luis := able(), able()
		dana.Avoids, luis.Likes = plan.RideTask, plan.RideTask
		p.About = []plan.About{dana, luis}
		first, second := therapy(1, once(p.Surgery+6, 630)), therapy(2, once(p.Surgery+7, 630))
		first.Who, second.Who = 1, 1
		p.Duties = []plan.Duty{first, second}
	})
	s := build(t, p)
	rides := places(s, "therapy")
	under := s.Duties[rides[0]].Leave.Add(time.Minute)
	for _, c := range []struct {
		now   time.Time
		lines []int
	}{
		{under.Add(-2 * time.Minute), rides},
		{under, rides[1:]},
		{s.Duties[rides[0]].Free, rides[1:]},
		{s.Duties[rides[1]].Free, nil},
	} {
		require.Equal(t, c.now.Before(s.Duties[rides[0]].Free), Look(s, c.now).Of(rides[0]) != nil)
		var got []int
		for _, l := range Suggest(s, Ask{Scope: Anew, Now: c.now}).Lines {
			if s.Duties[l.Duty].Family != nil {
				require.EqualValues(t, 2, l.To)
				got = append(got, l.Duty)
			}
		}
		require.Equal(t, c.lines, got, c.now)
	}
}

// Luis cannot drive and has a ride and a meal at one time. The ride has to go; the meal stays
// his, since nothing stands in its way then.
func TestWhatClashesOnlyWithTheImpossibleStays(t *testing.T) {
	p := family(t, func(p *plan.Plan) {
		luis := able()
		luis.Can &^= plan.CanDrive
		p.About = []plan.About{able(), luis}
		ride, meal := therapy(1, once(p.Surgery+10, 600)), atHome(2, plan.Meals, 30, once(p.Surgery+10, 600))
		ride.Who, meal.Who = 2, 2
		p.Duties = []plan.Duty{ride, meal}
	})
	s := build(t, p)
	ride, meal := places(s, "therapy")[0], places(s, "meal")[0]
	require.Equal(t, Cannot, Look(s, start(s)).Of(meal).State)
	proposal := Suggest(s, Ask{Now: start(s)})
	require.EqualValues(t, 1, lineOf(t, &proposal, ride).To)
	for _, l := range proposal.Lines {
		require.NotEqual(t, meal, l.Duty)
	}
}
