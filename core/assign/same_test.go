package assign

import (
	"math/rand"
	"reflect"
	"slices"
	"strconv"
	"testing"
)

var familySizes = [][2]int{{20, 3}, {60, 4}, {120, 6}}

// shuffled lists the helpers and items of a problem in another order and gives series other
// numbers; items says where each item went.
func shuffled(p *Problem, r *rand.Rand) (q *Problem, items []int) {
	q = &Problem{Helpers: make([]Helper, len(p.Helpers)), Items: make([]Item, len(p.Items))}
	helpers := r.Perm(len(p.Helpers))
	items = r.Perm(len(p.Items))
	for i, h := range p.Helpers {
		q.Helpers[helpers[i]] = h
	}
	for j, it := range p.Items {
		able, rather := make([]bool, len(it.Able)), make([]int8, len(it.Rather))
		for i := range it.Able {
			able[helpers[i]] = it.Able[i]
		}
		for i := range it.Rather {
			rather[helpers[i]] = it.Rather[i]
		}
		it.Able, it.Series = able, 1000-7*it.Series%1000
		if it.Rather != nil {
			it.Rather = rather
		}
		if it.Now != Nobody {
			it.Now = helpers[it.Now]
		}
		it.Takes = slices.Clone(it.Takes)
		slices.Reverse(it.Takes)
		q.Items[items[j]] = it
	}
	return q, items
}

func TestSameAnswerInAnyOrder(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	for _, size := range familySizes {
		for kind := range 3 {
			p := inventedFamily(int64(kind), size[0], size[1], kind)
			a := Solve(p, Options{})
			if again := Solve(p, Options{}); !reflect.DeepEqual(a, again) {
				t.Fatalf("%v kind %d: the same problem has two answers", size, kind)
			}
			q, items := shuffled(p, r)
			b := Solve(q, Options{})
			if a.Values != b.Values || a.Work != b.Work {
				t.Fatalf("%v kind %d: in another order the values are %v and not %v", size, kind, b.Values, a.Values)
			}
			for j, i := range a.To {
				if o := b.To[items[j]]; (i == Nobody) != (o == Nobody) || i != Nobody && p.Helpers[i].Key != q.Helpers[o].Key {
					t.Fatalf("%v kind %d: item %d goes to another helper in another order", size, kind, j)
				}
			}
		}
	}
}

// TestOtherNames solves families again under other names, which leads the search along other
// ways: no answer may be better than what was proven along another.
func TestOtherNames(t *testing.T) {
	seeds := int64(2)
	if testing.Short() {
		seeds = 1
	}
	for seed := range seeds {
		for _, size := range familySizes {
			for kind := range 3 {
				p := inventedFamily(100+seed, size[0], size[1], kind)
				a := Solve(p, Options{})
				for i := range p.Helpers {
					p.Helpers[i].Key = strconv.Itoa(10 + (5*i+3)%7)
				}
				for j := range p.Items {
					p.Items[j].Key = strconv.Itoa(10000 + 7919*j%10007)
				}
				b := Solve(p, Options{})
				for l := range a.Values {
					v, w := a.Values[l], b.Values[l]
					if aim(Level(l), v.Got) < aim(Level(l), w.Bound) || aim(Level(l), w.Got) < aim(Level(l), v.Bound) {
						t.Errorf("%v kind %d seed %d level %d: %v and %v", size, kind, seed, l, v, w)
					}
					if v.Got != w.Got && l != int(Peak) || !slices.Equal(a.Cap, b.Cap) {
						break
					}
				}
			}
		}
	}
}
