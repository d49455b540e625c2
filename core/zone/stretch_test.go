package zone

import (
	"math/rand"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// What is remembered of a zone changes no answer: each time is asked for after many
// others, and again with nothing remembered. More zones take turns than fit.
func TestWhatIsRememberedChangesNoAnswer(t *testing.T) {
	r := rand.New(rand.NewSource(8))
	names := append([]string{"America/New_York", "Australia/Lord_Howe", "Africa/Casablanca", "America/Havana", "Asia/Kathmandu"}, Names()[:40]...)
	for range 40_000 {
		loc, err := Load(names[r.Intn(len(names))])
		require.NoError(t, err)
		day, hour, minute := r.Intn(366*20), r.Intn(24), r.Intn(60)
		got, fit := At(loc, 2024, time.January, 1+day, hour, minute)
		kept := lately
		lately = nil
		want, wantFit := At(loc, 2024, time.January, 1+day, hour, minute)
		lately = kept
		require.True(t, want.Equal(got) && fit == wantFit, "%s day %d %02d:%02d", loc, day, hour, minute)
		require.LessOrEqual(t, len(lately), mostLately)
	}
}

// The slow way, with four looks at the zone, is what At did before it remembered.
func TestAStretchIsAsTheSlowWayHasIt(t *testing.T) {
	r := rand.New(rand.NewSource(9))
	for range 20_000 {
		loc, err := Load(Names()[r.Intn(len(Names()))])
		require.NoError(t, err)
		wall := time.Date(2024, time.January, 1+r.Intn(366*20), r.Intn(24), r.Intn(60), 0, 0, time.UTC)
		s := stretch(loc, wall.Unix())
		if s == nil {
			continue
		}
		require.Equal(t, s.offset, offset(loc, wall.Add(-reach)), "%s %s", loc, wall)
		require.Equal(t, s.offset, offset(loc, wall.Add(reach)), "%s %s", loc, wall)
		require.Equal(t, s.offset, offset(loc, wall.Add(-s.offset)), "%s %s", loc, wall)
	}
}
