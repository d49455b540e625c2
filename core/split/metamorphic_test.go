package split

import (
	"math/rand"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/assign"
	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/wall"
)

// valuesOf is what a proposal for a plan reaches, level by level.
func valuesOf(t *testing.T, p plan.Plan, scope Scope, now time.Time) [assign.LevelEnd]assign.Value {
	t.Helper()
	return Suggest(build(t, p), Ask{Scope: scope, Now: now}).Answer.Values
}

// provenTo is the level up to which all are proven. What comes after it may come out
// differently for the same problem with other names, since a search ends somewhere.
func provenTo(v [assign.LevelEnd]assign.Value) int {
	for level := range v {
		if !v[level].Proven {
			return level
		}
	}
	return len(v)
}

// Metamorphic relations, from the issue that asked for this package: what does not matter does
// not change what can be reached (T. Y. Chen et al., "Metamorphic Testing: A Review of
// Challenges and Opportunities", ACM Computing Surveys 51(1), 2018).
func TestWhatDoesNotMatterChangesNothing(t *testing.T) {
	r := rand.New(rand.NewSource(9))
	proven, levels, rounds := 0, 0, 20
	if runtime.GOARCH == "wasm" {
		rounds = 5
	}
	for _, c := range []struct {
		name  string
		weeks int
		twist func(*rand.Rand, plan.Plan) plan.Plan
	}{
		{"helpers are renamed", 0, renamed},
		{"helpers are entered in another order", 0, helpersMixed},
		{"duties are entered in another order, with other numbers", 0, dutiesMixed},
		{"the plan is some weeks later", 4, func(_ *rand.Rand, p plan.Plan) plan.Plan { return later(p, 28) }},
		{"times are told in two parts", 0, timesSplit},
	} {
		for range rounds {
			p := randomFamily(t, r)
			p.Zone = "America/Phoenix" // whose clocks never change (IANA tzdata)
			scope := Scope(r.Intn(2))
			q := c.twist(r, p)
			now := start(build(t, p))
			got, want := valuesOf(t, q, scope, now.AddDate(0, 0, 7*c.weeks)), valuesOf(t, p, scope, now)
			to := min(provenTo(got), provenTo(want))
			for level := range min(to+1, len(want)) {
				if level < to {
					require.Equal(t, want[level].Got, got[level].Got, "%s: level %d", c.name, level)
				}
			}
			proven, levels = proven+to, levels+len(want)
			if strings.Contains(c.name, "order") {
				sameProposal(t, p, q, scope, now)
			}
		}
	}
	require.Greater(t, proven, levels*5/8, "too little is compared")
}

// sameProposal holds two plans that say the same in another order against each other: who gets
// what, by name.
func sameProposal(t *testing.T, p, q plan.Plan, scope Scope, now time.Time) {
	t.Helper()
	lines := func(p plan.Plan) (all []string) {
		s := build(t, p)
		for _, l := range Suggest(s, Ask{Scope: scope, Now: now}).Lines {
			d := &s.Duties[l.Duty]
			all = append(all, d.Day.String()+" "+local(d.There.From)+" "+d.ID+" "+p.Helper(l.From)+" > "+p.Helper(l.To))
		}
		slices.Sort(all)
		return all
	}
	require.Equal(t, lines(p), lines(q))
}

func renamed(_ *rand.Rand, p plan.Plan) plan.Plan {
	p.Helpers = slices.Clone(p.Helpers)
	for i := range p.Helpers {
		p.Helpers[i] = []string{"Zoe", "Kim", "Abe", "Pia", "Lou"}[i]
	}
	return p
}

func helpersMixed(r *rand.Rand, p plan.Plan) plan.Plan {
	order := r.Perm(len(p.Helpers)) // by old place: the new one
	to := func(who uint8) uint8 {
		if who == 0 {
			return 0
		}
		return uint8(order[who-1] + 1)
	}
	helpers, about := make([]string, len(order)), make([]plan.About, len(order))
	for old, now := range order {
		helpers[now], about[now] = p.Helpers[old], p.AboutOf(uint8(old+1))
	}
	p.Helpers, p.About = helpers, about
	for i := range p.Cover {
		p.Cover[i] = to(p.Cover[i])
	}
	p.Shifts, p.Duties = slices.Clone(p.Shifts), slices.Clone(p.Duties)
	for i := range p.Shifts {
		p.Shifts[i].Who = to(p.Shifts[i].Who)
	}
	for i := range p.Duties {
		d := &p.Duties[i]
		d.Who, d.Takes = to(d.Who), slices.Clone(d.Takes)
		for k := range d.On {
			d.On[k] = to(d.On[k])
		}
		for k := range d.Takes {
			d.Takes[k].Who = to(d.Takes[k].Who)
		}
	}
	return p
}

func dutiesMixed(r *rand.Rand, p plan.Plan) plan.Plan {
	order := r.Perm(len(p.Duties))
	duties := make([]plan.Duty, len(order))
	for old, now := range order {
		duties[now] = p.Duties[old]
		duties[now].ID = uint32(now*3 + 2)
	}
	p.Duties = duties
	return p
}

func later(p plan.Plan, days wall.Date) plan.Plan {
	rule := func(r repeat.Rule) repeat.Rule {
		r.First += days
		r.Skipped, r.Moved, r.Extra = slices.Clone(r.Skipped), slices.Clone(r.Moved), slices.Clone(r.Extra)
		for i := range r.Moved {
			r.Moved[i].From, r.Moved[i].To.Day = r.Moved[i].From+days, r.Moved[i].To.Day+days
		}
		for i := range r.Extra {
			r.Extra[i].Day += days
		}
		return r
	}
	p.Surgery += days
	p.About, p.Duties = slices.Clone(p.About), slices.Clone(p.Duties)
	for i := range p.About {
		p.About[i].Times = slices.Clone(p.About[i].Times)
		for k := range p.About[i].Times {
			p.About[i].Times[k].Rule = rule(p.About[i].Times[k].Rule)
		}
	}
	for i := range p.Duties {
		d := &p.Duties[i]
		d.Rule, d.Takes = rule(d.Rule), slices.Clone(d.Takes)
		for k := range d.Takes {
			d.Takes[k].Day += days
		}
	}
	return p
}

// timesSplit tells each time in two that adjoin, cut at any of its minutes.
func timesSplit(r *rand.Rand, p plan.Plan) plan.Plan {
	p.About = slices.Clone(p.About)
	for i := range p.About {
		var all []plan.Times
		for _, t := range p.About[i].Times {
			first, second := t, t
			first.Length = 1 + r.Intn(t.Length-1)
			second.Length = t.Length - first.Length
			at := int(t.Rule.At) + first.Length
			second.Rule.At = wall.Clock(at % (24 * 60))
			if days := wall.Date(at / (24 * 60)); days > 0 {
				second.Rule = later(plan.Plan{Duties: []plan.Duty{{Rule: t.Rule}}}, days).Duties[0].Rule
				second.Rule.At = wall.Clock(at % (24 * 60))
				for range days {
					second.Rule.Days = second.Rule.Days<<1&repeat.AllDays | second.Rule.Days>>6
				}
			}
			all = append(all, first, second)
		}
		p.About[i].Times = all
	}
	return p
}
