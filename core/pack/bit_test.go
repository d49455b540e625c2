package pack

import (
	"math/big"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"
)

// odds is a Bit's chance of false in 1/65536.
func (b Bit) odds() int { return int(b.tilt ^ half) }

// After f falses of n decisions the estimate is (f + 1/2)/(n + 1): Krichevsky and
// Trofimov, "The performance of universal encoding" (1981), equation from memory. The
// coder rounds each move to 1/65536 and aims edge short of 0 and 1.
func TestABitAgainstKrichevskyAndTrofimov(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	for range 500 {
		var b Bit
		falses, chance := 0, r.Intn(101)
		for n := range slowest + 1 {
			estimate := big.NewRat(int64(2*falses+1), int64(2*n+2))
			off := new(big.Rat).Sub(big.NewRat(int64(b.odds()), certain), estimate)
			require.LessOrEqual(t, off.Abs(off).Cmp(big.NewRat(edge+int64(n), certain)), 0, "%d of %d", falses, n)
			v := r.Intn(100) < chance
			if !v {
				falses++
			}
			b.learn(v)
		}
	}
}

// From slowest sightings on, a chance goes the same part of its way each time.
func TestABitForgets(t *testing.T) {
	b := Odds(4096).Trust(slowest)
	for range 500 {
		before := b.odds()
		b.learn(true)
		require.Equal(t, before-(before-edge)/32, b.odds())
	}
}

func TestOddsAndTrust(t *testing.T) {
	for falses, want := range map[int]int{-1: edge, 0: edge, 1: edge, 2: 32, 2048: half, 4094: certain - 32, 4095: certain - edge, 4096: certain - edge, 1 << 20: certain - edge} {
		require.Equal(t, want, Odds(falses).odds(), falses)
	}
	require.Equal(t, half, Bit{}.odds())
	for sightings, want := range map[int]uint8{-1: 0, 0: 0, 7: 7, 30: 30, 31: 30, 300: 30} {
		require.Equal(t, want, Odds(2048).Trust(sightings).seen, sightings)
	}
}

// A chance never comes so near to 0 or 1 that a decision has no width, and what always
// happens costs next to nothing.
func TestABitAtTheEdge(t *testing.T) {
	for _, v := range []bool{false, true} {
		c, read, b := NewEncoder(), Bit{}, Bit{}
		for range 10_000 {
			c.Flag(&b, v)
			require.True(t, b.odds() >= edge && b.odds() <= certain-edge)
		}
		c.Flag(&b, !v)
		data := c.Close()
		require.LessOrEqual(t, 8*len(data), 7+9+12+11, "half the logarithm of 10,000 and a bit to learn it, 0.0012 bits each, 11 for the last, and the rest of a byte")
		d := NewDecoder(data)
		for range 10_000 {
			require.Equal(t, v, d.Flag(&read, !v), "the value handed in is not looked at")
		}
		require.Equal(t, !v, d.Flag(&read, v))
		require.NoError(t, d.Err())
		require.Equal(t, b, read, "both have learned the same")
	}
}
