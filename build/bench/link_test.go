package bench

import (
	"maps"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/build/bench/link/families"
	"newel/core/pack"
)

func TestThePlainRowIsComparedWithJSONAndDeflate(t *testing.T) {
	sizes := map[string]int{}
	for i, packer := range packers {
		sizes[packer.row] = 100 * (i + 1)
	}
	rows := sizeRows(&families.Plan{Name: "starter"}, 50, sizes)
	require.Len(t, rows, 1+len(packers))
	first := compare("link/starter", "characters", 50, "natural JSON + deflate 9", 100)
	first.Must, first.Goal = 20, 16
	require.Equal(t, first, rows[0])
	require.Equal(t, compare("link/starter/json", "characters", 50, "natural JSON", 200), rows[2])
	stamped := sizeRows(&families.Plan{Name: "family-merge", Steps: []families.Step{{}}}, 50, sizes)
	require.Equal(t, "natural JSON + deflate 9, with stamps", stamped[0].Peer)
}

func TestEachPartIsAShareOfTheBody(t *testing.T) {
	rows := bitRows("family", []pack.Part{{Name: "", Bits: 0}, {Name: "duty texts", Bits: 30}, {Name: "who", Bits: 10}})
	require.Equal(t, []Row{
		compare("link/family/bits/duty-texts", "bits", 30, "the whole body", 40),
		compare("link/family/bits/who", "bits", 10, "the whole body", 40),
	}, rows)
}

func TestTheTimesAreMedians(t *testing.T) {
	rows := timeRows(map[string][]float64{
		"wasm/decode": {4, 1, 2}, "native/decode": {1}, "script/decode": {0.5},
		"wasm/encode": {8}, "native/encode": {2}, "script/encode": {4},
	})
	require.Len(t, rows, 4)
	require.Equal(t, compare("link/decode", "ms", 2, "the same natively", 1), rows[0])
	require.Equal(t, 4.0, rows[1].Ratio)
	require.Equal(t, compare("link/encode/json-deflate", "ms", 8, "JSON.stringify and deflate 9 in Node", 4), rows[3])
}

// The peers of a plan without stamps get it in one step, those of one with stamps in as
// many as there were.
func TestWhatThePeersAreHanded(t *testing.T) {
	for _, p := range families.All() {
		natural, steps := handed(&p)
		require.Equal(t, p.Stamped(), natural.Stamps != nil, p.Name)
		require.Equal(t, p.Stamped(), len(steps) > 60, p.Name)
		require.Equal(t, natural.Duties, steps[len(steps)-1].Plan.Duties, "the last step is the whole plan")
	}
}

// A limit under a name that no plan has would never be looked at.
func TestEveryPlanHasItsLimits(t *testing.T) {
	var names []string
	for _, p := range families.All() {
		names = append(names, p.Name)
		require.Greater(t, limits[p.Name].must, limits[p.Name].goal, p.Name)
	}
	require.ElementsMatch(t, slices.Collect(maps.Keys(limits)), names)
}
