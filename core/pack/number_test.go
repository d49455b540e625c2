package pack

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// edges are a number of each count of digits, its neighbours, and those whose first
// digits differ.
func edges() []uint64 {
	list := []uint64{0, 1<<40 - 1}
	for n := range 40 {
		p := uint64(1) << n
		for _, v := range []uint64{p - 1, p, p + 1, p + p/2, p + p/4, 2*p - 1} {
			list = append(list, min(v, 1<<40-1))
		}
	}
	return list
}

func TestNumbersComeBack(t *testing.T) {
	var calls []call
	for i, v := range edges() {
		calls = append(calls, call{what: aNumber, model: i, n: int(v)}, call{what: aSigned, model: i, n: int(v)}, call{what: aSigned, model: i, n: -int(v)})
	}
	comesBack(t, calls)
	for _, k := range calls {
		comesBack(t, []call{k})
	}
}

func TestBitsAndUniformComeBack(t *testing.T) {
	var calls []call
	for n := range 41 {
		for _, v := range []int{0, 1<<n - 1, 1 << n / 2, 1 << n / 3} {
			calls = append(calls, call{what: someBits, bound: n, n: v})
		}
	}
	for _, n := range []int{1, 2, 3, 10, 255, 256, 257, 65535, 65536, 1<<24 - 1, 1 << 24} {
		for _, v := range []int{0, n / 2, n - 1} {
			calls = append(calls, call{what: aUniform, bound: n, n: v})
		}
	}
	comesBack(t, calls)
	for _, k := range calls {
		comesBack(t, []call{k})
	}
}

// The zero Number gives each size half the chance of the one before, and as many bits as
// digits: Elias's gamma code ("Universal codeword sets", 1975), 2n+1 bits for a number
// whose successor has n+1 binary digits.
func TestAFreshNumberIsEliasGamma(t *testing.T) {
	for _, v := range edges() {
		if v == 1<<40-1 {
			continue // the only one of its size, which needs no end
		}
		var m Number
		c := NewEncoder()
		c.Account()
		c.Number(&m, v)
		digits := math.Floor(math.Log2(float64(v + 1)))
		require.InDelta(t, 2*digits+1, c.Spent()[0].Bits, 1e-4, v)
	}
}

func TestAChoiceComesBack(t *testing.T) {
	for n := 1; n <= mostKinds; n++ {
		c, m := NewEncoder(), NewChoice(n)
		for i := range 3 * n {
			c.Choose(&m, i%n)
		}
		d, read := NewDecoder(c.Close()), NewChoice(n)
		for i := range 3 * n {
			require.Equal(t, i%n, d.Choose(&read, -1))
		}
		require.NoError(t, d.Err())
		require.Equal(t, m, read)
	}
}

// A choice costs what its counts say, and they stay within their bounds however often it
// is made.
func TestAChoiceCountsAndForgets(t *testing.T) {
	m := Weighted(4, 8, 0, 1000)
	require.Equal(t, []uint16{8, 16, 2, 800}, m.counts[:m.n])
	c := NewEncoder()
	c.Account()
	c.Choose(&m, 1)
	require.InDelta(t, math.Log2(826./16), c.Spent()[0].Bits, 1e-4)
	copied := m
	for range 20_000 {
		c.Choose(&m, 0)
		var sum uint32
		for _, n := range m.counts[:m.n] {
			require.Positive(t, n)
			sum += uint32(n)
		}
		require.Equal(t, sum, m.sum)
		require.LessOrEqual(t, m.sum, uint32(mostSum))
	}
	require.Equal(t, []uint16{8, 24, 2, 800}, copied.counts[:copied.n], "a copy learns by itself")
	require.LessOrEqual(t, m.counts[3], uint16(2), "forgotten")
	many := make([]int, mostKinds)
	for i := range many {
		many[i] = 400
	}
	full := Weighted(many...)
	require.LessOrEqual(t, full.sum, uint32(mostSum))
}

// A value out of its range stops an encoder, and nothing else; a bound that cannot be
// stops both.
func TestMisuse(t *testing.T) {
	choice := NewChoice(3)
	var number Number
	for name, use := range map[string]func(*Coder){
		"number":    func(c *Coder) { c.Number(&number, 1<<40) },
		"signed":    func(c *Coder) { c.Signed(&number, -1<<40) },
		"least":     func(c *Coder) { c.Signed(&number, math.MinInt) },
		"choice":    func(c *Coder) { c.Choose(&choice, 3) },
		"negative":  func(c *Coder) { c.Choose(&choice, -1) },
		"none":      func(c *Coder) { c.Choose(&Choice{}, 0) },
		"bits":      func(c *Coder) { c.Bits(8, 3) },
		"uniform":   func(c *Coder) { c.Uniform(5, 5) },
		"below":     func(c *Coder) { c.Uniform(-1, 5) },
		"long text": func(c *Coder) { c.Text(Note, "four", 3) },
		"broken":    func(c *Coder) { c.Text(Note, "\xff", 3) },
		"surrogate": func(c *Coder) { c.Text(Note, "\xed\xa0\x80", 3) },
	} {
		require.Panics(t, func() { use(NewEncoder()) }, name)
		require.NotPanics(t, func() { use(NewDecoder([]byte{0x5A, 0xA5, 0x5A, 0xA5, 0x5A, 0xA5, 0x5A, 0xA5, 0x5A, 0xA5})) }, name)
	}
	for name, use := range map[string]func(*Coder){
		"too many bits": func(c *Coder) { c.Bits(0, 41) },
		"fewer":         func(c *Coder) { c.Bits(0, -1) },
		"of none":       func(c *Coder) { c.Uniform(0, 0) },
		"of too many":   func(c *Coder) { c.Uniform(0, 1<<24+1) },
		"no kind":       func(c *Coder) { c.Text(kinds, "", 3) },
	} {
		require.Panics(t, func() { use(NewEncoder()) }, name)
		require.Panics(t, func() { use(NewDecoder(nil)) }, name)
	}
	require.Panics(t, func() { NewDecoder(nil).Close() })
	require.Panics(t, func() { NewChoice(0) })
	require.Panics(t, func() { NewChoice(mostKinds + 1) })
}

func TestFail(t *testing.T) {
	c := NewEncoder()
	c.Fail()
	require.NoError(t, c.Err())
	require.True(t, c.Encoding())
	d, m := NewDecoder([]byte{0xFF, 0xFF, 0xFF}), newModels()
	require.False(t, d.Encoding())
	d.Fail()
	require.ErrorIs(t, d.Err(), ErrBad)
	for what := range whats {
		k := call{what: what, model: 1, bound: 5}
		require.Equal(t, k, k.run(d, m), fmt.Sprint(what))
	}
}
