package bench

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/build/bench/timing"
)

// Figures are not tested (machines are noisy); the arithmetic and the output
// are. The medians are those of the definition: the middle value, or the mean
// of the two middle ones.

func TestMedian(t *testing.T) {
	require.Equal(t, 2.0, median([]float64{9, 1, 2}))
	require.Equal(t, 2.5, median([]float64{9, 1, 2, 3}))
}

func TestCompare(t *testing.T) {
	require.Equal(t, Row{Row: "a/b", Unit: "ms", Ours: 1.235, Peer: "p", PeerValue: 2, Ratio: 0.617}, compare("a/b", "ms", 1.23456, "p", 2))
}

func TestWrite(t *testing.T) {
	rows := []Row{compare("size/core-br", "kB", 500, "an empty <program>", 440)}
	rows = append(rows, Row{Row: "link/x", Unit: "characters", Ours: 9, Peer: "p", PeerValue: 18, Ratio: 0.5, Must: 20, Goal: 16})
	var out strings.Builder
	require.NoError(t, write(&out, rows, true))
	require.Equal(t, `{"row":"size/core-br","unit":"kB","ours":500,"peer":"an empty <program>","peer_value":440,"ratio":1.136}`+"\n"+
		`{"row":"link/x","unit":"characters","ours":9,"peer":"p","peer_value":18,"ratio":0.5,"must":20,"goal":16}`+"\n", out.String())
	out.Reset()
	require.NoError(t, write(&out, rows, false))
	require.Regexp(t, `(?m)^size/core-br +kB +500.00 +– +– +440.00 +1.14 +an empty <program>$`, out.String())
	require.Regexp(t, `(?m)^link/x +characters +9.00 +20 +16 +18.00 +0.50 +p$`, out.String())
}

func TestOnlyNamesAnArea(t *testing.T) {
	err := Run(t.Context(), Options{Only: "speed"})
	require.EqualError(t, err, `there is no area "speed": the areas are size, schedule, repeat, link, split, desk`)
}

func TestPeerHasEveryEntry(t *testing.T) {
	var page strings.Builder
	require.NoError(t, peerTemplate.Execute(&page, peerData(24)))
	require.Equal(t, 24, strings.Count(page.String(), "<li "))
	require.Equal(t, 3, strings.Count(page.String(), "<section>"))
	require.Contains(t, page.String(), "10:00 &amp; need")
}

func TestRoundsCallTheWork(t *testing.T) {
	calls := 0
	figures := timing.Rounds(2, func() int { calls++; return 1 })
	require.Len(t, figures, 2)
	require.GreaterOrEqual(t, calls, 3)
}
