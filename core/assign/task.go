package assign

import "sort"

// task is a problem in an order that does not depend on how it was listed, without the items
// that are held or that nobody can take.
type task struct {
	places []int   // by helper: place in the problem
	offer  []int64 // by helper
	scale  []int64 // by helper: q of level 5
	base   []int64 // by helper: minutes held
	items  []item
	series []group
	parts  []part
	meets  [][]uint64      // by item: the set of items that clash with it
	fixed  [LevelEnd]int64 // what the held items, and the lost ones, add to each sum
	worth  [tierEnd]int64  // what one of weight counts in a tier, so that tiers are never traded
	left   int64           // worth that is left uncovered once level 1 is done
	spent  int             // work done
	limit  int             // work allowed
}

// item is an item that is still to be given. Helpers are in the task's order.
type item struct {
	place  int     // in the problem
	series int32   // in task.series
	part   int32   // in task.parts
	load   int64   // minutes
	worth  int64   // weight times the tier's worth
	able   uint64  // helpers that are able and free of what they hold; after cover: in some best answer
	may    bool    // some best answer leaves it uncovered
	never  bool    // every best answer does
	now    int8    // an able helper, or Nobody
	rather []int8  // by helper, or nil
	clash  []int16 // the items that it overlaps with an able helper in common
}

// group is a series.
type group struct {
	items []int32
	held  uint64 // helpers who hold dates of it
}

// newTask puts helpers in order of their keys and items in order of time and then of key.
func newTask(p *Problem, o Options) *task {
	t := &task{limit: o.Work}
	if t.limit <= 0 {
		t.limit = DefaultWork
	}
	t.addHelpers(p)
	t.addWorths(p)
	order := byTime(p)
	held := make([][]int, len(p.Helpers)) // by place
	for _, j := range order {
		if p.Items[j].Held {
			held[p.Items[j].Now] = append(held[p.Items[j].Now], j)
		}
	}
	number := map[int]int32{}
	for _, j := range order {
		s, known := number[p.Items[j].Series]
		if !known {
			s = int32(len(t.series))
			number[p.Items[j].Series] = s
			t.series = append(t.series, group{})
		}
		t.addItem(p, j, s, held)
	}
	t.addClashes(p)
	return t
}

func (t *task) addHelpers(p *Problem) {
	t.places = make([]int, len(p.Helpers))
	for i := range t.places {
		t.places[i] = i
	}
	sort.Slice(t.places, func(a, b int) bool { return p.Helpers[t.places[a]].Key < p.Helpers[t.places[b]].Key })
	scale := p.Scale()
	for _, place := range t.places {
		t.offer = append(t.offer, int64(p.Helpers[place].Offer))
		t.scale = append(t.scale, scale[place])
	}
	t.base = make([]int64, len(t.places))
}

// addWorths: weights of one tier add up to at most 3 000 000, and of all three together
// too, so the product of the three is at most 1e18.
func (t *task) addWorths(p *Problem) {
	var sum [tierEnd]int64
	for j := range p.Items {
		sum[p.Items[j].Tier] += int64(p.Items[j].Weight)
	}
	t.worth = [tierEnd]int64{Nice: 1, Should: 1 + sum[Nice], Must: (1 + sum[Nice]) * (1 + sum[Should])}
}

func byTime(p *Problem) []int {
	order := make([]int, len(p.Items))
	from := make([]int, len(p.Items))
	for j := range order {
		order[j] = j
		for k, take := range p.Items[j].Takes {
			if k == 0 || take.From < from[j] {
				from[j] = take.From
			}
		}
	}
	sort.Slice(order, func(a, b int) bool {
		j, k := order[a], order[b]
		if from[j] != from[k] {
			return from[j] < from[k]
		}
		return p.Items[j].Key < p.Items[k].Key
	})
	return order
}

func (t *task) addItem(p *Problem, j int, s int32, held [][]int) {
	it := &p.Items[j]
	now := Nobody
	var able uint64
	for i, place := range t.places {
		if !it.Able[place] {
			continue
		}
		if it.Now == place {
			now = i
		}
		if it.Held || !meets(p, it, held[place]) {
			able |= 1 << i
		}
	}
	switch {
	case it.Held:
		t.hold(it, s, now)
	case able == 0 && now != Nobody:
		t.fixed[Moves]++
	case able != 0:
		fresh := item{place: j, series: s, load: int64(it.Load), worth: int64(it.Weight) * t.worth[it.Tier], able: able, now: int8(now)}
		if it.Rather != nil {
			for _, place := range t.places {
				fresh.rather = append(fresh.rather, it.Rather[place])
			}
		}
		t.series[s].items = append(t.series[s].items, int32(len(t.items)))
		t.items = append(t.items, fresh)
	}
}

func meets(p *Problem, it *Item, others []int) bool {
	for _, k := range others {
		if overlap(it.Takes, p.Items[k].Takes) {
			return true
		}
	}
	return false
}

// hold counts a held item.
func (t *task) hold(it *Item, s int32, i int) {
	t.base[i] += int64(it.Load)
	t.series[s].held |= 1 << i
	t.fixed[CoverMust+Level(Must-it.Tier)] += int64(it.Weight)
	if it.Rather != nil {
		t.fixed[Rather] += int64(it.Rather[t.places[i]])
	}
}
