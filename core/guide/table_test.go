package guide

import (
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
	"newel/core/schedule"
)

// Every clause of the table of common practice, every point of the guide's content and
// every sign stands where the file says it does. Common practice, no published source.
func TestEveryClauseOfCommonPracticeIsSaid(t *testing.T) {
	data, err := os.ReadFile("../../testdata/guide/table_rows.txt")
	require.NoError(t, err)
	rows, clauses, used := map[string]bool{}, 0, usedEntries(t)
	for id := range signs(t) {
		used[id] = true
	}
	for _, key := range plan.DutyKeys {
		used[key] = true
	}
	for line := range strings.SplitSeq(string(data), "\n") {
		if line == "" || line[0] == '#' {
			continue
		}
		col := strings.Split(line, " | ")
		require.Len(t, col, 4, line)
		rows[col[0]], clauses = true, clauses+1
		where, phrase := col[2], strings.ToLower(col[3])
		kind, id, found := strings.Cut(where, ":")
		if !found {
			require.True(t, used[where], "no plan shows it: %s", line)
			base, variant, _ := strings.Cut(where, ".")
			require.Contains(t, whole(Open("en").Entry(base, variant)), phrase, line)
			continue
		}
		switch kind {
		case "words":
			require.Contains(t, strings.ToLower(Open("en").words[id]), phrase, line)
		case "chapter":
			require.NotNil(t, ChapterByID(id), line)
			require.Contains(t, whole(Open("en").Entry("chapter-"+id, "")), phrase, line)
		case "rule":
			r, ok := plan.RuleByKey(id)
			require.True(t, ok, line)
			require.Equal(t, phrase, strconv.Itoa(plan.Rules[r].Common), line)
		case "due":
			require.Equal(t, phrase, schedule.KindByID(id).Due.Text, line)
		case "when":
			require.Equal(t, phrase, schedule.KindByID(id).When, line)
		default:
			require.Fail(t, "no such place", line)
		}
	}
	// The table has fifteen rows; the trimming by facts is a sixteenth. The guide has twelve
	// sorts of content and its names of things; then the cautions and four groups of signs.
	require.Len(t, rows, 15+1+13+1+4)
	require.Greater(t, clauses, 250)
}
