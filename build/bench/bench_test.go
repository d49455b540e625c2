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
	require.Regexp(t, `(?m)^size/core-br +kB +500.00 +– +– +– +440.00 +1.14 +an empty <program>$`, out.String())
	require.Regexp(t, `(?m)^link/x +characters +9.00 +– +20 +16 +18.00 +0.50 +p$`, out.String())
}

func TestSeveralRunsShowTheirSpread(t *testing.T) {
	r := spread("load/x", "ms", []float64{5, 1, 9}, "p", []float64{2, 4, 3})
	require.Equal(t, Row{Row: "load/x", Unit: "ms", Ours: 5, Peer: "p", PeerValue: 3, Ratio: 1.667, Runs: 3, Low: 1, High: 9}, r)
	r.Why = "a reason"
	var out strings.Builder
	require.NoError(t, write(&out, []Row{r}, false))
	require.Regexp(t, `(?m)^load/x +ms +5.00 +1.0–9.0 of 3 +– +– +3.00 +1.67 +p; a reason$`, out.String())
}

func TestReadmesTableHasTheRowsWithALimit(t *testing.T) {
	var out strings.Builder
	with := Row{Row: "link/x", Unit: "characters", Ours: 9, Peer: "p", PeerValue: 180, Ratio: 0.05, Must: 20, Goal: 16}
	require.NoError(t, writeMarkdown(&out, "measured on x", []Row{compare("a/b", "ms", 1, "p", 2), with}))
	require.Equal(t, "measured on x\n\n| row | ours | of runs | must | goal | peer | ratio | the peer |\n|---|--:|---|--:|--:|--:|--:|---|\n"+
		"| `link/x` | 9.0 characters | – | 20 | 16 | 180 | 0.05 | p |\n", out.String())
	require.Equal(t, "0.230", short(0.23))
}

// A peer that has nothing at all has no ratio; JSON has no number for one.
func TestAPeerOfNothing(t *testing.T) {
	var out strings.Builder
	require.NoError(t, write(&out, []Row{compare("load/layout-shift", "score", 0.2, "p", 0)}, true))
	require.Contains(t, out.String(), `"ratio":0}`)
}

func TestTheFirstLineIsTheMachine(t *testing.T) {
	require.Equal(t, "Some Processor 5", processor("processor\t: 0\nmodel name\t: Some Processor 5\nflags\t: a b\n"))
	require.Equal(t, "model unknown", processor(""))
	var out strings.Builder
	require.NoError(t, writeMachine(&out, "measured on x", true))
	require.Equal(t, `{"machine":"measured on x"}`+"\n", out.String())
	require.Regexp(t, `\d cores \(.+\), Go 1\.\d+.*, Node v\d+`, machine(t.Context()))
}

func TestOnlyNamesAnArea(t *testing.T) {
	err := Run(t.Context(), Options{Only: "speed"})
	require.EqualError(t, err, `there is no area "speed": the areas are size, schedule, repeat, link, split, desk, load, act, memory, lighthouse`)
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
