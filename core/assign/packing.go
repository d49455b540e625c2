package assign

// packing is what must fall to a few helpers, be it as part of a part's answer: whether it can
// be shared out among them under limits is gone through exactly, for all loads that each of
// them can have (dynamic programming as for the knapsack problem; Martello and Toth, Knapsack
// Problems, 1990, section 2.6). What others could do as well is left out, so that what does
// not fit here fits nowhere.
type packing struct {
	t     *task
	who   []int // the helpers; what the last has is what is left
	step  int64 // every load is a whole multiple of it
	total int64 // steps that must fall to them, at least
	parts [][]vector
}

// vector is what the first three helpers have of a part, in steps.
type vector [3]int32

const (
	maxPacked  = 4       // helpers; one more than a vector has
	maxVectors = 256     // of one part
	maxPacks   = 1 << 21 // loads of the first three together
)

// newPacking gathers what must fall to a set of helpers; nil where it is too much.
func newPacking(t *task, set uint64) *packing {
	p := &packing{t: t}
	for rest := set; rest != 0; rest &= rest - 1 {
		p.who = append(p.who, lowest(rest))
	}
	// The one who offered most is last, since that one's loads are not gone through.
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
	if k < len(p.who)-1 {
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
	now := [][]vector{{{}}}
	for k, j := range d.p.items {
		it := &p.t.items[j]
		next := make([][]vector, len(d.layers[k+1].loss))
		for _, a := range d.layers[k].arcs {
			place := -1
			for n, i := range p.who {
				if i == int(a.who) {
					place = n
				}
			}
			for _, v := range now[a.from] {
				if place >= 0 {
					v = p.more(v, place, it.load)
				}
				next[a.to] = p.known(next[a.to], v)
			}
			if len(next[a.to]) > maxVectors {
				for _, j := range d.p.items {
					p.addItem(&p.t.items[j], set)
				}
				return
			}
		}
		now = next
	}
	p.parts, p.total = append(p.parts, now[0]), p.total+least/p.step
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

// fits says whether there may be an answer under the limits. It is true too where there are
// too many loads to go through.
func (p *packing) fits(room []int64) bool {
	var size vector
	last := p.who[len(p.who)-1]
	left := p.total
	for k, i := range p.who {
		if room[i] < p.t.base[i] {
			return false
		}
		if i != last {
			size[k] = int32((room[i] - p.t.base[i]) / p.step)
			left -= int64(size[k])
		}
	}
	words := int(size[0])/64 + 1
	rows := (int(size[1]) + 1) * (int(size[2]) + 1)
	if words*rows > maxPacks/64 {
		return true
	}
	now, next := make([]uint64, words*rows), make([]uint64, words*rows)
	now[0] = 1
	for _, all := range p.parts {
		clear(next)
		for _, v := range all {
			p.shift(now, next, words, size, v)
		}
		now, next = next, now
	}
	return p.ends(now, words, size, (room[last]-p.t.base[last])/p.step)
}

// shift adds one vector to all loads.
func (p *packing) shift(now, next []uint64, words int, size, v vector) {
	over, rest := int(v[0]/64), uint(v[0]%64)
	p.t.spent += len(now)/2 + 1
	for b := v[1]; b <= size[1]; b++ {
		for c := v[2]; c <= size[2]; c++ {
			from := now[int((b-v[1])*(size[2]+1)+c-v[2])*words:][:words]
			to := next[int(b*(size[2]+1)+c)*words:][:words]
			for w := over; w < words; w++ {
				to[w] |= from[w-over] << rest
				if rest > 0 && w > over {
					to[w] |= from[w-over-1] >> (64 - rest)
				}
			}
		}
	}
}

// ends says whether any of the loads leaves the last helper no more than there is room for.
func (p *packing) ends(now []uint64, words int, size vector, room int64) bool {
	for b := int32(0); b <= size[1]; b++ {
		for c := int32(0); c <= size[2]; c++ {
			row := now[int(b*(size[2]+1)+c)*words:][:words]
			for a := size[0]; a >= 0; a-- {
				if row[a/64]>>(a%64)&1 != 0 {
					if p.total-int64(a)-int64(b)-int64(c) <= room {
						return true
					}
					break
				}
			}
		}
	}
	return false
}
