package desk

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A key of sixty thousand parts, or brackets as deep, is refused before anything follows it down: in the page a
// stack without room ends the core, and nothing can catch that.
func TestNothingGoesDeep(t *testing.T) {
	deep := strings.Repeat("a.", MostFileBytes/2-100)
	for _, text := range []string{
		deep + "a = 1\n[b]\n", "[" + deep + "a]\nb = 1\n[c]\n", "[[" + deep + "a]]\nb = 1\n[c]\n",
		"a = " + strings.Repeat("[", MostFileBytes-100), "a = " + strings.Repeat("{b=", MostFileBytes/3-100), strings.Repeat("[", MostFileBytes-100),
	} {
		_, faults := ReadFile(text, today)
		require.NotEmpty(t, faults)
		require.True(t, Stops(faults), "%v", faults[0])
	}
}
