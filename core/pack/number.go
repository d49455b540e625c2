package pack

import "math/bits"

// Number is the model of a whole number of any size up to 2^40 - 1, small ones being
// likelier. It learns how many digits it has (Elias's gamma code, 1975, with learned
// bits) and, for each count of digits, the first two behind the leading one. The zero
// value expects each size half as often as the one before.
type Number struct {
	more [numberBits]Bit    // at each size: is it longer?
	top  [numberBits][3]Bit // the two digits behind the leading one
	sign Bit
}

const (
	numberBits = 40
	rawStep    = 16 // so many raw bits at a time, well below the width of the interval
)

// Number codes 0 ≤ v < 2^40 (an encoder panics over it).
func (c *Coder) Number(m *Number, v uint64) uint64 {
	if c.encoding && v >= 1<<numberBits {
		misuse("a number over 2^40 - 1")
	}
	size := bits.Len64(v+1) - 1
	for n := range numberBits {
		if !c.Flag(&m.more[n], n < size) {
			return c.digits(m, v+1, n) - 1
		}
	}
	if c.bad {
		return 0
	}
	return 1<<numberBits - 1
}

// digits codes what follows the leading digit of a number with that many more.
func (c *Coder) digits(m *Number, v uint64, size int) uint64 {
	got, left := uint64(1), size
	for node := 0; left > 0 && node < 3; left-- {
		bit := c.Flag(&m.top[size][node], v>>(left-1)&1 == 1)
		got, node = got<<1, 2*node+1
		if bit {
			got, node = got|1, node+1
		}
	}
	if c.bad {
		return 1
	}
	return got<<left | c.Bits(v&(1<<left-1), left)
}

// Signed codes -2^40 < v < 2^40: the distance from zero, then the side.
func (c *Coder) Signed(m *Number, v int) int {
	size := int(c.Number(m, uint64(max(v, -v))))
	if size != 0 && c.Flag(&m.sign, v < 0) {
		return -size
	}
	return size
}

// Bits codes 0 ≤ v < 2^n, n ≤ 40, as it is. Nothing learns.
func (c *Coder) Bits(v uint64, n int) uint64 {
	if n < 0 || n > numberBits || c.encoding && v>>n != 0 {
		misuse("more bits than announced")
	}
	var got uint64
	for n > 0 {
		step := min(n, rawStep)
		n -= step
		got = got<<step | c.equal(v>>n&(1<<step-1), 1<<step)
	}
	return got
}

// Uniform codes 0 ≤ v < n, 1 ≤ n ≤ 2^24, where every value is as likely as the others.
func (c *Coder) Uniform(v, n int) int {
	if n < 1 || n > 1<<24 || c.encoding && (v < 0 || v >= n) {
		misuse("a value outside its range")
	}
	return int(c.equal(uint64(v), uint64(n)))
}
