package assign_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"newel/build/bench/split/families"
	"newel/build/bench/split/programme"
	"newel/core/assign"
)

// Weighted interval scheduling: Kleinberg and Tardos, Algorithm Design, 6.1. The book's
// instance with six intervals (from memory: values 2 4 4 7 2 1; the last interval before
// each that is compatible is 0 0 1 0 3 3; the table of optima is 0 2 4 6 7 8 8).
func TestTheBooksSixIntervals(t *testing.T) {
	p := &assign.Problem{Helpers: alike(1, 60)}
	for n, v := range [][3]int{{0, 2, 2}, {1, 4, 4}, {2, 6, 4}, {1, 8, 7}, {6, 9, 2}, {7, 10, 1}} {
		p.Items = append(p.Items, span(n, v[0], v[1], v[2], 1))
	}
	require.Equal(t, []int64{0, 2, 4, 6, 7, 8, 8}, weightTable(p))
	reaches(t, p, assign.CoverMust, 8)
}

// The same on random intervals, by the book's recurrence.
func TestOneHelperGetsTheMostWeight(t *testing.T) {
	for seed := range many(t, 40) {
		p := intervals(families.NewRandom(seed), 60, 1, true)
		table := weightTable(p)
		reaches(t, p, assign.CoverMust, table[len(table)-1])
	}
}

// weightTable is M of the book: the most weight among the first intervals by their ends,
// M(j) = max(v(j) + M(p(j)), M(j-1)).
func weightTable(p *assign.Problem) []int64 {
	takes, weights := byEnd(p)
	table := []int64{0}
	for j := range takes {
		before := 0
		for before < j && takes[before].To <= takes[j].From {
			before++
		}
		table = append(table, max(weights[j]+table[before], table[j]))
	}
	return table
}

// Load balancing: R. L. Graham, "Bounds on multiprocessing timing anomalies", SIAM Journal
// on Applied Mathematics 17 (1969), has the instance on which longest-first is as bad as it
// gets, 4/3 - 1/(3m): jobs of 2m-1, 2m-1, 2m-2, 2m-2, … m+1, m+1, m, m, m on m machines. The
// optimum is 3m (from memory; that it cannot be less follows from the sum), longest-first
// gives 4m-1.
func TestGrahamsWorstCaseForLongestFirst(t *testing.T) {
	for m := 2; m <= 6; m++ {
		p := &assign.Problem{Helpers: alike(m, 1000)}
		loads := []int{m}
		for load := m; load < 2*m; load++ {
			loads = append(loads, load, load)
		}
		sum := 0
		for n, load := range loads {
			it := span(n, n*10, n*10+5, 1, m)
			it.Load, sum = load, sum+load
			p.Items = append(p.Items, it)
		}
		require.Equal(t, 3*m*m, sum)
		a := solved(t, p, 0)
		best := assign.Ratio{Num: 3 * int64(m), Den: 1000}
		require.Equal(t, inLowest(best), a.Values[assign.Peak].Got, "%d machines", m)
		require.Equal(t, inLowest(best), a.Values[assign.Peak].Bound, "%d machines", m)
	}
}

// inLowest brings a fraction with a denominator of 1000 into lowest terms.
func inLowest(r assign.Ratio) assign.Ratio {
	for _, prime := range []int64{2, 5} {
		for r.Num%prime == 0 && r.Den%prime == 0 {
			r = assign.Ratio{Num: r.Num / prime, Den: r.Den / prime}
		}
	}
	return r
}

// Matching: items that all happen at once need a helper each, so that level 1 is the
// largest matching, which augmenting paths find (C. Berge, "Two theorems in graph theory",
// 1957). With weights, the items that can be matched together form a matroid (Edmonds and
// Fulkerson 1965), so that taking the weightiest that still fits gives the most.
func TestItemsThatHappenAtOnceAreMatched(t *testing.T) {
	for seed := range many(t, 60) {
		r := families.NewRandom(seed)
		p := &assign.Problem{Helpers: alike(r.Between(2, 12), 60)}
		for n := range r.Between(2, 14) {
			it := span(n, 0, 60, r.Between(1, 9), len(p.Helpers))
			for i := range it.Able {
				it.Able[i] = r.Percent(25)
			}
			p.Items = append(p.Items, it)
		}
		reaches(t, p, assign.CoverMust, matched(p))
	}
}

// The same with so many that not every optimum can be proven: what is claimed holds.
func TestManyItemsAtOnceAreBoundedRightly(t *testing.T) {
	for seed := range many(t, 40) {
		r := families.NewRandom(seed)
		p := &assign.Problem{Helpers: alike(r.Between(10, assign.MaxHelpers), 60)}
		able := r.Between(4, 30)
		for n := range r.Between(20, 120) {
			it := span(n, 0, 60, r.Between(1, 9), len(p.Helpers))
			for i := range it.Able {
				it.Able[i] = r.Percent(able)
			}
			p.Items = append(p.Items, it)
		}
		want := matched(p)
		a := assign.Solve(p, assign.Options{Until: assign.CoverNice, Work: 1 + int(seed%4)*5000})
		require.Empty(t, programme.NewJudge(p).Breaks(a.To))
		v := a.Values[assign.CoverMust]
		require.LessOrEqual(t, v.Got.Num, want, "seed %d", seed)
		require.GreaterOrEqual(t, v.Bound.Num, want, "seed %d: the bound is false", seed)
		require.Equal(t, v.Got == v.Bound, v.Proven)
	}
}

// matched is the most weight that can be matched.
func matched(p *assign.Problem) (weight int64) {
	has := make([]int, len(p.Helpers)) // by helper: 1 + the item
	for heavy := 9; heavy > 0; heavy-- {
		for j := range p.Items {
			if p.Items[j].Weight == heavy && augment(p, has, j, map[int]bool{}) {
				weight += int64(heavy)
			}
		}
	}
	return weight
}

// augment finds item j a helper, moving others along a path if need be.
func augment(p *assign.Problem, has []int, j int, seen map[int]bool) bool {
	for i, able := range p.Items[j].Able {
		if !able || seen[i] {
			continue
		}
		seen[i] = true
		if has[i] == 0 || augment(p, has, has[i]-1, seen) {
			has[i] = j + 1
			return true
		}
	}
	return false
}
