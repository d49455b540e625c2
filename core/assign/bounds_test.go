package assign

import (
	"math/rand"
	"testing"
)

// taskOf is a small problem as the proofs see it, level 1 done.
func taskOf(r *rand.Rand) (*Problem, *task, *tables) {
	p := smallProblem(r, 1+r.Intn(6), 1+r.Intn(3))
	t := newTask(p, Options{})
	t.left = t.cover(true).loss
	return p, t, newTables(t)
}

// bestCovers calls see with each answer that is best in level 1.
func bestCovers(p *Problem, see func(to []int, got [LevelEnd]Ratio)) {
	want := [3]Ratio{}
	for l := CoverMust; l <= CoverNice; l++ {
		want[l] = Ratio{-1, 1}
		every(p, func(_ []int, got [LevelEnd]Ratio) {
			for b := CoverMust; b < l; b++ {
				if got[b] != want[b] {
					return
				}
			}
			if want[l].below(got[l]) {
				want[l] = got[l]
			}
		})
	}
	every(p, func(to []int, got [LevelEnd]Ratio) {
		if [3]Ratio(got[:3]) == want {
			see(to, got)
		}
	})
}

// TestBoundsHold holds each bound by itself against every answer of small problems: one that
// is wrong by a little would hardly show in what Solve says.
func TestBoundsHold(t *testing.T) {
	for seed := range int64(400) {
		r := rand.New(rand.NewSource(seed))
		p, k, e := taskOf(r)
		strict, peak, square := e.strictNeeds(), k.peakBound(e), int64(0)
		need := e.needs()
		for set := range need {
			need[set] += e.base[set]
		}
		square = e.leastSquare(need)
		held := int64(0)
		for g := range k.series {
			held += int64(ones(k.series[g].held))
		}
		bestCovers(p, func(to []int, got [LevelEnd]Ratio) {
			load := make([]int64, len(p.Helpers)) // by helper of the task
			for j, i := range to {
				for at, place := range k.places {
					if place == i {
						load[at] += int64(p.Items[j].Load)
					}
				}
			}
			for set, sum := range e.sums(load) {
				if sum < strict[set]+e.base[set] || sum < need[set] {
					t.Fatalf("seed %d: set %b has %d minutes; bounds %d, %d", seed, set, sum, strict[set]+e.base[set], need[set])
				}
			}
			for i, l := range load {
				if e.reach[i].most(l) != l {
					t.Fatalf("seed %d: helper %d has %d minutes, which is said not to be possible", seed, i, l)
				}
			}
			if got[Peak].below(peak) || got[Square].Num < square || k.flatSquare() > got[Square].Num {
				t.Fatalf("seed %d: an answer with %v; bounds %v, %d, %d", seed, got, peak, square, k.flatSquare())
			}
			if got[Pairs].Num < held+k.fewestPairs() || got[Rather].Num > k.fixed[Rather]+k.mostLikings() ||
				got[Moves].Num < k.fixed[Moves]+k.fewestMoves() {
				t.Fatalf("seed %d: an answer with %v is better than a bound", seed, got)
			}
		})
	}
}

// TestPricesHold holds what prices bound, at whatever multipliers, against every answer.
func TestPricesHold(t *testing.T) {
	for seed := range int64(400) {
		r := rand.New(rand.NewSource(1000 + seed))
		p, k, e := taskOf(r)
		caps := make([]int64, len(k.offer))
		for i := range caps {
			caps[i] = k.base[i] + int64(r.Intn(300))
		}
		most, wanted, held := int64(r.Intn(4)), int64(r.Intn(3)-1), int64(0)
		for g := range k.series {
			held += int64(ones(k.series[g].held))
		}
		bounds := map[Level]int64{}
		for _, level := range []Level{Pairs, Rather, Square} {
			a := e.ascent(level, e.room(caps), most, wanted)
			aim := map[Level]int64{Pairs: 5 * pairUnit, Rather: 5 * pairUnit, Square: 1 << 30}[level]
			bounds[level] = a.climb(aim, 1+r.Intn(30))
		}
		bestCovers(p, func(to []int, got [LevelEnd]Ratio) {
			load := make([]int64, len(p.Helpers))
			for j, i := range to {
				if i != Nobody {
					load[i] += int64(p.Items[j].Load)
				}
			}
			for i, place := range k.places {
				if load[place] > caps[i] {
					return
				}
			}
			pairs, rather := got[Pairs].Num-held, got[Rather].Num-k.fixed[Rather]
			if pairs*pairUnit < bounds[Pairs] ||
				pairs <= most && -rather*pairUnit < bounds[Rather] ||
				pairs <= most && rather >= wanted && got[Square].Num < bounds[Square] {
				t.Fatalf("seed %d: an answer with %d pairs, %d likings, square %v; bounds %v", seed, pairs, rather, got[Square], bounds)
			}
		})
	}
}
