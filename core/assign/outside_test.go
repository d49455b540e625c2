package assign_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/build/bench/split/families"
	"newel/build/bench/split/programme"
	"newel/core/assign"
)

// What does not matter to the programme must not matter to the answer: each of these makes
// another problem with the same optimum in every level.
var irrelevant = []struct {
	what   string
	change func(r *families.Random, p *assign.Problem)
}{
	{"other names", func(r *families.Random, p *assign.Problem) {
		for _, i := range order(r, len(p.Helpers)) {
			p.Helpers[i].Key = fmt.Sprintf("%03d-%s", r.Below(1000), p.Helpers[i].Key)
		}
		for j := range p.Items {
			p.Items[j].Key = fmt.Sprintf("%03d-%s", r.Below(1000), p.Items[j].Key)
		}
	}},
	{"weeks later or earlier", func(r *families.Random, p *assign.Problem) {
		minutes := r.Between(-200, 200) * 7 * 24 * 60
		eachTake(p, func(t *assign.Take) { t.From, t.To = t.From+minutes, t.To+minutes })
	}},
	{"a time cut in two", func(r *families.Random, p *assign.Problem) {
		for j := range p.Items {
			p.Items[j].Takes = cut(r, p.Items[j].Takes)
		}
	}},
	{"other numbers for what is used", func(r *families.Random, p *assign.Problem) {
		bits := order(r, 8)
		eachTake(p, func(t *assign.Take) {
			old := t.Uses
			t.Uses = 0
			for from, to := range bits {
				t.Uses |= old >> from & 1 << to
			}
		})
	}},
	{"time stretched", func(r *families.Random, p *assign.Problem) {
		factor := r.Between(2, 60)
		eachTake(p, func(t *assign.Take) { t.From, t.To = t.From*factor, t.To*factor })
	}},
	{"somebody who can do nothing", func(r *families.Random, p *assign.Problem) {
		p.Helpers = append(p.Helpers, assign.Helper{Key: "nothing", Offer: p.Helpers[0].Offer})
		for j := range p.Items {
			p.Items[j].Able = append(p.Items[j].Able, false)
			if p.Items[j].Rather != nil {
				p.Items[j].Rather = append(p.Items[j].Rather, 1)
			}
		}
	}},
	{"an item that nobody can do", func(r *families.Random, p *assign.Problem) {
		p.Items = append(p.Items, assign.Item{
			Key: "impossible", Series: p.Items[0].Series, Tier: assign.Must, Weight: 5, Load: 5, Now: assign.Nobody,
			Takes: p.Items[0].Takes, Able: make([]bool, len(p.Helpers)),
		})
	}},
}

func eachTake(p *assign.Problem, change func(t *assign.Take)) {
	for j := range p.Items {
		for k := range p.Items[j].Takes {
			change(&p.Items[j].Takes[k])
		}
	}
}

// cut cuts each take that is long enough in two at an inner minute, and turns them around.
func cut(r *families.Random, takes []assign.Take) (parts []assign.Take) {
	for _, t := range takes {
		if t.To-t.From < 2 {
			parts = append(parts, t)
			continue
		}
		at := r.Between(t.From+1, t.To-1)
		parts = append(parts, assign.Take{From: at, To: t.To, Uses: t.Uses}, assign.Take{From: t.From, To: at, Uses: t.Uses})
	}
	return parts
}

// order gives the numbers below n in a random order.
func order(r *families.Random, n int) []int {
	all := make([]int, n)
	for i := range all {
		all[i] = i
	}
	r.Shuffle(n, func(i, j int) { all[i], all[j] = all[j], all[i] })
	return all
}

// copied gives a problem that shares nothing with p.
func copied(p *assign.Problem) *assign.Problem {
	q := &assign.Problem{Helpers: append([]assign.Helper(nil), p.Helpers...)}
	for _, it := range p.Items {
		it.Takes = append([]assign.Take(nil), it.Takes...)
		it.Able = append([]bool(nil), it.Able...)
		if it.Rather != nil {
			it.Rather = append([]int8(nil), it.Rather...)
		}
		q.Items = append(q.Items, it)
	}
	return q
}

// problems are small nasty ones and families.
func problems(t *testing.T, check func(p *assign.Problem, seed uint64)) {
	for seed := range many(t, 120) {
		check(families.Small(seed, 5+int(seed%6), 2+int(seed/6%3)), seed)
	}
	for seed := range many(t, 9) {
		check(families.Make(families.Size{Duties: 20, Helpers: 3}, families.Kinds[seed%3], 100+seed), seed)
	}
}

func TestWhatDoesNotMatterChangesNoValue(t *testing.T) {
	problems(t, func(p *assign.Problem, seed uint64) {
		first := solved(t, p, seed)
		for _, one := range irrelevant {
			q := copied(p)
			one.change(families.NewRandom(seed), q)
			second := solved(t, q, seed)
			for level := range assign.LevelEnd {
				a, b := first.Values[level], second.Values[level]
				if a.Proven && b.Proven {
					require.Equal(t, a, b, "level %d, %s: %s", level, one.what, literal(p, seed))
					continue
				}
				// What is not proven may differ, but neither passes the other's bound.
				require.False(t, programme.Better(level, a.Got, b.Bound) || programme.Better(level, b.Got, a.Bound),
					"level %d, %s: %v and %v: %s", level, one.what, a, b, literal(p, seed))
				break
			}
		}
	})
}

// The tie order: whatever the order in which helpers, items and their times are listed, and
// whatever numbers the series have, each item goes to the same helper.
func TestTheOrderOfEntryChangesNothing(t *testing.T) {
	problems(t, func(p *assign.Problem, seed uint64) {
		first := solved(t, p, seed)
		r := families.NewRandom(seed)
		q, items, people := shuffled(r, p)
		second := solved(t, q, seed)
		require.Equal(t, first.Values, second.Values, literal(p, seed))
		require.Equal(t, first.Work, second.Work, "the work is the same too: %s", literal(p, seed))
		for j, i := range first.To {
			if i != assign.Nobody {
				i = people[i]
			}
			require.Equal(t, i, second.To[items[j]], "item %s: %s", p.Items[j].Key, literal(p, seed))
		}
		for i, most := range first.Cap {
			require.Equal(t, most, second.Cap[people[i]])
		}
	})
}

// shuffled lists a problem in another order; items and people say where each went.
func shuffled(r *families.Random, p *assign.Problem) (q *assign.Problem, items, people []int) {
	items, people = order(r, len(p.Items)), order(r, len(p.Helpers))
	q = &assign.Problem{Helpers: make([]assign.Helper, len(people)), Items: make([]assign.Item, len(items))}
	for i, to := range people {
		q.Helpers[to] = p.Helpers[i]
	}
	numbers := order(r, len(p.Items)+1)
	for j, it := range copied(p).Items {
		was := it
		it.Able = make([]bool, len(people))
		for i, to := range people {
			it.Able[to] = was.Able[i]
		}
		if was.Rather != nil {
			it.Rather = make([]int8, len(people))
			for i, to := range people {
				it.Rather[to] = was.Rather[i]
			}
		}
		if it.Now != assign.Nobody {
			it.Now = people[it.Now]
		}
		if it.Series < len(numbers) {
			it.Series = numbers[it.Series]
		}
		r.Shuffle(len(it.Takes), func(a, b int) { it.Takes[a], it.Takes[b] = it.Takes[b], it.Takes[a] })
		q.Items[items[j]] = it
	}
	return q, items, people
}

// The same problem twice gives the same answer, and solving leaves the problem alone.
func TestSolvingTwiceGivesTheSame(t *testing.T) {
	problems(t, func(p *assign.Problem, seed uint64) {
		q := copied(p)
		require.Equal(t, assign.Solve(p, assign.Options{}), assign.Solve(p, assign.Options{}))
		require.Equal(t, q, p, "solving changed the problem")
	})
}
