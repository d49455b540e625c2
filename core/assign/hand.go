package assign

import "math/bits"

// hand is a split that is being worked on: who has what, and the sums that follow from it.
type hand struct {
	t      *task
	to     []int8
	load   []int64   // by helper
	have   [][]int16 // by series and helper: how many dates, the held ones apart
	pairs  int
	rather int
	moves  int
	loss   int64
	log    []step // what was given, so that it can be taken back
}

type step struct {
	item int32
	from int8
}

func newHand(t *task) *hand {
	h := &hand{t: t, to: make([]int8, len(t.items)), load: append([]int64(nil), t.base...)}
	flat := make([]int16, len(t.series)*len(t.offer))
	for s := range t.series {
		h.have = append(h.have, flat[s*len(t.offer):(s+1)*len(t.offer)])
		h.pairs += bits.OnesCount64(t.series[s].held)
	}
	for j := range t.items {
		h.to[j] = Nobody
		h.loss += t.items[j].worth
		if t.items[j].now != Nobody {
			h.moves++
		}
	}
	return h
}

// taken is the set of helpers who have something at the time of item j.
func (h *hand) taken(j int32) (set uint64) {
	clash := h.t.items[j].clash
	h.t.spent += len(clash) >> 3
	for _, k := range clash {
		if i := h.to[k]; i != Nobody {
			set |= 1 << i
		}
	}
	return set
}

// give gives item j to helper i, or to Nobody, and notes it in the log.
func (h *hand) give(j int32, i int) {
	from := int(h.to[j])
	if from == i {
		return
	}
	h.log = append(h.log, step{j, int8(from)})
	h.put(j, from, i)
}

func (h *hand) put(j int32, from, i int) {
	it := &h.t.items[j]
	held, have := h.t.series[it.series].held, h.have[it.series]
	if from != Nobody {
		have[from]--
		if have[from] == 0 && held>>from&1 == 0 {
			h.pairs--
		}
		h.load[from] -= it.load
		h.loss += it.worth
		if it.rather != nil {
			h.rather -= int(it.rather[from])
		}
	}
	if i != Nobody {
		have[i]++
		if have[i] == 1 && held>>i&1 == 0 {
			h.pairs++
		}
		h.load[i] += it.load
		h.loss -= it.worth
		if it.rather != nil {
			h.rather += int(it.rather[i])
		}
	}
	if it.now != Nobody {
		if from == int(it.now) {
			h.moves++
		}
		if i == int(it.now) {
			h.moves--
		}
	}
	h.to[j] = int8(i)
}

// undo takes back what was given since the log had so many lines.
func (h *hand) undo(mark int) {
	for len(h.log) > mark {
		last := h.log[len(h.log)-1]
		h.log = h.log[:len(h.log)-1]
		h.put(last.item, int(h.to[last.item]), int(last.from))
	}
}

// square is the sum of level 5.
func (h *hand) square() (sum int64) {
	for i, l := range h.load {
		sum += h.t.scale[i] * l * l
	}
	return sum
}

// peak is the largest load over offer.
func (h *hand) peak() Ratio {
	most := Ratio{0, 1}
	for i, l := range h.load {
		if here := (Ratio{l, h.t.offer[i]}); most.below(here) {
			most = here
		}
	}
	return ratio(most.Num, most.Den)
}

// restore gives everything as it was noted.
func (h *hand) restore(to []int8) {
	for j := range to {
		h.put(int32(j), int(h.to[j]), int(to[j]))
	}
	h.log = h.log[:0]
}

// over is how many minutes are above the caps.
func (h *hand) over(caps []int64) (sum int64) {
	for i, l := range h.load {
		if l > caps[i] {
			sum += l - caps[i]
		}
	}
	return sum
}
