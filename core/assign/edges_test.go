package assign_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"newel/build/bench/split/families"
	"newel/build/bench/split/programme"
	"newel/core/assign"
)

// Problems at the edge: nothing to do, nobody to do it, nothing that counts.
func TestBruteForceAtTheEdges(t *testing.T) {
	for what, change := range map[string]func(p *assign.Problem){
		"no helpers": func(p *assign.Problem) {
			p.Helpers = nil
			for j := range p.Items {
				p.Items[j].Able, p.Items[j].Rather, p.Items[j].Now, p.Items[j].Held = nil, nil, assign.Nobody, false
			}
		},
		"no items": func(p *assign.Problem) { p.Items = nil },
		"nothing":  func(p *assign.Problem) { *p = assign.Problem{} },
		"nobody can do anything": func(p *assign.Problem) {
			for j := range p.Items {
				p.Items[j].Able, p.Items[j].Held = make([]bool, len(p.Helpers)), false
			}
		},
		"no loads":        func(p *assign.Problem) { eachItem(p, func(it *assign.Item) { it.Load = 0 }) },
		"no times":        func(p *assign.Problem) { eachItem(p, func(it *assign.Item) { it.Takes = nil }) },
		"nothing is used": func(p *assign.Problem) { eachTake(p, func(t *assign.Take) { t.Uses = 0 }) },
		"all at once": func(p *assign.Problem) {
			eachItem(p, func(it *assign.Item) {
				it.Takes, it.Held = []assign.Take{{From: -5, To: 5, Uses: 255}}, false
			})
		},
		"the largest numbers": func(p *assign.Problem) {
			eachItem(p, func(it *assign.Item) { it.Load, it.Weight = assign.MaxLoad, assign.MaxWeight })
			for i := range p.Helpers {
				p.Helpers[i].Offer = assign.MaxOffer - i
			}
		},
		"hardly anything offered": func(p *assign.Problem) {
			for i := range p.Helpers {
				p.Helpers[i].Offer = 1 + i
			}
		},
		"all is held": func(p *assign.Problem) {
			for j := range p.Items {
				it := &p.Items[j]
				it.Now, it.Held, it.Able[0] = 0, true, true
				it.Takes = []assign.Take{{From: j, To: j + 1, Uses: 1}}
			}
		},
	} {
		for seed := range uint64(12) {
			p := families.Small(seed, 1+int(seed%6), 1+int(seed%3))
			change(p)
			require.NoError(t, p.Check(), what)
			best, _ := programme.Brute(p)
			a := solved(t, p, seed)
			for level, v := range a.Values {
				require.Equal(t, assign.Value{Got: best[level], Bound: best[level], Proven: true}, v, "%s, level %d", what, level)
			}
		}
	}
}

func eachItem(p *assign.Problem, change func(it *assign.Item)) {
	for j := range p.Items {
		change(&p.Items[j])
	}
}

// Level 5 adds up squares of load over offer, times whole numbers that keep the proportions:
// exactly where offers are multiples of one another, and otherwise within what rounding to
// whole numbers can do.
func TestTheScaleIsOneOverTheOfferSquared(t *testing.T) {
	q := (&assign.Problem{Helpers: helpers(1080, 2160, 4320, 2160)}).Scale()
	require.Equal(t, []int64{16, 4, 1, 4}, q)
	for seed := range uint64(300) {
		r := families.NewRandom(seed)
		var offers []int
		for range r.Between(1, 8) {
			offers = append(offers, r.Between(1, []int{10, 300, 5000, assign.MaxOffer}[r.Below(4)]))
		}
		scale := (&assign.Problem{Helpers: helpers(offers...)}).Scale()
		for i := range offers {
			for k := range offers {
				// q[i]·o[i]² is about q[k]·o[k]²; each q may be off by a half, and none is below 1.
				a, b := squared(offers[i]), squared(offers[k])
				low, high := (float64(scale[i])-0.5)*a, (float64(scale[i])+0.5)*a
				require.True(t, scale[i] == 1 || scale[k] == 1 || low <= (float64(scale[k])+0.5)*b && (float64(scale[k])-0.5)*b <= high,
					"offers %v, scale %v", offers, scale)
			}
		}
	}
}

func squared(offer int) float64 { return float64(offer) * float64(offer) }
