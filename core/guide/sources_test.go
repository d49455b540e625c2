package guide

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/schedule"
)

// Every step names sources that the page can show; nothing is cited that nothing leans on.
func TestEverySourceIsCitedAndUsed(t *testing.T) {
	named := map[string]bool{}
	for i := range schedule.Kinds {
		require.NotEmpty(t, schedule.Kinds[i].Source, schedule.Kinds[i].ID)
		for _, key := range schedule.Kinds[i].Source {
			named[key] = true
		}
	}
	cited := map[string]bool{}
	for _, s := range Sources() {
		require.False(t, cited[s.Key], "%s: the lines of a key stand together", s.Key)
		cited[s.Key] = true
		require.Equal(t, s.Serves("steps"), named[s.Key], "%s: in steps.txt and in sources.txt", s.Key)
		require.Equal(t, s.Key == "practice", len(s.Citations) == 0, "%s: only common practice has no citation", s.Key)
		for _, use := range s.For {
			require.Contains(t, []string{"steps", "signs", "drive", "say-back", "reading"}, use, s.Key)
		}
	}
	for key := range named {
		require.True(t, cited[key], "steps.txt names %s, which sources.txt lacks", key)
	}
	for _, use := range []string{"signs", "drive", "say-back", "reading"} {
		require.True(t, served(use), "nothing is cited for %s", use)
	}
}

func served(use string) bool {
	for _, s := range Sources() {
		if s.Serves(use) {
			return true
		}
	}
	return false
}

// A source that was not read itself is marked, so that a hospital that reviews the text knows
// which to check first. The marks are those of the project's collection of check values.
func TestWhatIsFromMemoryIsMarked(t *testing.T) {
	for _, line := range strings.Split(sourcesText, "\n") {
		if line != "" && line[0] != '#' {
			col := strings.Split(line, " | ")
			require.Len(t, col, 4, line)
			require.Contains(t, []string{"seen", "quoted", "memory", "none"}, col[2], line)
			require.Regexp(t, `\.$|^$`, col[3], "a citation is a sentence: %s", line)
		}
	}
	marked := 0
	for _, s := range Sources() {
		for _, c := range s.Citations {
			if c.Memory {
				marked++
			}
			seen := strings.Contains(sourcesText, "| seen | "+c.Text+"\n")
			require.Equal(t, !seen, c.Memory, c.Text)
		}
	}
	require.Equal(t, 10, marked)
}

func TestLinesOfOneKeyAreJoined(t *testing.T) {
	for _, s := range Sources() {
		if s.Key == "cdc-ssi" {
			require.Len(t, s.Citations, 2)
			require.Contains(t, s.Citations[0].Text, "784-791")
			require.Contains(t, s.Citations[1].Text, "Surgical Site Infection Basics")
			require.Equal(t, []string{"steps", "signs"}, s.For)
			return
		}
	}
	require.Fail(t, "no source is called cdc-ssi")
}
