package assign

import (
	"math/rand"
	"slices"
	"testing"
)

// loadsOf are the loads of all answers of a small problem that are best in level 1, by helper
// of the task.
func loadsOf(p *Problem, k *task) (all [][]int64) {
	bestCovers(p, func(to []int, _ [LevelEnd]Ratio) {
		load := make([]int64, len(p.Helpers))
		for j, i := range to {
			if i != Nobody {
				load[slices.Index(k.places, i)] += int64(p.Items[j].Load)
			}
		}
		all = append(all, load)
	})
	return all
}

// within says whether any loads are under limits.
func within(all [][]int64, room []int64) bool {
	return slices.ContainsFunc(all, func(load []int64) bool {
		for i, l := range load {
			if l > room[i] {
				return false
			}
		}
		return true
	})
}

// TestPackingAgainstEveryAnswer holds packings against all answers of small problems: what
// some answer has must fit, in every set of helpers, and of all of up to three helpers nothing
// else may.
func TestPackingAgainstEveryAnswer(t *testing.T) {
	count := [2]int{} // that do not fit, that do
	for seed := range int64(240) {
		r := rand.New(rand.NewSource(seed))
		p := smallProblem(r, 1+r.Intn(5), 2+r.Intn(3))
		for j := range p.Items {
			if seed%2 == 1 {
				p.Items[j].Load = r.Intn(200) // so that loads take more than a word of bits
			}
		}
		k := newTask(p, Options{})
		k.left = k.cover(true).loss
		all := loadsOf(p, k)
		for range 6 {
			room := slices.Clone(all[r.Intn(len(all))])
			for i := range room {
				room[i] = max(0, room[i]-int64(r.Intn(3)*r.Intn(40)))
			}
			fits := within(all, room)
			whole := uint64(1)<<len(room) - 1
			for set := uint64(1); set <= whole; set++ {
				if ones(set) < 2 {
					continue
				}
				found := newPacking(k, set).fits(room, 1<<60)
				exact := set == whole && len(room) < maxPacked
				if fits && !found || exact && found && !fits {
					t.Fatalf("seed %d: helpers %b under %v: fits says %v, all answers say %v", seed, set, room, found, fits)
				}
				if set == whole && found {
					count[1]++
				} else if set == whole {
					count[0]++
				}
			}
		}
	}
	if min(count[0], count[1]) < 200 {
		t.Fatalf("%d did not fit and %d did: the test tries too little", count[0], count[1])
	}
}

// TestPackingGivesUp: one that has no work left proves nothing.
func TestPackingGivesUp(t *testing.T) {
	p := &Problem{Helpers: []Helper{{"a", 60}, {"b", 60}}}
	for _, key := range []string{"1", "2", "3"} {
		p.Items = append(p.Items, Item{Key: key, Weight: 1, Load: 40, Able: []bool{true, true}, Now: Nobody})
	}
	k := newTask(p, Options{})
	k.left = k.cover(true).loss
	packs := newPacking(k, 3)
	if packs.fits([]int64{60, 60}, 1<<60) || !packs.fits([]int64{60, 60}, 0) || !packs.fits([]int64{80, 60}, 1<<60) {
		t.Fatal("three of 40 fit into 80 and 40, not into 60 and 60, and without work nothing is known")
	}
}
