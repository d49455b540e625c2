package merge

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"newel/core/plan"
	"newel/core/wall"
)

// The laws of a state-based type: Join gives the least upper bound of a semilattice, so it
// is commutative, associative and idempotent, and every act and every join only goes up. P.
// S. Almeida, A. Shoker and C. Baquero, J. Parallel Distrib. Comput. 111 (2018) 162–173; M.
// Shapiro, N. Preguiça, C. Baquero and M. Zawirski, INRIA RR-7506 (2011).

// anyCopies gives copies of one plan that were changed apart from each other and joined now
// and then: those of the devices, and links that are still on their way.
func anyCopies(t *rapid.T) []*Doc {
	c := fromRapid(t)
	w := newWorld(t, c)
	for range 10 + c(20) {
		w.step()
	}
	var copies []*Doc
	for _, r := range w.devices {
		copies = append(copies, r.doc)
	}
	for _, l := range w.under {
		copies = append(copies, l.doc)
	}
	return copies
}

func TestLawsOfJoin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		copies := anyCopies(t)
		one := rapid.IntRange(0, len(copies)-1)
		a, b, c := copies[one.Draw(t, "a")], copies[one.Draw(t, "b")], copies[one.Draw(t, "c")]
		ab := joinAll(t, a, b)
		same(t, ab, joinAll(t, b, a))                               // commutative
		same(t, joinAll(t, ab, c), joinAll(t, a, joinAll(t, b, c))) // associative
		same(t, a, joinAll(t, a, a))                                // idempotent
		same(t, ab, joinAll(t, ab, b, a))
		require.True(t, ab.Covers(a) && ab.Covers(b), "what is joined is above both")
		require.Equal(t, a.Covers(b), ab.Equal(a))
		require.True(t, joinAll(t, ab, c).Covers(joinAll(t, a, c)), "monotone: more in, more out")
		same(t, a, joinAll(t, a, NewDoc(a.Number)))
		require.NoError(t, ab.Check())
	})
}

// Whatever two people did apart from each other, a Change shows what it was given: the
// plan, and as taken out the duties that it lacks.
func TestChangeShowsThePlan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := joinAll(t, anyCopies(t)...)
		next := anyPlan(fromRapid(t))
		want := copied(next)
		was := d.Plan()
		for _, gone := range copied(was).Duties {
			if want.Duty(gone.ID) == nil {
				gone.Dropped = true
				want = want.WithDuty(seated(gone, was.Helpers, next.Helpers))
			}
		}
		changed := d.Change(ann, next)
		shows(t, want, changed)
		require.NoError(t, changed.Check())
		require.True(t, changed.Covers(d), "an act only goes up")
		require.Same(t, changed, changed.Change(luis, changed.Plan()), "what is shown already is no act")
	})
}

// seated gives a duty for another list of helpers: the same people have it, as far as they
// are on that list.
func seated(d plan.Duty, from, to []string) plan.Duty {
	seat := func(who *uint8) {
		if *who > 0 {
			*who = uint8(slices.Index(to, from[*who-1]) + 1)
		}
	}
	seat(&d.Who)
	for day := range d.On {
		seat(&d.On[day])
	}
	for t := range d.Takes {
		seat(&d.Takes[t].Who)
	}
	return d
}

// A document made of a plan shows that plan.
func TestNewShowsThePlan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := fromRapid(t)
		p := anyPlan(c)
		p.Revision = uint16(c(3))
		require.True(t, plan.Usable(withoutClock(plan.Check(&p, p.Surgery))))
		d := New(p)
		shows(t, p, d)
		require.NoError(t, d.Check())
		require.Equal(t, []Stamp{{Maker, 1}}, d.Seen())
		require.Empty(t, d.Questions())
		require.False(t, d.Newer())
	})
}

// withoutClock leaves out what depends on two fields that two people can change.
func withoutClock(problems []plan.Problem) []plan.Problem {
	var others []plan.Problem
	for _, p := range problems {
		if p.Code != plan.ClockSkipped {
			others = append(others, p)
		}
	}
	return others
}

// A link of version 1 or 2 opens as the same plan, and of two of them the higher edition
// counts, whichever is opened first.
func TestOldLinks(t *testing.T) {
	p := rosa(t)
	later := copied(p)
	later.Arrival, later.Patient, later.Ticked = 6*60, "", nil
	for _, test := range []struct{ edition, n uint32 }{{0, 1}, {1, 1}, {40, 40}, {LastN, LastN}, {1<<32 - 1, LastN}} {
		d := FromOld(p, test.edition)
		shows(t, p, d)
		require.Equal(t, []Stamp{{Maker, test.n}}, d.Seen())
		require.NoError(t, d.Check())
	}
	shows(t, later, inAnyOrder(t, FromOld(p, 3), FromOld(later, 5)))
	equal := inAnyOrder(t, FromOld(p, 5), FromOld(later, 5))
	require.Contains(t, equal.asked(), Key{Field: Arrival})
	require.Equal(t, wall.Clock(5*60+30), equal.Plan().Arrival, "the earlier is shown")
}

// Copies of two plans are never mixed.
func TestOtherPlansAreNotJoined(t *testing.T) {
	p := rosa(t)
	q := p
	q.Number++
	_, err := Join(New(p), New(q))
	require.ErrorIs(t, err, ErrOther)
	require.False(t, New(p).Covers(New(q)))
}
