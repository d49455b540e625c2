package peers

import (
	"fmt"
	"math/rand/v2"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/repeat"
	"newel/core/wall"
)

// root is the repository's folder, seen from this one.
const root = "../.."

// start starts a peer for one test.
func start(t *testing.T, name string) *Peer {
	t.Helper()
	p, err := Start(root, name)
	require.NoError(t, err)
	t.Cleanup(p.Close)
	return p
}

// together asks several peers at the same time, each in its own goroutine.
func together(peers []*Peer, ask func(i int, p *Peer)) {
	var all sync.WaitGroup
	for i, p := range peers {
		all.Go(func() { ask(i, p) })
	}
	all.Wait()
}

// seeded gives the same chance every time; the seed is part of what a failure says.
func seeded(seed uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, 5545)) }

func iso(day wall.Date, at wall.Clock) string { return day.String() + "T" + at.String() }

func isoOf(m repeat.Moment) string { return iso(m.Day, m.At) }

// patternOf lists a rule's pattern as the peers write it.
func patternOf(r repeat.Rule) (dates []string, cut bool) {
	days, cut := r.Pattern()
	for _, day := range days {
		dates = append(dates, iso(day, r.At))
	}
	return dates, cut
}

func describe(r repeat.Rule, text string) string {
	return fmt.Sprintf("%s from %s", text, isoOf(repeat.Moment{Day: r.First, At: r.At}))
}

// momentOf is what a clock on the wall shows at an instant, in its own location.
func momentOf(t time.Time) repeat.Moment {
	return repeat.Moment{Day: wall.DateOf(t), At: wall.Clock(t.Hour()*60 + t.Minute())}
}
