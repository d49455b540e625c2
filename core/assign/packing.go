package assign

// packing is what must fall to a few helpers, be it as part of a part's answer: whether it can
// be shared out among them under limits is gone through exactly, for all loads that each of
// them can have (dynamic programming as for the knapsack problem; Martello and Toth, Knapsack
// Problems, 1990, section 2.6). What others could do as well is left out, so that what does
// not fit here fits nowhere.
type packing struct {
	t     *task
	who   []int // the helpers; of a fourth only what is left of the total is known
	step  int64 // every load is a whole multiple of it
	total int64 // steps that must fall to them, at least
	parts [][]vector
}

// vector is what up to three helpers have of a part, in steps.
type vector [3]int32

const (
	maxPacked  = 4       // helpers; one more than a vector has
	maxVectors = 100     // of one part
	maxWide    = 2000    // arcs of its diagram
	maxPacks   = 1 << 18 // 64 loads of the first three together each
)

// newPacking gathers what must fall to a set of two to four helpers.
func newPacking(t *task, set uint64) *packing {
	p := &packing{t: t}
	for rest := set; rest != 0; rest &= rest - 1 {
		p.who = append(p.who, lowest(rest))
	}
	// The one who offered most is last: a fourth one's loads are not gone through.
	for k, last := 0, len(p.who)-1; k < last; k++ {
		if t.offer[p.who[k]] > t.offer[p.who[last]] {
			p.who[k], p.who[last] = p.who[last], p.who[k]
		}
	}
	for j := range t.items {
		if t.items[j].able&set != 0 {
			p.step = divisor(p.step, t.items[j].load)
		}
	}
	p.step = max(p.step, 1)
	for c := range t.parts {
		if d := t.parts[c].diagram; d != nil {
			p.addDiagram(d, set)
			continue
		}
		for _, j := range t.parts[c].items {
			p.addItem(&t.items[j], set)
		}
	}
	t.spent += len(t.items)
	return p
}

// addItem adds an item that nobody else can take.
func (p *packing) addItem(it *item, set uint64) {
	if it.may || it.able == 0 || it.able&^set != 0 || it.load == 0 {
		return
	}
	var all []vector
	for k, i := range p.who {
		if it.able>>i&1 != 0 {
			all = append(all, p.more(vector{}, k, it.load))
		}
	}
	p.parts, p.total = append(p.parts, all), p.total+it.load/p.step
}

// more adds a load of the helper at place k.
func (p *packing) more(v vector, k int, load int64) vector {
	if k < len(v) {
		v[k] += int32(load / p.step)
	}
	return v
}

// addDiagram adds what the best answers of a part can leave to the helpers. One with too many
// different ones is left out but for the items that only they can take.
func (p *packing) addDiagram(d *diagram, set uint64) {
	least := d.inside(set, nil, nil)
	p.t.spent += d.arcs()
	if least == 0 {
		return
	}
	if d.arcs() > maxWide || !p.addVectors(d, least) {
		for _, j := range d.p.items {
			p.addItem(&p.t.items[j], set)
		}
	}
}

// addVectors adds a part with all that the helpers can have of it; it gives false where that
// is too much.
func (p *packing) addVectors(d *diagram, least int64) bool {
	now := [][]vector{{{}}}
	for k, j := range d.p.items {
		it := &p.t.items[j]
		next := make([][]vector, len(d.layers[k+1].loss))
		for _, a := range d.layers[k].arcs {
			for _, v := range now[a.from] {
				for n, i := range p.who {
					if i == int(a.who) {
						v = p.more(v, n, it.load)
					}
				}
				next[a.to] = p.known(next[a.to], v)
			}
			if len(next[a.to]) > maxVectors {
				return false
			}
		}
		now = next
	}
	p.parts, p.total = append(p.parts, now[0]), p.total+least/p.step
	return true
}

// known adds a vector if it is not there.
func (p *packing) known(all []vector, v vector) []vector {
	p.t.spent += 1 + len(all)/8
	for _, o := range all {
		if o == v {
			return all
		}
	}
	return append(all, v)
}

// fits says whether there may be an answer under the limits. It is true too where that
// is more than can be gone through.
func (p *packing) fits(room []int64, until int) bool {
	g := grid{p: p}
	left := int64(0) // steps that the first three must have together
	for k, i := range p.who {
		if room[i] < p.t.base[i] {
			return false
		}
		if here := (room[i] - p.t.base[i]) / p.step; k < len(g.size) {
			g.size[k] = int32(here)
		} else {
			left = p.total - here
		}
	}
	g.words = int(g.size[0])/64 + 1
	count := g.words * int(g.size[1]+1) * int(g.size[2]+1)
	if count > maxPacks {
		return true
	}
	now, next := make([]uint64, count), make([]uint64, count)
	now[0] = 1
	g.needed(left)
	for _, all := range p.parts {
		if p.t.spent > until {
			return true
		}
		clear(next)
		g.narrow(all)
		for _, v := range all {
			g.shift(now, next, v)
		}
		now, next, g.from, g.to = next, now, g.least, g.most
	}
	return g.best(now) >= left
}
