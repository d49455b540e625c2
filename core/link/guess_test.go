package link

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestTheNumberOfACutLinkIsGuessed(t *testing.T) {
	d := docOf(withFamily(t))
	fragment := Encode(d)
	for _, cut := range []string{fragment, fragment[:len(fragment)-1], fragment[:len(fragment)/2], fragment[:8]} {
		number, ok := Guess(cut)
		require.True(t, ok)
		require.Equal(t, d.Number, number)
	}
	// The last version whose head stands where today's does is 31, the letter f.
	number, ok := Guess("f" + fragment[1:])
	require.True(t, ok)
	require.Equal(t, d.Number, number)
	for _, not := range []string{"", "A", fragment[:7], "gAAAAAAAAAAA", "AAAAAAAAAAAAA", "????????", "ab\ncdefgh"} {
		_, ok := Guess(not)
		require.False(t, ok, not)
	}
}
