package picture_test

import (
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
	require.Greater(t, picture.Width("ñ", 10), picture.Width("n", 10))
}

func TestWrapped(t *testing.T) {
	require.Equal(t, []string{"Drive to", "the hospital"}, picture.Wrapped(" Drive to  the hospital ", 10, 52))
	require.Equal(t, []string{"Krankenhausverwaltung", "a"}, picture.Wrapped("Krankenhausverwaltung a", 10, 20))
	require.Empty(t, picture.Wrapped(" ", 10, 20))
	for _, line := range picture.Wrapped("Stay with Rosa in the afternoon and make a meal", 15, 120) {
		require.LessOrEqual(t, picture.Width(line, 15), 120.0)
	}
}
