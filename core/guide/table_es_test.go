package guide

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// tableRows reads a file of rows; only with words, those whose phrase stands in a text.
func tableRows(t *testing.T, file string, words bool) (rows [][]string) {
	t.Helper()
	data, err := os.ReadFile("../../testdata/guide/" + file)
	require.NoError(t, err)
	for line := range strings.SplitSeq(string(data), "\n") {
		if line == "" || line[0] == '#' {
			continue
		}
		col := strings.Split(line, " | ")
		require.Len(t, col, 4, line)
		kind, _, _ := strings.Cut(col[2], ":")
		if !words || kind != "rule" && kind != "due" && kind != "when" {
			rows = append(rows, col)
		}
	}
	return rows
}

// Every clause that is words in English is words in Spanish, too, at the same place.
// Source of the clauses: the table of the job in testdata/guide/table_rows.txt; which Spanish words
// count is ours (table_rows_es.txt), no published source.
func TestEveryClauseIsSaidInSpanish(t *testing.T) {
	english, spanish := tableRows(t, "table_rows.txt", true), tableRows(t, "table_rows_es.txt", false)
	var want, have []string
	for _, col := range english {
		want = append(want, strings.Join(col[:3], " | "))
	}
	b := Open("es")
	for _, col := range spanish {
		have = append(have, strings.Join(col[:3], " | "))
		require.NotEmpty(t, col[3])
		require.Contains(t, placed(t, b, col[2]), col[3], strings.Join(col, " | "))
	}
	require.Equal(t, want, have)
}

// placed gives the text of a place, in small letters.
func placed(t *testing.T, b *Book, where string) string {
	t.Helper()
	kind, id, found := strings.Cut(where, ":")
	switch {
	case !found:
		base, variant, _ := strings.Cut(where, ".")
		return whole(b.Entry(base, variant))
	case kind == "chapter":
		return whole(b.Entry("chapter-"+id, ""))
	case kind == "words":
		return strings.ToLower(b.words[id])
	}
	require.Fail(t, "no such place", where)
	return ""
}
