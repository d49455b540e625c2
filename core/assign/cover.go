package assign

import (
	"math/bits"
	"sort"
)

// cover solves level 1 in each part and gives an answer that is best in it, as far as that
// is proven. Where deep is set, it also finds who takes an item in some best answer, and
// drops the others from its able helpers.
func (t *task) cover(deep bool) *hand {
	h := newHand(t)
	kept := 0
	for c := range t.parts {
		p := &t.parts[c]
		if len(p.items) == 1 {
			h.give(p.items[0], lowest(t.items[p.items[0]].able))
			p.filled = true
			continue
		}
		p.loss = t.fill(h, p)
		if p.loss == 0 && !deep {
			p.filled = true
			continue
		}
		var d *diagram
		if t.spent < t.coverLimit(p) && t.clashes(p) <= maxClashes {
			d = newDiagram(t, p)
		}
		if d != nil && d.build() {
			d.keep(h)
			p.filled, p.least = true, p.loss
			if kept += d.arcs(); kept < maxKept {
				p.diagram = d
			}
		} else {
			p.least = t.leastLoss(p)
			p.filled = p.least == p.loss
			for _, j := range p.items {
				t.items[j].may = p.loss > 0
			}
		}
	}
	return h
}

// coverLimit is until how much work a part gets a diagram: the later levels need what is left,
// and where all of a part is covered they can do without.
func (t *task) coverLimit(p *part) int {
	if p.loss == 0 {
		return t.limit / 4
	}
	return t.limit / 2
}

func lowest(set uint64) int { return bits.TrailingZeros64(set) }

func ones(set uint64) int { return bits.OnesCount64(set) }

// fill covers what it can of a part, the worthiest first, moving others aside where that
// makes room, and gives the worth of what is left.
func (t *task) fill(h *hand, p *part) (loss int64) {
	order := append([]int32(nil), p.items...)
	t.byWorth(order)
	for _, j := range order {
		if !h.makeRoom(j, 2) {
			loss += t.items[j].worth
		}
	}
	return loss
}

// clashes is how often items of a part overlap.
func (t *task) clashes(p *part) (n int) {
	for _, j := range p.items {
		n += len(t.items[j].clash)
	}
	return n / 2
}

// byWorth puts items in order: the worthiest first, then those that fewer can take.
func (t *task) byWorth(order []int32) {
	sort.SliceStable(order, func(a, b int) bool { return t.before(order[a], order[b]) })
}

func (t *task) before(j, k int32) bool {
	a, b := &t.items[j], &t.items[k]
	if a.worth != b.worth {
		return a.worth > b.worth
	}
	return bits.OnesCount64(a.able) < bits.OnesCount64(b.able)
}

// makeRoom gives item j to somebody, if need be by moving what they have aside, and that
// again so many times. It takes nothing away from coverage; it changes nothing if it fails.
func (h *hand) makeRoom(j int32, depth int) bool {
	it := &h.t.items[j]
	if free := it.able &^ h.taken(j); free != 0 {
		h.give(j, lowest(free))
		return true
	}
	for set := it.able; set != 0 && depth > 0 && h.t.spent < h.t.limit/8; set &= set - 1 {
		mark := len(h.log)
		if i := lowest(set); h.aside(j, i, depth-1) {
			h.give(j, i)
			return true
		}
		h.undo(mark)
	}
	return false
}

// aside moves what helper i has at the time of item j to others.
func (h *hand) aside(j int32, i, depth int) bool {
	mark := len(h.log)
	for _, k := range h.t.items[j].clash {
		if int(h.to[k]) != i {
			continue
		}
		h.give(int32(k), Nobody)
		kept := h.t.items[k].able
		h.t.items[k].able &^= 1 << i
		moved := h.makeRoom(int32(k), depth)
		h.t.items[k].able = kept
		if !moved {
			h.undo(mark)
			return false
		}
	}
	// What was moved may have come back to i in a later step.
	return h.taken(j)>>i&1 == 0
}
