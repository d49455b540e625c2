package pack

// Bit is the model of one yes-or-no decision. The zero value expects both equally and
// learns fast; Odds gives one that expects something.
type Bit struct {
	tilt uint16 // chance of false in 1/65536, its top bit turned over so that zero is a half
	seen uint8  // how often it was used, at most slowest
}

const (
	half    = certain / 2
	slowest = 30 // from here on each decision moves the chance by 1/32
	edge    = 24 // chances stay at least this far from 0 and 1, in 1/65536
	odds12  = 4096
	trusted = 4 // how many sightings a start value counts for
)

// Odds is a Bit that expects false falses times in 4096 (below 2 and above 4094 it stays
// a little away from never and always) and counts for as much as four sightings; Trust
// changes that.
func Odds(falses int) Bit {
	p := min(max(falses*(certain/odds12), edge), certain-edge)
	return Bit{tilt: uint16(p) ^ half, seen: trusted}
}

// Trust is the same Bit counting for so many sightings, 0 to 30; what lies outside is
// taken as the nearer of the two.
func (b Bit) Trust(sightings int) Bit {
	b.seen = uint8(min(max(sightings, 0), slowest))
	return b
}

// Flag codes a decision and lets its model learn. What has always been the same takes
// 0.0012 bits in the end.
func (c *Coder) Flag(m *Bit, v bool) bool {
	v = c.split(uint32(m.tilt^half), v)
	m.learn(v)
	return v
}

// learn moves the chance towards what happened: by 1/(sightings + 2), which is the
// estimate of Krichevsky and Trofimov, "The performance of universal encoding" (IEEE
// Transactions on Information Theory 27:2, 1981), until it has seen enough.
func (b *Bit) learn(v bool) {
	p, goal := int(b.tilt^half), certain-edge
	if v {
		goal = edge
	}
	p += (goal - p) / (int(b.seen) + 2)
	b.tilt = uint16(p) ^ half
	b.seen = min(b.seen+1, slowest)
}
