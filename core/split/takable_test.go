package split

import (
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"
)

// What Takable promises, Suggest keeps: on families made by chance. That it is false where nobody is
// free, although a suggestion would have two people change, is seen too.
func TestTakableIsKeptByTheSuggestion(t *testing.T) {
	r := rand.New(rand.NewSource(9))
	var promised, more, nothing int
	for range 1500 {
		s := build(t, randomFamily(t, r))
		ask := randomAsk(r, s)
		ask.Scope = FillOpen
		if r.Intn(3) == 0 {
			ask.Fixed = func(duty int) bool { return duty%3 == 0 }
		} else {
			ask.Fixed = func(int) bool { return false }
		}
		gives := false
		for _, line := range Suggest(s, ask).Lines {
			gives = gives || line.To != 0
		}
		takable := Look(s, ask.Now).Takable(ask.Fixed)
		switch {
		case takable:
			promised++
			require.True(t, gives)
		case gives:
			more++
		default:
			nothing++
		}
	}
	require.Positive(t, promised)
	require.Positive(t, more)
	require.Positive(t, nothing)
	t.Logf("promised and kept: %d; only by people's changing with one another: %d; nothing can be filled: %d", promised, more, nothing)
}
