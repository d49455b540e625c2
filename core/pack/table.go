package pack

// table holds for each context and node which decisions were taken there. It is a hash
// table that overwrites what it has seen least when it is full.
type table struct {
	checks [1 << tableBits]uint16
	counts [1 << tableBits]counts
}

const (
	tableBits = 18
	near      = 8 // places looked at, side by side
)

// place finds where a context's counts at a node are, and makes room for them if asked
// to; -1 if there are none.
func (t *table) place(context uint32, node int, make bool) int {
	x := (uint64(context)<<8 ^ uint64(node)) * 0x9E3779B97F4A7C15
	x ^= x >> 29
	x *= 0xBF58476D1CE4E5B9
	at, check := int(x>>(64-tableBits)), uint16(x>>16)|1
	for k := range near {
		switch t.checks[at^k] {
		case check:
			return at ^ k
		case 0:
			return t.take(at^k, check, make)
		}
	}
	if !make {
		return -1
	}
	spot := at
	for k := range near {
		if t.counts[at^k].sum() < t.counts[spot].sum() {
			spot = at ^ k
		}
	}
	return t.take(spot, check, make)
}

func (t *table) take(at int, check uint16, make bool) int {
	if !make {
		return -1
	}
	t.checks[at], t.counts[at] = check, 0
	return at
}

// counts is how often a decision was false, in the upper four bits, and true.
type counts uint8

const (
	most4  = 15
	recall = 5 // of what the last decision contradicts, counts above this are halved
)

func (c counts) both() (falses, trues int) { return int(c >> 4), int(c & most4) }

func (c counts) sum() int { return int(c>>4) + int(c&most4) }

func (c counts) after(v bool) counts {
	same, other := c>>4, c&most4
	if v {
		same, other = other, same
	}
	same = min(same+1, most4)
	if other > recall {
		other = recall + (other-recall)/2
	}
	if v {
		same, other = other, same
	}
	return same<<4 | other
}

// p16 is a first guess at the chance of true.
func (c counts) p16() int {
	f, t := c.both()
	return (10*t + 4) * certain / (10*(f+t) + 8)
}
