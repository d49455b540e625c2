package bench

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// listing of a contender that lists always the same.
func saying(what string, onWall bool, l listing) *contender {
	return &contender{what: what, onWall: onWall, list: func() (listing, error) { return l, nil }}
}

func TestAllMustListTheSameDates(t *testing.T) {
	ours := listing{Dates: 10, Sum: 100, Wall: 90, Ms: []float64{2}}
	placed, onWall := listing{Dates: 10, Sum: 100, Ms: []float64{4}}, listing{Dates: 10, Sum: 90, Ms: []float64{5}}
	require.NoError(t, takeTurns([]*contender{saying("ours", false, ours), saying("a", false, placed), saying("b", true, onWall)}))
	require.ErrorContains(t, takeTurns([]*contender{saying("ours", false, ours), saying("a", false, onWall)}), "they must be the same")
	require.ErrorContains(t, takeTurns([]*contender{saying("ours", false, listing{Ms: []float64{1}})}), "they must be the same")
}

func TestTheFastestScriptIsThePeer(t *testing.T) {
	var all []*contender
	for i, speed := range []float64{900, 5000, 100, 200, 300, 1000} {
		all = append(all, &contender{what: string(rune('a' + i)), figures: []float64{speed, speed}})
	}
	rows := repeatRows(all)
	require.Len(t, rows, 5)
	require.Equal(t, compare("repeat/wasm-vs-fastest-js", "dates/s", 900, "e; a, placed in the zone", 300), rows[0])
	require.Equal(t, compare("repeat/native-vs-dateutil", "dates/s", 5000, "f; b, placed in the zone", 1000), rows[1])
	require.Equal(t, 500.0, listing{Dates: 10, Ms: []float64{20, 20}}.perSecond())
}
