package assign

import (
	"math/rand"
	"strconv"
	"testing"
)

// smallProblem makes a problem that is small enough to try every answer, with all that is nasty:
// overlaps, several uses, held items, loads of 0, ties, items that nobody can take.
func smallProblem(r *rand.Rand, items, helpers int) *Problem {
	p := &Problem{}
	unit := []int{1, 5, 30}[r.Intn(3)]
	for i := range helpers {
		p.Helpers = append(p.Helpers, Helper{strconv.Itoa(i), []int{60, 120, 240, 77}[r.Intn(4)] * (1 + r.Intn(2))})
	}
	spread := 1 + r.Intn(300)
	for j := range items {
		it := Item{Key: strconv.Itoa(j), Series: r.Intn(1 + items/2), Tier: Tier(r.Intn(3)), Weight: 1 + r.Intn(3),
			Load: unit * r.Intn(10), Now: r.Intn(helpers+1) - 1}
		for range r.Intn(3) {
			from := r.Intn(spread)
			it.Takes = append(it.Takes, Take{from, from + 1 + r.Intn(60), Uses(r.Intn(4))})
		}
		for range helpers {
			it.Able = append(it.Able, r.Intn(3) > 0)
		}
		if r.Intn(2) == 0 {
			for range helpers {
				it.Rather = append(it.Rather, int8(r.Intn(3)-1))
			}
		}
		it.Held = r.Intn(6) == 0 && it.Now != Nobody && it.Able[it.Now]
		p.Items = append(p.Items, it)
	}
	for j := range p.Items {
		for k := range j {
			if p.Items[j].Held && p.Items[k].Held && p.Items[j].Now == p.Items[k].Now && overlap(p.Items[j].Takes, p.Items[k].Takes) {
				p.Items[j].Held = false
			}
		}
	}
	return p
}

// every calls see with each answer that breaks no row.
func every(p *Problem, see func(to []int, got [LevelEnd]Ratio)) {
	to := make([]int, len(p.Items))
	var walk func(j int)
	walk = func(j int) {
		if j == len(to) {
			if got, broken := p.Values(to, Ratio{}); broken == "" {
				see(to, got)
			}
			return
		}
		for i := Nobody; i < len(p.Helpers); i++ {
			if i == Nobody || p.Items[j].Able[i] {
				to[j] = i
				walk(j + 1)
			}
		}
	}
	walk(0)
}

func aim(l Level, r Ratio) float64 {
	v := float64(r.Num) / float64(r.Den)
	if l <= CoverNice || l == Rather {
		return -v
	}
	return v
}

// bruteForce gives the optimum of each level.
func bruteForce(p *Problem) (best [LevelEnd]Ratio) {
	peak := Ratio{}
	for l := CoverMust; l < LevelEnd; l++ {
		first := true
		every(p, func(to []int, got [LevelEnd]Ratio) {
			for before := CoverMust; before < l; before++ {
				if before != Peak && got[before] != best[before] {
					return
				}
			}
			if l > Peak {
				if _, broken := p.Values(to, peak); broken != "" {
					return
				}
			}
			if first || aim(l, got[l]) < aim(l, best[l]) {
				best[l], first = got[l], false
			}
		})
		if l == Peak {
			peak = best[l]
		}
	}
	return best
}

func TestSmallAgainstEveryAnswer(t *testing.T) {
	for seed := range int64(300) {
		r := rand.New(rand.NewSource(seed))
		p := smallProblem(r, 1+r.Intn(6), 1+r.Intn(3))
		if err := p.Check(); err != nil {
			t.Fatal(err)
		}
		want, a := bruteForce(p), Solve(p, Options{})
		for l, v := range a.Values {
			if v.Got != want[l] || v.Bound != want[l] || !v.Proven {
				t.Fatalf("seed %d level %d: got %v, bound %v, proven %v; want %v", seed, l, v.Got, v.Bound, v.Proven, want[l])
			}
		}
		got, broken := p.Values(a.To, a.Values[Peak].Got)
		for l := range got {
			if broken != "" || l != int(Peak) && got[l] != a.Values[l].Got {
				t.Fatalf("seed %d: the answer has %v (%s), Solve says %v", seed, got, broken, a.Values)
			}
		}
	}
}
