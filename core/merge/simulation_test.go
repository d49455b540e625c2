package merge

import (
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

// The long run is a million joins:
//
//	NEWEL_JOINS=1000000 go test ./core/merge -run TestRandomJoins -timeout 0 -v
//
// The ordinary test is a thousandth of it.
const ordinaryJoins = 1000

func joinsToRun(t *testing.T) int {
	n, err := strconv.Atoi(os.Getenv("NEWEL_JOINS"))
	if os.Getenv("NEWEL_JOINS") == "" {
		return ordinaryJoins
	}
	require.NoError(t, err, "NEWEL_JOINS is a number of joins")
	return n
}

// Devices change, settle, add and take out, links are delayed, doubled, lost and cut off;
// once everybody has heard everything, all copies are one document, and it is the one that
// the history of all acts gives.
func TestRandomJoins(t *testing.T) {
	most := joinsToRun(t)
	for seed, joins := int64(1), 0; joins < most; seed++ {
		w := newWorld(&seeded{t, seed}, fromSeed(seed))
		w.checks = most <= ordinaryJoins || seed%50 == 0
		for range 20 + w.c(60) {
			w.step()
		}
		w.exchange()
		w.end()
		w.settleAll()
		joins += w.joins
		if seed%5000 == 0 {
			t.Logf("%d families, %d joins", seed, joins)
		}
	}
}

// seeded says with which seed a test failed.
type seeded struct {
	*testing.T
	seed int64
}

func (s *seeded) Errorf(format string, args ...any) {
	s.T.Helper()
	s.T.Errorf("seed %d: "+format, append([]any{s.seed}, args...)...)
}
