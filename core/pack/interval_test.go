package pack

import (
	"math/big"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"
)

// share is one step of the coder by itself: the part [from, from+width) of parts.
type share struct {
	from, width, parts uint64
	odds               bool // split, whose parts are 65536
}

func (s share) encode(c *Coder) {
	switch {
	case s.odds && s.from == 0:
		c.split(uint32(s.width), false)
	case s.odds:
		c.split(uint32(s.from), true)
	default:
		c.slice(s.from, s.width, s.parts)
	}
}

// decode tells whether the number read lies in the share, and narrows to it.
func (s share) decode(c *Coder) bool {
	switch {
	case s.odds && s.from == 0:
		return !c.split(uint32(s.width), false)
	case s.odds:
		return c.split(uint32(s.from), false)
	}
	at := c.slot(s.parts)
	c.slice(s.from, s.width, s.parts)
	return at >= s.from && at < s.from+s.width
}

// exact is the interval without a window: the low end and the width as whole numbers in
// units of 2^-(48 + 8 shifts). It is Witten, Neal and Cleary's interval (1987, figure 1),
// kept in numbers of any size.
type exact struct {
	low, width *big.Int
	shifts     int
}

// narrow takes a share of it, rounded down as the coder rounds, and widens it again by
// whole bytes.
func (e *exact) narrow(s share) {
	step := new(big.Int).Div(e.width, new(big.Int).SetUint64(s.parts))
	from := new(big.Int).Mul(step, new(big.Int).SetUint64(s.from))
	width := new(big.Int).Mul(step, new(big.Int).SetUint64(s.width))
	if s.from+s.width == s.parts {
		width.Sub(e.width, from)
	}
	e.low.Add(e.low, from)
	for e.width = width; e.width.Cmp(big.NewInt(1<<40)) <= 0; e.shifts++ {
		e.low.Lsh(e.low, 8)
		e.width.Lsh(e.width, 8)
	}
}

// number is a document as a whole number in the same units.
func (e *exact) number(data []byte) *big.Int {
	return new(big.Int).Lsh(new(big.Int).SetBytes(data), uint(8*(6+e.shifts-len(data))))
}

func (e *exact) holds(data []byte) bool {
	above := new(big.Int).Sub(e.number(data), e.low)
	return above.Sign() >= 0 && above.Cmp(e.width) < 0
}

// checkExactly codes steps and holds what comes out against exact arithmetic: the bytes
// lie in the interval, none shorter do, they read as the same steps, and they are as long
// as the product of all chances says, to a byte and the rounding.
func checkExactly(t *testing.T, steps []share) []byte {
	t.Helper()
	c, e, chance := NewEncoder(), &exact{new(big.Int), big.NewInt(1 << 48), 0}, big.NewRat(1, 1)
	for _, s := range steps {
		s.encode(c)
		e.narrow(s)
		chance.Mul(chance, new(big.Rat).SetFrac64(int64(s.width), int64(s.parts)))
		require.Equal(t, e.width.Uint64(), c.span)
	}
	data := c.Close()
	require.True(t, e.holds(data), "the bytes lie in the interval")
	for short := len(data) - 1; short >= max(0, e.shifts-slack, len(data)-3); short-- {
		// Among shorter bytes only the first at or above the low end can lie in it.
		unit := new(big.Int).Lsh(big.NewInt(1), uint(8*(6+e.shifts-short)))
		next := new(big.Int).Add(e.low, new(big.Int).Sub(unit, big.NewInt(1)))
		next.Sub(next.Div(next, unit).Mul(next, unit), e.low)
		require.GreaterOrEqual(t, next.Cmp(e.width), 0, "%d bytes would be enough", short)
	}
	d := NewDecoder(data)
	for i, s := range steps {
		require.True(t, s.decode(d), i)
	}
	require.NoError(t, d.Err())
	checkLength(t, len(data), len(steps), chance)
	return data
}

// checkLength: a document of n bytes has a chance of less than 256^-(n-1), so it is less
// than a byte longer than the ideal, log2(1/chance) (Witten, Neal and Cleary 1987). The
// coder's own chances are smaller than the exact ones by what rounding loses: less than
// 2^-16 of each, since up to 2^24 parts share a width of over 2^40; 2^-15 bits a step.
func checkLength(t *testing.T, bytes, steps int, chance *big.Rat) {
	t.Helper()
	if bytes == 0 {
		return
	}
	left := new(big.Rat).Mul(chance, new(big.Rat).SetInt(new(big.Int).Lsh(big.NewInt(1), uint(8*(bytes-1)))))
	power := func(base int64) *big.Int { return new(big.Int).Exp(big.NewInt(base), big.NewInt(int64(steps)), nil) }
	most := new(big.Rat).SetFrac(power(1<<16), power(1<<16-1))
	require.Negative(t, left.Cmp(most), "%d bytes for %d steps", bytes, steps)
}

// anyShare is a step of any sort; likely ones are as frequent as unlikely ones.
func anyShare(r *rand.Rand) share {
	if r.Intn(2) == 0 {
		odds := uint64([]int{edge, certain - edge, half, edge + r.Intn(certain-2*edge)}[r.Intn(4)])
		if r.Intn(2) == 0 {
			return share{0, odds, certain, true}
		}
		return share{odds, certain - odds, certain, true}
	}
	parts := uint64(1 + r.Intn(1<<24)>>r.Intn(24))
	from := uint64(r.Intn(int(parts)))
	return share{from, 1 + uint64(r.Intn(int(parts-from)))>>r.Intn(24), parts, false}
}

func TestTheIntervalAgainstExactArithmetic(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	for range 2_000 {
		steps := make([]share, r.Intn(80))
		for i := range steps {
			steps[i] = anyShare(r)
		}
		checkExactly(t, steps)
	}
}

// The low end creeps up to one half from below, which writes 0x7F 0xFF 0xFF …; then the
// upper side is taken, and all of these bytes have to change.
func TestACarryRunsThroughManyBytes(t *testing.T) {
	for long := 8; long < 60; long++ {
		steps := []share{{1, 2, 4, false}} // from 1/4 up to 3/4
		for range long {
			steps = append(steps, share{1, 2, 4, false})
		}
		upper := append(steps, share{2, 1, 4, false}, share{3, 1, 4, false})
		require.Equal(t, byte(0x80), checkExactly(t, upper)[0])
		lower := append(steps, share{1, 1, 4, false}, share{0, 1, 4, false})
		require.Equal(t, byte(0x7F), checkExactly(t, lower)[0])
	}
}

// What is as expected leaves zeros, which a document does without; but hostile bytes are
// not read on for ever.
func TestZerosAtTheEnd(t *testing.T) {
	flags := func(n int) []share {
		steps := make([]share, n)
		for i := range steps {
			steps[i] = share{0, half, certain, true} // a bit each
		}
		return steps
	}
	for _, c := range []struct{ flags, bytes int }{{0, 0}, {64, 0}, {71, 0}, {72, 1}, {800, 92}} {
		data := checkExactly(t, flags(c.flags))
		require.Len(t, data, c.bytes, "%d flags", c.flags)
	}
	d, read := NewDecoder(nil), 0
	for ; d.Err() == nil; read++ {
		d.split(half, false)
	}
	require.Equal(t, 72, read)
	require.False(t, d.split(edge, true), "nothing is read behind an error")
}
