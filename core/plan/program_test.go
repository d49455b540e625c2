package plan

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestARuleOfTheHospitalReplacesCommonPractice(t *testing.T) {
	for r, info := range Rules {
		rule := Rule(r)
		var p Program
		require.False(t, p.Own(rule))
		require.Equal(t, info.Common, p.Get(rule))
		for _, v := range []int{info.Min, info.Max, max(info.Min, info.Common)} { // some have no common practice
			require.True(t, p.Set(rule, v), "%s %d", info.Key, v)
			require.True(t, p.Own(rule))
			require.Equal(t, v, p.Get(rule), info.Key)
		}
		for other := range Rules {
			require.Equal(t, other == r, p.Own(Rule(other)), "setting %s touched %s", info.Key, Rules[other].Key)
		}
	}
}

func TestAValueOutsideTheRangeChangesNothing(t *testing.T) {
	for r, info := range Rules {
		rule := Rule(r)
		for _, v := range []int{info.Min - 1, info.Max + 1, -1 << 31, 1 << 31, 1 << 16, 1<<16 + info.Common} {
			var p Program
			require.False(t, p.Set(rule, v), "%s %d", info.Key, v)
			require.Equal(t, Program{}, p)

			require.True(t, p.Set(rule, info.Max))
			was := p
			require.False(t, p.Set(rule, v))
			require.Equal(t, was, p)
		}
	}
	var p Program
	require.False(t, p.Set(ruleEnd, 1))
	require.Equal(t, Program{}, p)
}

// Two programs that say the same are equal, whatever was set and cleared before.
func TestClearGoesBackToCommonPractice(t *testing.T) {
	p := Program{Hospital: "Alder Ferry Hospital"}
	was := p
	for r, info := range Rules {
		require.True(t, p.Set(Rule(r), info.Max))
		require.NotEqual(t, was, p)
		p.Clear(Rule(r))
		require.Equal(t, info.Common, p.Get(Rule(r)))
		require.True(t, p == was, info.Key)
	}
	q := Program{Hospital: "Alder Ferry Hospital"}
	p.Set(WashDays, 3)
	q.Set(WashDays, 3)
	require.True(t, p == q)
}
