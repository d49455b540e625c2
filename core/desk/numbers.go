package desk

// numbers draws the numbers of new plans. They only have to be different, on one desk and
// between desks; nothing is kept secret by them. The generator is SplitMix64 (G. L. Steele Jr.,
// D. Lea and C. H. Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014), whose
// start is the device's chance.
type numbers struct {
	state uint64
	taken map[uint32]bool
}

// newNumbers starts from chance, 16 bytes of the device's own.
func newNumbers(chance []byte) *numbers {
	n := &numbers{taken: map[uint32]bool{}}
	var seed [16]byte
	copy(seed[:], chance)
	n.state = whole64(seed[:8])
	n.state = n.draw() ^ whole64(seed[8:])
	return n
}

// whole64 reads a number of eight bytes, the highest first.
func whole64(b []byte) (n uint64) {
	for _, octet := range b {
		n = n<<8 | uint64(octet)
	}
	return n
}

// draw gives the next 64 bits.
func (n *numbers) draw() uint64 {
	n.state += 0x9E3779B97F4A7C15
	z := n.state
	z = (z ^ z>>30) * 0xBF58476D1CE4E5B9
	z = (z ^ z>>27) * 0x94D049BB133111EB
	return z ^ z>>31
}

// take marks a number as used.
func (n *numbers) take(number uint32) { n.taken[number] = true }

// next draws a number that no plan of the table has. 0 is none: it would be that of a plan
// that nobody numbered.
func (n *numbers) next() uint32 {
	for {
		if number := uint32(n.draw() >> 32); number != 0 && !n.taken[number] {
			n.take(number)
			return number
		}
	}
}
