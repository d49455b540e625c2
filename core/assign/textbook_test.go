package assign_test

import (
	"fmt"
	"sort"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/build/bench/split/families"
	"newel/core/assign"
)

// helpers makes helpers with offers.
func helpers(offers ...int) (all []assign.Helper) {
	for i, offer := range offers {
		all = append(all, assign.Helper{Key: fmt.Sprintf("helper-%d", i), Offer: offer})
	}
	return all
}

// alike makes that many helpers who offered as much.
func alike(count, offer int) []assign.Helper {
	offers := make([]int, count)
	for i := range offers {
		offers[i] = offer
	}
	return helpers(offers...)
}

// span is an item of its own series, from a minute to a minute, that everybody can take.
func span(n, from, to, weight, helpers int) assign.Item {
	it := assign.Item{
		Key: fmt.Sprintf("item-%03d", n), Series: n, Tier: assign.Must, Weight: weight, Now: assign.Nobody,
		Takes: []assign.Take{{From: from, To: to, Uses: 1}},
	}
	for range helpers {
		it.Able = append(it.Able, true)
	}
	return it
}

// reaches asks that the solver reaches a value in a level and has proven it.
func reaches(t *testing.T, p *assign.Problem, level assign.Level, want int64) {
	t.Helper()
	a := solved(t, p, 0)
	require.Equal(t, assign.Value{Got: assign.Ratio{Num: want, Den: 1}, Bound: assign.Ratio{Num: want, Den: 1}, Proven: true}, a.Values[level])
}

// The assignment problem: persons (rows) do jobs (columns), each one at most, at least
// cost. -1 is a job that the person cannot do.
var assignments = []struct {
	source string
	cost   [][]int
	least  int
}{
	{"Taha, Operations Research: An Introduction, section on the Hungarian method, example of the three children's chores (from memory)",
		[][]int{{15, 10, 9}, {9, 15, 10}, {10, 12, 8}}, 27},
	{"Taha, same section, the example of four children and chores (from memory)",
		[][]int{{1, 4, 6, 3}, {9, 7, 10, 9}, {4, 5, 11, 7}, {8, 7, 8, 5}}, 21},
	{"Hillier and Lieberman, Introduction to Operations Research, chapter on the assignment problem, three machines for four places (from memory)",
		[][]int{{13, 16, 12, 11}, {15, -1, 13, 20}, {5, 7, 10, 6}}, 29},
}

// A cost becomes likings: a job is a series of dates, all jobs have the same dates, so
// that a person who has all of one job has nothing else; level 3 then asks for just that,
// and of a series' dates the person likes (or dislikes) as many as the cost is below (or
// above) a middle. Level 4 adds the likings up, so it is at its most where the cost is at
// its least.
func assignment(cost [][]int) (p *assign.Problem, middle int) {
	low, high := 1<<30, 0
	for _, row := range cost {
		for _, c := range row {
			if c >= 0 {
				low, high = min(low, c), max(high, c)
			}
		}
	}
	middle = (low + high) / 2
	p = &assign.Problem{Helpers: alike(len(cost), 60)}
	for job := range cost[0] {
		for date := range high - middle {
			it := span(len(p.Items), date*100, date*100+60, 1, 0)
			it.Series = job
			for person := range cost {
				c := cost[person][job]
				it.Able = append(it.Able, c >= 0)
				likes := int8(0)
				if c < middle-date {
					likes = 1
				} else if c > middle+date {
					likes = -1
				}
				it.Rather = append(it.Rather, likes)
			}
			p.Items = append(p.Items, it)
		}
	}
	return p, middle
}

func TestTextbookAssignments(t *testing.T) {
	for _, example := range assignments {
		require.Equal(t, example.least, leastCost(example.cost, 0, 0), "the optimum is remembered wrongly: %s", example.source)
		p, middle := assignment(example.cost)
		reaches(t, p, assign.Pairs, int64(len(example.cost)))
		reaches(t, p, assign.Rather, int64(len(example.cost)*middle-example.least))
	}
}

// leastCost tries every way for the persons from one on with the jobs that are left.
func leastCost(cost [][]int, person int, taken uint) int {
	if person == len(cost) {
		return 0
	}
	least := 1 << 30
	for job, c := range cost[person] {
		if c >= 0 && taken&(1<<job) == 0 {
			least = min(least, c+leastCost(cost, person+1, taken|1<<job))
		}
	}
	return least
}

// Interval scheduling: Kleinberg and Tardos, Algorithm Design (2005), 4.1. Of intervals
// that one resource can have, taking the one that ends first, again and again, gives the
// most.
func TestOneHelperGetsTheMostIntervals(t *testing.T) {
	for seed := range many(t, 40) {
		p := intervals(families.NewRandom(seed), 60, 1, false)
		reaches(t, p, assign.CoverMust, earliestEnd(p))
	}
}

// intervals are random items over one day.
func intervals(r *families.Random, count, helpers int, weighted bool) *assign.Problem {
	p := &assign.Problem{Helpers: alike(helpers, 60)}
	for n := range count {
		from, weight := r.Below(1440), 1
		if weighted {
			weight = r.Between(1, 50)
		}
		p.Items = append(p.Items, span(n, from, from+r.Between(5, 240), weight, helpers))
	}
	return p
}

// byEnd gives the items' takes in order of their ends, with the weights.
func byEnd(p *assign.Problem) (takes []assign.Take, weights []int64) {
	items := append([]assign.Item(nil), p.Items...)
	sort.SliceStable(items, func(a, b int) bool { return items[a].Takes[0].To < items[b].Takes[0].To })
	for j := range items {
		takes, weights = append(takes, items[j].Takes[0]), append(weights, int64(items[j].Weight))
	}
	return takes, weights
}

func earliestEnd(p *assign.Problem) (taken int64) {
	takes, _ := byEnd(p)
	end := -1 << 30
	for _, t := range takes {
		if t.From >= end {
			taken, end = taken+1, t.To
		}
	}
	return taken
}

// Interval partitioning: same book, 4.1. As many resources are needed as intervals are
// going on at once at most (the depth), and so many are enough.
func TestHelpersAsManyAsTheDepth(t *testing.T) {
	for seed := range many(t, 30) {
		r := families.NewRandom(seed)
		count := r.Between(5, 16)
		p := intervals(r, count, 1, false)
		deep := depth(p)
		for _, helpers := range []int{deep - 1, deep} {
			if helpers == 0 {
				continue
			}
			p.Helpers = alike(helpers, 60)
			for j := range p.Items {
				p.Items[j] = span(j, p.Items[j].Takes[0].From, p.Items[j].Takes[0].To, 1, helpers)
			}
			a := solved(t, p, seed)
			v := a.Values[assign.CoverMust]
			require.True(t, v.Proven, "seed %d", seed)
			require.Equal(t, helpers == deep, v.Got.Num == int64(count), "seed %d: %d of %d with %d helpers, depth %d", seed, v.Got.Num, count, helpers, deep)
		}
	}
}

// depth is how many items are going on at once at most.
func depth(p *assign.Problem) (most int) {
	for j := range p.Items {
		here := 0
		for k := range p.Items {
			if t := p.Items[k].Takes[0]; t.From <= p.Items[j].Takes[0].From && p.Items[j].Takes[0].From < t.To {
				here++
			}
		}
		most = max(most, here)
	}
	return most
}
