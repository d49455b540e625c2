package desk

import (
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
)

// A fever to call about that is higher than hospitals say is asked about in a file too, like one
// that is lower: common practice, no published source.
func TestAFeverThatIsAskedAbout(t *testing.T) {
	for text, code := range map[string]string{
		`fever = 107`: plan.FeverHigh, `fever = 41.5`: plan.FeverHigh, `fever = "102 °F"`: plan.FeverHigh, `fever = "99 °F"`: plan.FeverLow,
		`fever = 101.5`: "", `fever = "38.6 °C"`: "", `fever = 100.4`: "",
	} {
		s, faults := ReadFile(text, fileToday)
		require.True(t, s.Program.Own(plan.Fever), text)
		if code == "" {
			require.Empty(t, faults, text)
			continue
		}
		require.Len(t, faults, 1, text)
		require.Equal(t, code, faults[0].Code)
		require.True(t, faults[0].Ask)
		require.NotEmpty(t, FaultText(voices()[0], faults[0]))
	}
}
