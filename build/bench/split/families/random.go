package families

// Random gives numbers that look random and are the same for the same seed on every
// machine and with every version of Go: SplitMix64 (Steele, Lea and Flood, "Fast splittable
// pseudorandom number generators", OOPSLA 2014; the constants from memory).
type Random struct{ state uint64 }

// NewRandom starts the numbers of a seed.
func NewRandom(seed uint64) *Random { return &Random{seed} }

// next gives 64 bits.
func (r *Random) next() uint64 {
	r.state += 0x9e3779b97f4a7c15
	z := r.state
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// Below gives a number from 0 to n-1; n is above 0. That small numbers come up a hair more
// often does not matter here.
func (r *Random) Below(n int) int { return int(r.next() >> 1 % uint64(n)) }

// Between gives a number from low to high, both included.
func (r *Random) Between(low, high int) int { return low + r.Below(high-low+1) }

// Percent is true that often of a hundred times.
func (r *Random) Percent(p int) bool { return r.Below(100) < p }

// Shuffle puts n things into another order by swapping them.
func (r *Random) Shuffle(n int, swap func(i, j int)) {
	for i := n - 1; i > 0; i-- {
		swap(i, r.Below(i+1))
	}
}
