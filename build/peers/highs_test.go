package peers

import (
	"testing"

	"github.com/stretchr/testify/require"

	invented "newel/build/bench/split/families"
	"newel/build/bench/split/programme"
	"newel/core/assign"
)

// The text that HiGHS is handed is the programme: level by level it finds what trying every
// answer finds.
func TestHiGHSFindsWhatTryingEverythingFinds(t *testing.T) {
	peer := start(t, HiGHS)
	for seed := range uint64(50 * many(t)) {
		p := invented.Small(seed, 1+int(seed%6), 1+int(seed/6%3))
		best, _ := programme.Brute(p)
		model, judge := programme.NewModel(p), programme.NewJudge(p)
		for level := range assign.LevelEnd {
			found, err := model.Ask(peer, judge, level, 60)
			require.NoError(t, err, "seed %d", seed)
			require.True(t, found.Proven, "seed %d", seed)
			require.Equal(t, best[level], found.Value, "seed %d, level %d", seed, level)
			model.Fix(level, found.Value)
		}
	}
}

// HiGHS says who it is; what it cannot read, or what has no answer, is said and not passed
// over, and it lives on.
func TestHiGHSSaysWhatIsWrong(t *testing.T) {
	_, err := Start(t.TempDir(), HiGHS)
	require.ErrorContains(t, err, "the peer "+HiGHS+" does not answer")
	peer := start(t, HiGHS)
	require.Regexp(t, `^\d+\.\d+\.\d+`, peer.Version)
	ask := func(text string) (status string, columns map[string]float64, err error) {
		var said struct {
			Status  string
			Columns map[string]float64
		}
		err = peer.Ask("solve", map[string]any{"text": text, "seconds": 5}, &said)
		return said.Status, said.Columns, err
	}
	_, _, err = ask("Maximize what?")
	require.ErrorContains(t, err, HiGHS)
	status, columns, err := ask("Maximize\n obj: x\nSubject To\n x <= 1\n x >= 2\nBinaries\n x\nEnd\n")
	require.NoError(t, err)
	require.Equal(t, "status 8", status) // infeasible
	require.Empty(t, columns)
	// Two of three things of 3, 4 and 5 kilograms into a bag for 8.
	status, columns, err = ask("Maximize\n obj: 3 a + 4 b + 5 c\nSubject To\n 3 a + 4 b + 5 c <= 8\nBinaries\n a b c\nEnd\n")
	require.NoError(t, err)
	require.Equal(t, "Optimal", status)
	require.Equal(t, map[string]float64{"a": 1, "c": 1}, columns)
}
