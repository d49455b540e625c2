package peers

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/repeat"
	"newel/core/wall"
)

// enough is how many rules of each fault are looked at.
const enough = 50

// What Check refuses of the random rules is refused with reason: others, who know no
// bounds, find more dates or later ones than ours may have, or none at all.
func TestWhatIsRefusedOfTheRandomRulesIsOutOfBounds(t *testing.T) {
	chance := seeded(seed)
	peers := []*Peer{start(t, IcalJS), start(t, Libical)}
	found := map[string]int{}
	for found[repeat.TooLong] < enough || found[repeat.LastFault] < enough {
		r := randomRule(chance)
		err := r.Check()
		if err == nil {
			continue
		}
		code := err.(repeat.Fault).Code
		if found[code]++; found[code] > enough {
			continue
		}
		for _, p := range peers {
			require.NoError(t, outOfBounds(p, r, code), "%s: %s: %s", p.Name, code, describe(r, r.Recur(time.UTC)))
		}
	}
	require.Len(t, found, 2, "%v", found)
}

// outOfBounds is an error where a peer finds a refused rule to be an ordinary one.
func outOfBounds(p *Peer, r repeat.Rule, code string) error {
	dates, err := p.Expand(r.Recur(time.UTC), iso(r.First, r.At), repeat.MaxCount+1)
	switch {
	case err != nil:
		return err
	case code == repeat.LastFault && len(dates) == 0:
		return nil // it ends before its first date
	case code == repeat.TooLong && len(dates) > repeat.MaxCount:
		return nil
	case code == repeat.TooLong && dates[len(dates)-1] > iso(r.First+repeat.MaxSpan, 24*60-1):
		return nil
	}
	return fmt.Errorf("%d dates", len(dates))
}

// The bounds themselves: a rule of exactly so many dates or days passes, and one more
// does not.
func TestTheBoundsAreWhereTheyAreSaidToBe(t *testing.T) {
	daily := repeat.Rule{First: wall.FirstDate, At: 9 * 60, Freq: repeat.Daily, Every: 2}
	long := daily
	long.Last = long.First + repeat.MaxSpan
	require.NoError(t, long.Check())
	long.Last++
	require.Equal(t, repeat.Fault{Code: repeat.LastFault}, long.Check())
	many := daily
	many.Every, many.Count = 1, repeat.MaxCount
	require.NoError(t, many.Check())
	dates, err := start(t, IcalJS).Expand(many.Recur(time.UTC), iso(many.First, many.At), repeat.MaxCount+1)
	require.NoError(t, err)
	ours, _ := patternOf(many)
	require.Equal(t, dates, ours)
	many.Count++
	require.Equal(t, repeat.Fault{Code: repeat.CountFault}, many.Check())
}
