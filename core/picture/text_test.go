package picture_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/picture"
)

// The table hmtx of the typeface: "T" is 558 thousandths, "o" 548, a figure 1 is 407 (read
// with fontTools 4.38).
func TestWidth(t *testing.T) {
	require.InDelta(t, 55.8+54.8, picture.Width("To", 100), 2)
	require.InDelta(t, 4.07, picture.Width("1", 10), 0.1)
	require.Zero(t, picture.Width("", 10))
	require.Equal(t, picture.Width("To", 10), picture.Width("\u200f\u202eTo\u202c\u200f", 10), "what says the direction has no width")
	require.Greater(t, picture.Width("ñ", 10), picture.Width("n", 10))
}

func TestWrapped(t *testing.T) {
	require.Equal(t, []string{"Drive to the", "hospital"}, picture.Wrapped(" Drive to the  hospital ", 10, picture.Width("Drive to the", 10)))
	require.Equal(t, []string{"Krankenhausverwaltung", "a"}, picture.Wrapped("Krankenhausverwaltung a", 10, 20))
	require.Empty(t, picture.Wrapped(" ", 10, 20))
	// Greedy: no line is too long, and none could have taken the next word.
	lines := picture.Wrapped("Stay with Rosa in the afternoon and make a meal", 15, 120)
	for i, line := range lines {
		require.LessOrEqual(t, picture.Width(line, 15), 120.0)
		if i > 0 {
			next, _, _ := strings.Cut(line, " ")
			require.Greater(t, picture.Width(lines[i-1]+" "+next, 15), 120.0)
		}
	}
	require.Equal(t, "Stay with Rosa in the afternoon and make a meal", strings.Join(lines, " "))
}
