package assign

// keep finds the best answers of the part, gives one of them to the hand, and keeps of each
// item's able helpers those who have it in some best answer.
func (d *diagram) keep(h *hand) {
	last := len(d.p.items)
	best := d.layers[last].loss[0]
	d.p.loss = best
	d.layers[last].after = make([]int64, len(d.layers[last].loss))
	for k := last - 1; k >= 0; k-- {
		d.back(k, best)
	}
	for _, j := range d.p.items {
		h.give(j, Nobody)
	}
	state := int32(0)
	for k, j := range d.p.items {
		for _, a := range d.layers[k].arcs {
			if a.from == state {
				h.give(j, int(a.who))
				state = a.to
				break
			}
		}
	}
}

func (d *diagram) cost(k int, a arc) int64 {
	if a.who == Nobody {
		return d.t.items[d.p.items[k]].worth
	}
	return 0
}

// back works out after of the layer at place k, and what its item does in best answers.
func (d *diagram) back(k int, best int64) {
	l := &d.layers[k]
	l.after = make([]int64, len(l.loss))
	for s := range l.after {
		l.after[s] = best + 1
	}
	it := &d.t.items[d.p.items[k]]
	l.masks = nil
	it.able, it.may = 0, false
	kept := l.arcs[:0]
	for _, a := range l.arcs {
		sum := d.cost(k, a) + d.layers[k+1].after[a.to]
		l.after[a.from] = min(l.after[a.from], sum)
		if l.loss[a.from]+sum > best {
			continue
		}
		kept = append(kept, a)
		if a.who == Nobody {
			it.may = true
		} else {
			it.able |= 1 << a.who
		}
	}
	it.never = it.able == 0
	l.arcs = kept
}

// inside is the least load that helpers of a set have of the part in any of its best answers.
func (d *diagram) inside(set uint64, now, next []int64) int64 {
	now = append(now[:0], 0)
	for k, j := range d.p.items {
		next = next[:0]
		for range d.layers[k+1].loss {
			next = append(next, endless)
		}
		load := d.t.items[j].load
		for _, a := range d.layers[k].arcs {
			sum := now[a.from]
			if a.who != Nobody && set>>a.who&1 != 0 {
				sum += load
			}
			next[a.to] = min(next[a.to], sum)
		}
		now, next = next, now
	}
	return now[0]
}

// arcs is how many arcs the diagram has.
func (d *diagram) arcs() (n int) {
	for k := range d.layers {
		n += len(d.layers[k].arcs)
	}
	return n
}
