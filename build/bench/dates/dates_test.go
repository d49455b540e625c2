package dates

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// What is timed must be hundreds of real dates, on both sides of a change of the clocks.
func TestTheRulesHaveDates(t *testing.T) {
	rules, loc, err := Rules(Lines())
	require.NoError(t, err)
	require.Len(t, rules, 12)
	dates, sum := List(rules, loc)
	require.Greater(t, dates, 300)
	again, same := List(rules, loc)
	require.Equal(t, []any{dates, sum}, []any{again, same})
	_, onTheWall := List(rules, time.UTC)
	hours := (sum - onTheWall) / 3600
	require.Greater(t, hours, int64(4*dates), "some dates are five hours from UTC")
	require.Less(t, hours, int64(5*dates), "and some are four")
}
