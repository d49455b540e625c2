package assign

import (
	"math/rand"
	"runtime"
	"strconv"
	"testing"
	"time"
)

// TestHostileSizes takes what a link may hold at most, in shapes that are bad for the search.
func TestHostileSizes(t *testing.T) {
	for _, c := range []struct {
		name                    string
		items, helpers, series  int
		apart, length, ableness int // minutes from one to the next, and of each; how many of ten helpers are able
		together                int // items in a row, far from the next ones; 0: all
	}{
		{"everything overlaps everything", 3000, 60, 3000, 0, 60, 10, 0},
		{"everything overlaps everything, few helpers", 3000, 8, 40, 0, 60, 10, 0},
		{"everything overlaps everything, few are able", 3000, 60, 50, 0, 60, 1, 0},
		{"a long chain", 3000, 60, 100, 20, 60, 5, 0},
		{"a long chain, ten helpers", 3000, 10, 12, 20, 60, 5, 0},
		{"a long chain, ten helpers, no series", 3000, 10, 3000, 20, 60, 5, 0},
		{"a deep chain, eight helpers", 3000, 8, 60, 5, 60, 10, 0},
		{"nothing overlaps", 3000, 60, 300, 60, 60, 10, 0},
		{"nothing overlaps, eight helpers", 3000, 8, 30, 60, 60, 10, 0},
		{"many small parts, everybody is able", 3000, 60, 10, 6, 13, 10, 4},
		{"many parts, everybody is able", 3000, 60, 10, 6, 20, 10, 10},
		{"one helper", 3000, 1, 30, 20, 60, 10, 0},
		{"nobody", 3000, 0, 30, 20, 60, 10, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := rand.New(rand.NewSource(1))
			p := &Problem{}
			for i := range c.helpers {
				p.Helpers = append(p.Helpers, Helper{strconv.Itoa(i), 1 + r.Intn(MaxOffer)})
			}
			for j := range c.items {
				it := Item{Key: strconv.Itoa(j), Series: r.Intn(c.series), Tier: Tier(r.Intn(3)), Weight: 1 + r.Intn(MaxWeight),
					Load: r.Intn(MaxLoad + 1), Now: r.Intn(c.helpers+1) - 1}
				at := j * c.apart
				if c.together > 0 {
					at = j/c.together*10_000 + j%c.together*c.apart
				}
				it.Takes = []Take{{at, at + c.length, 1}}
				for range c.helpers {
					it.Able = append(it.Able, r.Intn(10) < c.ableness)
					it.Rather = append(it.Rather, int8(r.Intn(3)-1))
				}
				p.Items = append(p.Items, it)
			}
			var before, after runtime.MemStats
			runtime.GC()
			runtime.ReadMemStats(&before)
			from := time.Now()
			a := Solve(p, Options{})
			took := time.Since(from)
			runtime.ReadMemStats(&after)
			t.Logf("%v, work %d, %d MB allocated, heap %d MB, %v", took, a.Work, (after.TotalAlloc-before.TotalAlloc)>>20, after.HeapSys>>20, a.Values)
			got, broken := p.Values(a.To, a.Values[Peak].Got)
			if broken != "" {
				t.Fatal(broken)
			}
			for l, v := range a.Values {
				if l != int(Peak) && v.Got != got[l] {
					t.Errorf("level %d: the answer has %v, Solve says %v", l, got[l], v.Got)
				}
				if aim(Level(l), v.Bound) > aim(Level(l), v.Got) || v.Proven != (v.Got == v.Bound) {
					t.Errorf("level %d: %v", l, v)
				}
			}
			if a.Work > 4*DefaultWork {
				t.Errorf("the work is %d", a.Work)
			}
		})
	}
}
