package pack

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// squash is 1/(1 + e^-x) and stretch is ln(p/(1-p)) (Mahoney, "Data Compression
// Explained", 4.3.2), here held against the standard library's floating point.
func TestSquashAgainstExp(t *testing.T) {
	for x := -farthest; x <= farthest; x++ {
		require.InDelta(t, certain/(1+math.Exp(-float64(x)/unit)), squash(x), 4.5, x)
	}
	require.Equal(t, squash(-farthest), squash(-1<<40))
	require.Equal(t, squash(farthest), squash(1<<40))
	require.Equal(t, half, squash(0))
}

func TestStretchAgainstLog(t *testing.T) {
	for i := range stretched {
		p := (float64(i) + 0.5) / float64(len(stretched)) // the middle of what is looked up here
		want := math.Min(math.Max(math.Log(p/(1-p))*unit, -farthest), farthest)
		got := stretch(i * certain / len(stretched))
		if -farthest < got && got < farthest {
			require.True(t, float64(squash(got-1)) < p*certain && float64(squash(got)) >= p*certain, "the least whose chance is as large")
		}
		if p > 1./64 && p < 63./64 {
			require.InDelta(t, want, got, 2, i)
		}
		require.Equal(t, got, stretch(i*certain/len(stretched)+certain/len(stretched)-1))
	}
}

// A learned chance is near how often something happened, and stays within its bits.
func TestAChanceLearns(t *testing.T) {
	for _, limit := range []int{lastLimit, mapLimit, 1023} {
		c := even(half)
		for i := range 100_000 {
			c.learn(i%4 == 0, limit)
			require.LessOrEqual(t, int(c&1023), limit)
		}
		require.InDelta(t, certain/4, c.p16(), certain/float64(limit), limit)
		for range 100_000 {
			c.learn(true, limit)
		}
		require.Greater(t, c.p16(), certain-certain/50)
		require.Less(t, c.p16(), certain)
		for range 100_000 {
			c.learn(false, limit)
		}
		require.Less(t, c.p16(), certain/50)
	}
}

// counts hold at most 15 of each, and never 15 of both, for which nothing is prepared.
func TestCountsStayInFourBits(t *testing.T) {
	seen := map[counts]bool{0: true}
	for left := []counts{0}; len(left) > 0; left = left[1:] {
		for _, v := range []bool{false, true} {
			next := left[0].after(v)
			falses, trues := next.both()
			require.True(t, falses+trues > 0 && falses+trues == next.sum() && next != 0xFF)
			require.True(t, next.p16() > 0 && next.p16() < certain)
			if !seen[next] {
				seen[next], left = true, append(left, next)
			}
		}
	}
	require.False(t, seen[0xFF])
}
