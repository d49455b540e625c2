package pack

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestLog2AgainstTheLibrary(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	for i := range 5_000 {
		v := uint64(i + 1)
		if i >= 1000 {
			v = uint64(1 + r.Int63n(1<<32-1))
		}
		require.InDelta(t, math.Log2(float64(v)), float64(log2(v))/(1<<billDigits), 3./(1<<billDigits), v)
	}
}

// What the parts take is what the document takes: Spent says how much they may differ.
func TestThePartsAddUp(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	for range 200 {
		c, b := NewEncoder(), Bit{}
		plain, bPlain := NewEncoder(), Bit{}
		c.Account()
		for range r.Intn(300) {
			v := r.Intn(3) == 0
			c.Part([]string{"flags", "bits", "texts"}[r.Intn(3)])
			c.Flag(&b, v)
			c.Bits(5, 3)
			plain.Flag(&bPlain, v)
			plain.Bits(5, 3)
		}
		c.Part("texts")
		c.Text(Note, "ring the side door", 40)
		plain.Text(Note, "ring the side door", 40)
		bits, names := 0.0, map[string]bool{}
		for _, p := range c.Spent() {
			require.False(t, names[p.Name], "each name comes once")
			names[p.Name] = true
			bits += p.Bits
		}
		require.Equal(t, "", c.Spent()[0].Name)
		data := c.Close()
		require.Less(t, float64(8*len(data)), bits+8)
		require.Greater(t, float64(8*len(data)), bits-8*(slack+1))
		require.Equal(t, plain.Close(), data, "counting changes nothing")
		require.Nil(t, plain.Spent())
	}
}
