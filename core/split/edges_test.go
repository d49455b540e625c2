package split

import (
	"math/rand"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/assign"
	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/wall"
)

// A plan with nobody in it, with nothing to do any more, or of which nothing is known yet is
// looked at like any other.
func TestThereMayBeNothing(t *testing.T) {
	for name, change := range map[string]func(*plan.Plan){
		"nobody":    func(p *plan.Plan) { p.Helpers = nil },
		"everybody": func(*plan.Plan) {},
		"all out":   func(p *plan.Plan) { p.About = []plan.About{{Out: true}, {Out: true}} },
		"no times":  func(p *plan.Plan) { p.Arrival, p.Drive, p.Parking = -1, plan.Unknown, plan.Unknown },
	} {
		p := family(t, change)
		s := build(t, p)
		for _, now := range []time.Time{{}, start(s), start(s).AddDate(1, 0, 0)} {
			report := Look(s, now)
			require.Len(t, report.Loads, len(p.Helpers))
			proposal := Suggest(s, Ask{Now: now})
			require.Len(t, proposal.Loads, len(p.Helpers))
			if name == "everybody" || name == "no times" {
				require.Empty(t, proposal.Open, name)
				require.Len(t, proposal.Lines, len(report.Findings), name)
			} else {
				require.Len(t, proposal.Open, len(report.Findings), name)
				require.Empty(t, proposal.Lines, name)
			}
			require.Equal(t, now.After(start(s)), len(report.Findings) == 0, name)
		}
	}
}

// A duty whose times are not known is judged by ability alone, and gets somebody by it; one of
// which only the way is not known, by what is known.
func TestUnknownTimesAreJudgedByAbility(t *testing.T) {
	p := family(t, func(p *plan.Plan) {
		p.Drive, p.Arrival = plan.Unknown, wall.NoClock
		luis := able()
		luis.Times = []plan.Times{times(plan.Work, p.Surgery-7, 0, 23*60, time.Monday, time.Tuesday, time.Wednesday)}
		dana := able()
		dana.Can &^= plan.CanDrive
		p.About = []plan.About{dana, luis}
	})
	s := build(t, p)
	proposal := Suggest(s, Ask{Now: start(s)})
	require.EqualValues(t, 2, lineOf(t, &proposal, places(s, "drive-there")[0]).To, "Luis drives; whether he is at work then nobody knows")
	require.Empty(t, Look(build(t, Apply(p, s, time.Time{}, proposal.Lines)), start(s)).Count[Cannot])
	p.Arrival = 5*60 + 30
	s = build(t, p)
	proposal = Suggest(s, Ask{Now: start(s)})
	require.Contains(t, proposal.Open, places(s, "drive-there")[0], "Luis is at work at the arrival, however near it is")
	require.EqualValues(t, 1, lineOf(t, &proposal, places(s, "wait")[0]).To, "of waiting the times are known")
}

// coveredIn adds up what Look says is covered, by tier: the weight that the programme gives it.
func coveredIn(s *schedule.Schedule, now time.Time) (g gain) {
	report := Look(s, now)
	needs := needsOf(s, now)
	for i, f := range report.Findings {
		if f.State <= Untold {
			g[needs[i].tier] += needs[i].weight
		}
	}
	return g
}

// Nobody can share a small plan out better: every way to give its duties to its helpers, tried
// in the plan itself and looked at, covers no more than the proposal.
func TestNoWayToShareASmallPlanOutCoversMore(t *testing.T) {
	r := rand.New(rand.NewSource(15))
	tight := 0
	for range 30 {
		p := smallFamily(t, r)
		s := build(t, p)
		best := bestCover(t, p, s)
		proposal := Suggest(s, Ask{Scope: Anew, Now: start(s)})
		require.Equal(t, best, coveredIn(build(t, Apply(p, s, time.Time{}, proposal.Lines)), start(s)))
		for tier := range best {
			value := proposal.Answer.Values[int(assign.CoverMust)+int(assign.Must)-tier]
			require.EqualValues(t, best[tier], value.Got.Num)
			require.True(t, value.Proven)
		}
		tight += yes(len(proposal.Open) > 0 && len(proposal.Lines) > 0)
	}
	require.Greater(t, tight, 15, "in most something stays open")
}

// smallFamily has two helpers at most, and besides the hospital three dates at most, of which
// nobody has any.
func smallFamily(t *testing.T, r *rand.Rand) plan.Plan {
	for {
		p := randomFamily(t, r)
		p.Program.Set(plan.PresenceHours, 0)
		p.Program.Set(plan.StayWithHours, 0)
		p.Stay = plan.OneNight
		p.Helpers, p.About = p.Helpers[:min(2, len(p.Helpers))], nil
		p.Cover, p.Shifts, p.Duties = [5]uint8{}, nil, p.Duties[:min(2, len(p.Duties))]
		for i := range p.Helpers {
			p = p.WithAbout(uint8(i+1), randomAbout(r, p.Surgery))
		}
		dates := 0
		for i := range p.Duties {
			p.Duties[i].Who, p.Duties[i].On, p.Duties[i].Takes = 0, [7]uint8{}, nil
			days, _ := p.Duties[i].Rule.Pattern()
			dates += len(days)
		}
		if dates <= 3 {
			return p
		}
	}
}

// bestCover tries every way to give the duties of a plan to its helpers or to nobody.
func bestCover(t *testing.T, p plan.Plan, s *schedule.Schedule) (best gain) {
	var registers []register
	lines := map[register][]Line{}
	for i := range s.Duties {
		reg := registerOf(&s.Duties[i])
		if lines[reg] == nil {
			registers = append(registers, reg)
		}
		lines[reg] = append(lines[reg], Line{Duty: i})
	}
	ways := 1
	for range registers {
		ways *= len(p.Helpers) + 1
	}
	for way := range ways {
		var chosen []Line
		for _, reg := range registers {
			for _, l := range lines[reg] {
				l.To = uint8(way % (len(p.Helpers) + 1))
				chosen = append(chosen, l)
			}
			way /= len(p.Helpers) + 1
		}
		if got := coveredIn(build(t, Apply(p, s, time.Time{}, chosen)), start(s)); got.above(best) {
			best = got
		}
	}
	return best
}

// BenchmarkLook is what each time that the page is drawn costs: four helpers with jobs, some
// three hundred duties.
func BenchmarkLook(b *testing.B) {
	r := rand.New(rand.NewSource(16))
	p := family(b, func(p *plan.Plan) {
		p.Helpers = []string{"Dana", "Luis", "Mina", "Otto"}
		for i := range p.Helpers {
			*p = p.WithAbout(uint8(i+1), randomAbout(r, p.Surgery))
		}
		for i := range 10 {
			d := atHome(uint32(i+1), plan.DutyKind(3+i%2), 30, daily(p.Surgery+1, 420, 30))
			d.Who = uint8(1 + i%4)
			p.Duties = append(p.Duties, d)
		}
	})
	s := build(b, p)
	for b.Loop() {
		Look(s, start(s))
	}
}
