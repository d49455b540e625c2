package bench

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/build/bench/budget"
	"newel/build/tools"
)

// named finds a row.
func named(t *testing.T, rows []Row, name string) Row {
	t.Helper()
	for _, r := range rows {
		if r.Row == name {
			return r
		}
	}
	t.Fatalf("there is no row %s", name)
	return Row{}
}

// The limits are those of the issue that the page is measured by; those of the cold start are
// multiples of the floor in the same run.
func TestLoadRows(t *testing.T) {
	ours := []visits{
		{Cold: opening{Paint: 900, Largest: 1000, LargestAll: 5000, First: 1500, Whole: 6000, Shift: 0.01}, Again: opening{Whole: 400}, Restart: opening{Whole: 800}},
		{Cold: opening{Paint: 700, Largest: 1200, LargestAll: 5200, First: 1700, Whole: 8000, Shift: 0.03}, Again: opening{Whole: 500}, Restart: opening{Whole: 900}},
	}
	floor := []visits{{Cold: opening{Paint: 400, Floor: 3000}, Again: opening{Floor: 200}, Restart: opening{Floor: 300}}}
	rows := loadRows(ours, floor)
	whole := named(t, rows, "load/whole-cold")
	require.Equal(t, []float64{7000, 3000, 5100, 4350}, []float64{whole.Ours, whole.PeerValue, whole.Must, whole.Goal})
	require.Equal(t, []float64{6000, 8000}, []float64{whole.Low, whole.High})
	require.Equal(t, 0.02, named(t, rows, "load/layout-shift").Ours)
	require.Equal(t, 1100.0, named(t, rows, "load/largest-paint").Ours)
	require.Equal(t, 5100.0, named(t, rows, "load/largest-paint-whole").Ours)
	require.Equal(t, 200.0, named(t, rows, "load/whole-again").PeerValue)
	require.Equal(t, 1000.0, named(t, rows, "load/whole-restart").Must)
}

func TestActRows(t *testing.T) {
	rows := actRows([]deed{
		{Family: "reference", Rate: 4, Name: "open", Time: 90, Peer: 30, Task: 60},
		{Family: "reference", Rate: 4, Name: "tick", Time: 70, Seen: 20, Peer: 35, Task: 110},
		{Family: "reference", Rate: 4, Name: "open", Time: 110, Peer: 50},
		{Family: "heavy", Rate: 4, Name: "tick", Time: 150, Peer: 75},
		{Family: "heavy", Rate: 6, Name: "tick", Time: 250, Peer: 125},
	})
	var all []string
	for _, r := range rows {
		all = append(all, r.Row)
	}
	require.Equal(t, []string{
		"act/reference/open", "act/reference/tick", "act/reference/tick-seen", "act/reference/longest-task",
		"act/heavy/tick", "act/heavy/tick-seen", "act/heavy/longest-task", "act/heavy-6x/tick", "act/heavy-6x/tick-seen", "act/heavy-6x/longest-task",
	}, all)
	require.Equal(t, []float64{100, 40, 2.5, 80, 50}, []float64{rows[0].Ours, rows[0].PeerValue, rows[0].Ratio, rows[0].Must, rows[0].Goal})
	require.Equal(t, []float64{20, 80}, []float64{rows[2].Ours, rows[2].Must})
	require.Equal(t, 110.0, rows[3].Ours)
	require.Contains(t, rows[3].Peer, "tick")
	require.Equal(t, 200.0, rows[4].Must)
	require.Zero(t, rows[7].Must, "the limits are those at a quarter of the speed")
}

func TestMemoryRows(t *testing.T) {
	h := hourOf{First: holding{Wasm: 20e6}, Start: holding{Wasm: 30e6}, Half: holding{Wasm: 70e6, Script: 4e6}, End: holding{Wasm: 70e6, Script: 5e6}}
	require.Equal(t, 70.0, named(t, memoryRows("reference", h), "memory/reference/wasm-end").Must, "flat: no more than at half time")
	require.Equal(t, 64.0, named(t, memoryRows("heavy", h), "memory/heavy/wasm-end").Must)
	require.Equal(t, 1.25, named(t, memoryRows("heavy", h), "memory/heavy/script-end").Ratio)
}

func TestJudgementRows(t *testing.T) {
	rows := judgementRows([]judgement{{Performance: 80, Accessibility: 100, BestPractices: 100}}, []judgement{{Performance: 90, Accessibility: 95, BestPractices: 96}})
	require.Equal(t, []float64{80, 90, 97}, []float64{rows[0].Ours, rows[0].Must, rows[0].Goal})
}

func TestBundleFilesAreCountedByKind(t *testing.T) {
	text := []byte(strings.Repeat("words ", 2000))
	sent, err := measureBundle(map[string][]byte{
		"core-A.wasm": text, "whole-B.wasm": text, "index.html": text, "es.html": text, "page-C.css": text, "page-D.js": text, "worker.js": text, "icon.svg": text,
	})
	require.NoError(t, err)
	one := sent["core"]
	require.Less(t, one, 1.0, "compressed")
	require.InDelta(t, 3*one, sent["page"], 1e-9)
	require.Equal(t, []float64{one, one, one}, []float64{sent["whole"], sent["static-es"], sent["worker"]})
	rows := bundleRows(sent, 2*one, one)
	require.Equal(t, []float64{0.5, 830, 700}, []float64{named(t, rows, "size/core-br").Ratio, rows[0].Must, rows[0].Goal})
	require.Equal(t, 60.0, named(t, rows, "size/page-br").Must)
}

func TestPartRowsNameTheLargestAndAddTheRest(t *testing.T) {
	var parts []budget.Part
	for i := range 14 {
		parts = append(parts, budget.Part{Name: string(rune('a' + i)), Packed: 1000 * (20 - i), Code: 5000})
	}
	parts = append(parts, budget.Part{Name: budget.Data, Packed: 700, Files: 900}, budget.Part{Name: budget.Headers, Files: 300})
	rows := partRows(parts)
	require.Len(t, rows, mostParts+3)
	require.Equal(t, 10.0+9+8+7, named(t, rows, "size/near/all-other-packages").Ours)
	require.Equal(t, 20.0, named(t, rows, "size/near/all-other-packages").PeerValue)
	require.Equal(t, 0.3, named(t, rows, "size/near/data-headers").PeerValue)
}

// The programs for the browser are not run here, but Node can read each of them.
func TestTheProgramsForTheBrowserCompile(t *testing.T) {
	programs, err := filepath.Glob(filepath.Join("browser", "*.mjs"))
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(programs), 7)
	for _, name := range programs {
		_, err := tools.Command{Step: "reading " + name, Name: "node", Args: []string{"--check", name}}.Run(t.Context())
		require.NoError(t, err)
	}
}
