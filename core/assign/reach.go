package assign

// reach is the loads that a helper can have at all: what they hold and any sum of loads of
// items that they are able to take.
type reach struct {
	base int64
	step int64    // each load is base plus whole steps
	bits []uint64 // which numbers of steps there are; nil: taken to be all
}

// maxReach bounds the number of steps that are looked at.
const maxReach = 1 << 14

func (t *task) reachOf(i int) reach {
	r := reach{base: t.base[i]}
	total := int64(0)
	for j := range t.items {
		if it := &t.items[j]; it.able>>i&1 != 0 {
			r.step = divisor(r.step, it.load)
			total += it.load
		}
	}
	r.step = max(r.step, 1)
	if total/r.step > maxReach || total/r.step*int64(len(t.items)) > maxReach*300 {
		return r
	}
	r.bits = make([]uint64, total/r.step/64+1)
	r.bits[0] = 1
	for j := range t.items {
		if it := &t.items[j]; it.able>>i&1 != 0 && it.load > 0 {
			r.add(it.load / r.step)
		}
	}
	t.spent += len(r.bits) * len(t.items) / 4
	return r
}

// add lets one more load of so many steps be had.
func (r *reach) add(steps int64) {
	words, rest := int(steps/64), steps%64
	for w := len(r.bits) - 1; w >= words; w-- {
		moved := r.bits[w-words] << rest
		if rest > 0 && w > words {
			moved |= r.bits[w-words-1] >> (64 - rest)
		}
		r.bits[w] |= moved
	}
}

// most is the largest load that there can be up to a limit, which is no less than base.
func (r *reach) most(limit int64) int64 {
	steps := (limit - r.base) / r.step
	if r.bits == nil {
		return r.base + steps*r.step
	}
	for steps = min(steps, int64(64*len(r.bits)-1)); r.bits[steps/64]>>(steps%64)&1 == 0; {
		steps--
	}
	return r.base + steps*r.step
}

// next is the least load that there can be above one that there can be, or a very large one.
func (r *reach) next(load int64) int64 {
	steps := (load-r.base)/r.step + 1
	if r.bits == nil {
		return r.base + steps*r.step
	}
	for ; steps < int64(64*len(r.bits)); steps++ {
		if r.bits[steps/64]>>(steps%64)&1 != 0 {
			return r.base + steps*r.step
		}
	}
	return MaxItems * MaxLoad
}
