package pack

// Choice is the model of one of a few things. It counts how often each was chosen.
// Make one with NewChoice or Weighted; the zero value is a choice between none.
type Choice struct {
	counts [mostKinds]uint16 // of the first n
	sum    uint32
	n      int
}

const (
	sighting  = 8       // what a choice adds to its count
	weight    = 2       // a weight of 4 counts as much as a sighting
	mostSum   = 1 << 13 // beyond it old counts are halved
	mostKinds = 64
)

// NewChoice expects each of n things equally, 1 ≤ n ≤ 64.
func NewChoice(n int) Choice {
	weights := make([]int, n)
	for i := range weights {
		weights[i] = 2
		if n > 8 {
			weights[i] = 1
		}
	}
	return Weighted(weights...)
}

// Weighted expects things by their weights. A weight of 4 is worth one sighting, so
// large weights are slow to unlearn. A weight under 1 counts as 1; over 400, as 400.
func Weighted(weights ...int) Choice {
	if len(weights) < 1 || len(weights) > mostKinds {
		misuse("a choice between none or too many things")
	}
	c := Choice{n: len(weights)}
	for i, w := range weights {
		c.counts[i] = uint16(min(max(w, 1), 400) * weight)
		c.sum += uint32(c.counts[i])
	}
	c.fade()
	return c
}

// Choose codes 0 ≤ v < the number of things. A choice between one takes no bits.
func (c *Coder) Choose(m *Choice, v int) int {
	if c.encoding && (v < 0 || v >= m.n) {
		misuse("a choice that is not on offer")
	}
	if c.bad || m.n < 2 {
		return 0
	}
	var from uint32
	if c.encoding {
		for _, n := range m.counts[:v] {
			from += uint32(n)
		}
	} else {
		v, from = m.find(uint32(c.slot(uint64(m.sum))))
	}
	c.slice(uint64(from), uint64(m.counts[v]), uint64(m.sum))
	m.counts[v] += sighting
	m.sum += sighting
	m.fade()
	return v
}

// find gives the thing whose share of the sum holds a place, and where it begins.
func (m *Choice) find(place uint32) (int, uint32) {
	var from uint32
	for v, n := range m.counts[:m.n-1] {
		if place < from+uint32(n) {
			return v, from
		}
		from += uint32(n)
	}
	return m.n - 1, from
}

// fade halves all counts once they are large, so that the latest weigh more.
func (m *Choice) fade() {
	for m.sum > mostSum {
		m.sum = 0
		for i := range m.n {
			m.counts[i] = (m.counts[i] + 1) / 2
			m.sum += uint32(m.counts[i])
		}
	}
}
