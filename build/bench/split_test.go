package bench

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/build/bench/split/families"
	"newel/build/bench/split/stages"
	"newel/core/assign"
)

// contested is a contest with given times of the stages, of which the last levels are open.
func contested(seed uint64, ours, highs float64, open int) contest {
	c := contest{Family: families.Family{Size: families.Size{Duties: 300, Helpers: 8}, Kind: families.Tight, Seed: seed}, peer: "HiGHS"}
	for range stages.All {
		c.ours, c.highs, c.ended = append(c.ours, ours), append(c.highs, highs), append(c.ended, seed == 1)
	}
	c.offers = []int{60, 240}
	for level := range assign.LevelEnd {
		v := assign.Value{Got: assign.Ratio{Num: 30, Den: 1}, Bound: assign.Ratio{Num: 30, Den: 1}, Proven: true}
		if int(assign.LevelEnd-level) <= open {
			v = assign.Value{Got: assign.Ratio{Num: 32, Den: 1}, Bound: assign.Ratio{Num: 30, Den: 1}}
		}
		c.found.Values[level] = v
	}
	return c
}

func TestTheSlowestSeedStandsInTheRow(t *testing.T) {
	rows := splitRows([]contest{contested(1, 5, 50, 0), contested(2, 20, 40, 5)})
	require.Len(t, rows, len(stages.All)+4)
	first := compare("split/300x8-tight-level1", "ms", 20,
		"HiGHS in WebAssembly on seed 2, ours' slowest, to the same levels' proof, not reached in 10 s a solve: at least", 40)
	first.Goal = 10
	require.Equal(t, first, rows[0])
	worst := compare("split/300x8-tight-worst", "times", 0.5, "HiGHS, on the seed and the stage that are worst for ours", 1)
	worst.Goal = 1
	require.Equal(t, worst, rows[4])
	gap := compare("split/300x8-tight-level2-gap", "minutes of load", 480, "the proven bound, for whom offered most", 7200)
	gap.Goal = 15
	require.Equal(t, gap, rows[5])
	require.Equal(t, 2.0, rows[6].Ours)
	require.Equal(t, 5.0, rows[7].Ours)
}

func TestKindsAndSizesHaveRowsOfTheirOwn(t *testing.T) {
	other := contested(1, 5, 50, 0)
	other.Kind = families.Ordinary
	rows := splitRows([]contest{other, contested(1, 5, 50, 0), contested(2, 6, 50, 0)})
	require.Len(t, rows, 2*(len(stages.All)+4))
	require.Equal(t, "split/300x8-level1", rows[0].Row)
	require.NotContains(t, rows[0].Peer, "at least")
	require.Equal(t, "split/300x8-tight-level1", rows[5].Row)
}

// A goal under a name that no row has would never be looked at.
func TestEveryGoalHasItsRows(t *testing.T) {
	var contests []contest
	for _, f := range families.All() {
		c := contested(f.Seed, 1, 2, 3)
		c.Family = f
		contests = append(contests, c)
	}
	reached := map[string]bool{}
	for _, row := range splitRows(contests) {
		name := strings.TrimPrefix(row.Row, "split/")
		for _, kind := range families.Kinds[1:] {
			name = strings.Replace(name, "-"+string(kind), "", 1)
		}
		if row.Goal > 0 && !strings.HasSuffix(name, "-worst") {
			require.Equal(t, splitGoals[name], row.Goal)
			reached[name] = true
		}
	}
	require.Len(t, reached, len(splitGoals))
}

// optimist is a peer that proves nothing in its time.
type optimist struct{ fault error }

func (o optimist) Ask(_ string, _ map[string]any, answer any) error { return o.fault }

// What the other solver says wrongly is an error and no figure.
func TestAPeerThatFailsIsNoFigure(t *testing.T) {
	c := contest{Family: families.All()[0]}
	p, _, err := readFamily("../..", &c.Family)
	require.NoError(t, err)
	c.found = assign.Solve(p, assign.Options{Until: assign.CoverNice})
	require.ErrorContains(t, c.runHighs(optimist{errors.New("gone")}, p), "gone")
	require.ErrorContains(t, c.runHighs(optimist{}, p), "the solver says")
}
