package assign

// diagram is a part as a graph of states in order of time, whose paths are its answers: a
// decision diagram. A state is what the items so far leave: for each later item that
// overlaps one of them, the helpers who are no longer free for it.
type diagram struct {
	t      *task
	p      *part
	later  [][]int32 // by place in the part: later places that it overlaps
	layers []layer
}

// layer holds the states before one item.
type layer struct {
	open  []int32  // later places that an earlier item overlaps, this layer's own first
	masks []uint64 // by state, then by open: helpers who are not free
	loss  []int64  // by state: least worth left uncovered on the way to it
	arcs  []arc
	after []int64 // by state: least worth left uncovered from it on
}

type arc struct {
	from, to int32
	who      int8
}

const (
	maxClashes = 30_000  // in one part
	maxStates  = 6000    // in one layer
	maxArcs    = 60000   // in one part
	maxKept    = 200_000 // in all parts
)

func newDiagram(t *task, p *part) *diagram {
	place := map[int16]int32{}
	for k, j := range p.items {
		place[int16(j)] = int32(k)
	}
	d := &diagram{t: t, p: p, later: make([][]int32, len(p.items))}
	for k, j := range p.items {
		for _, c := range t.items[j].clash {
			if int32(c) > j {
				d.later[k] = append(d.later[k], place[c])
			}
		}
	}
	return d
}

// build makes the states and arcs of all answers that leave no more uncovered than the best
// that is known. It gives false where there are too many.
func (d *diagram) build() bool {
	d.layers = make([]layer, 1, len(d.p.items)+1)
	d.layers[0].loss = []int64{0}
	arcs := 0
	for k := range d.p.items {
		if !d.next(k) {
			return false
		}
		arcs += len(d.layers[k].arcs)
		if arcs > maxArcs {
			return false
		}
	}
	return true
}

// next makes the layer after place k.
func (d *diagram) next(k int) bool {
	from := &d.layers[k]
	it := &d.t.items[d.p.items[k]]
	own := len(from.open) > 0 && from.open[0] == int32(k)
	to := layer{open: merged(from.open, d.later[k], own)}
	if len(to.open) > 64 {
		return false
	}
	table := newTable(len(to.open))
	fresh := make([]uint64, len(to.open))
	for s, loss := range from.loss {
		masks := from.masks[s*len(from.open) : (s+1)*len(from.open)]
		able := it.able
		if own {
			able &^= masks[0]
		}
		for set := able; ; set &= set - 1 {
			who := Nobody
			sum := loss
			if set != 0 {
				who = lowest(set)
			} else {
				sum += it.worth
			}
			if sum <= d.p.loss {
				d.shift(fresh, from, masks, &to, k, who)
				state := table.place(&to, fresh, sum)
				from.arcs = append(from.arcs, arc{int32(s), state, int8(who)})
			}
			if set == 0 {
				break
			}
		}
		if len(to.loss) > maxStates || len(from.arcs) > maxArcs {
			d.t.spent += len(from.arcs) * (2 + len(to.open))
			return false
		}
	}
	d.t.spent += len(from.arcs) * (2 + len(to.open))
	d.layers = append(d.layers, to)
	return true
}

func merged(open, later []int32, own bool) (all []int32) {
	if own {
		open = open[1:]
	}
	for len(open) > 0 || len(later) > 0 {
		switch {
		case len(later) == 0 || len(open) > 0 && open[0] < later[0]:
			all, open = append(all, open[0]), open[1:]
		case len(open) == 0 || later[0] < open[0]:
			all, later = append(all, later[0]), later[1:]
		default:
			all, open, later = append(all, open[0]), open[1:], later[1:]
		}
	}
	return all
}

// shift writes the state after place k goes to a helper.
func (d *diagram) shift(fresh []uint64, from *layer, masks []uint64, to *layer, k, who int) {
	a, b := 0, 0
	for n, later := range to.open {
		fresh[n] = 0
		for a < len(from.open) && from.open[a] < later {
			a++
		}
		if a < len(from.open) && from.open[a] == later {
			fresh[n] = masks[a]
		}
		for b < len(d.later[k]) && d.later[k][b] < later {
			b++
		}
		if who != Nobody && b < len(d.later[k]) && d.later[k][b] == later {
			fresh[n] |= 1 << who & d.t.items[d.p.items[later]].able
		}
	}
}

// table finds the states of a layer that are there already.
type table struct {
	slots []int32 // 1 + state, or 0
	width int
}

func newTable(width int) *table { return &table{make([]int32, 64), width} }

func (tb *table) place(l *layer, masks []uint64, loss int64) int32 {
	if 2*len(l.loss) >= len(tb.slots) {
		tb.slots = make([]int32, 2*len(tb.slots))
		for s := range l.loss {
			tb.slots[tb.slot(l, l.masks[s*tb.width:(s+1)*tb.width])] = int32(s + 1)
		}
	}
	slot := tb.slot(l, masks)
	if tb.slots[slot] == 0 {
		l.masks = append(l.masks, masks...)
		l.loss = append(l.loss, loss)
		tb.slots[slot] = int32(len(l.loss))
	}
	state := tb.slots[slot] - 1
	l.loss[state] = min(l.loss[state], loss)
	return state
}

func (tb *table) slot(l *layer, masks []uint64) int {
	hash := uint64(14695981039346656037)
	for _, m := range masks {
		hash = (hash ^ m) * 0x9E3779B97F4A7C15
		hash ^= hash >> 29
	}
	at := int(hash % uint64(len(tb.slots)))
	for tb.slots[at] != 0 {
		s := int(tb.slots[at] - 1)
		if same(l.masks[s*tb.width:(s+1)*tb.width], masks) {
			break
		}
		at++
		if at == len(tb.slots) {
			at = 0
		}
	}
	return at
}

func same(a, b []uint64) bool {
	for k := range a {
		if a[k] != b[k] {
			return false
		}
	}
	return true
}
