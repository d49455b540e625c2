package pack

// Bit is the model of one yes-or-no decision. The zero value expects both equally.
type Bit struct {
	tilt uint16 // chance of false in 1/65536, its top bit turned over so that zero is a half
	seen uint8  // how often it was used, at most slowest
}

const (
	half    = certain / 2
	slowest = 30 // from here on each decision moves the chance by 1/32
	edge    = 24 // chances stay this far from 0 and 1: 0.0005 bits for what always happens
	odds12  = 4096
	trusted = 4 // how many sightings a start value counts for
)

// Odds is a Bit that expects false falses times in 4096 and counts for as much as four
// sightings; Trust changes that.
func Odds(falses int) Bit {
	p := min(max(falses*(certain/odds12), edge), certain-edge)
	return Bit{tilt: uint16(p) ^ half, seen: trusted}
}

// Trust is the same Bit counting for so many sightings, at most 30.
func (b Bit) Trust(sightings int) Bit {
	b.seen = uint8(min(max(sightings, 0), slowest))
	return b
}

// Flag codes a decision and lets its model learn.
func (c *Coder) Flag(m *Bit, v bool) bool {
	v = c.split(uint32(m.tilt^half), v)
	m.learn(v)
	return v
}

// learn moves the chance towards what happened: by 1/(sightings + 1.5), which is
// Krichevsky and Trofimov's estimate (1981), until it has seen enough.
func (b *Bit) learn(v bool) {
	p, goal := int(b.tilt^half), certain-edge
	if v {
		goal = edge
	}
	p += (goal - p) * 2 / (2*int(b.seen) + 3)
	b.tilt = uint16(p) ^ half
	b.seen = min(b.seen+1, slowest)
}
