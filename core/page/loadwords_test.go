package page

import (
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/guide"
	"newel/core/split"
)

// The hours over an offer are the difference of the two numbers beside them, by hand; and what
// somebody has who offers nothing stands beyond the post.
func TestWhatIsOverAnOfferAddsUp(t *testing.T) {
	m := &maker{v: guide.Voice{Book: guide.Open("en")}}
	for _, c := range []struct {
		after, offer int
		now, said    string
	}{
		{605, 600, "10", ""}, {600, 600, "10", ""}, {620, 600, "10½", "half an hour more than offered"},
		{660, 600, "11", "an hour more than offered"}, {690, 600, "11½", "1½ hours more than offered"},
		{614, 586, "10", ""}, {5, 600, "½", ""}, {0, 600, "0", ""}, {1200, 0, "20", ""},
	} {
		l := split.Load{After: c.after, Before: c.after, Offer: c.offer}
		require.Equal(t, c.now, halves(c.after), c)
		require.Equal(t, c.said, m.overBy(l), c)
	}
	require.Equal(t, Bar{Now: 100, Was: -1}, newBar(split.Load{After: 300, Before: 300}, 1, false))
	require.Equal(t, Bar{Was: -1}, newBar(split.Load{}, 1, false))
}
