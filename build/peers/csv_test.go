package peers

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"newel/core/desk"
	"newel/core/guide"
	"newel/core/plan"
	"newel/core/wall"
)

// deskVoices are all languages, as of a Monday.
func deskVoices() (all []guide.Voice) {
	for _, tag := range guide.Languages {
		all = append(all, guide.Voice{Book: guide.Open(tag), Today: wall.Date(20773)})
	}
	return all
}

// tableOf draws a table of patients with cells of the hospital's own, any text at all.
func tableOf(t *rapid.T) [][]string {
	cell := rapid.StringOf(rapid.SampledFrom([]rune("ab \",;\t\r\n'=é\u202e")))
	rows := [][]string{{"Wing", "Date", "Bed"}}
	for range rapid.IntRange(1, 6).Draw(t, "rows") {
		rows = append(rows, []string{cell.Draw(t, "wing"), rapid.SampledFrom([]string{"2026-11-30", "soon"}).Draw(t, "date"), cell.Draw(t, "bed")})
	}
	return rows
}

// What Python's csv writes we read as what it was.
func TestTablesThatPythonWrote(t *testing.T) {
	p := start(t, CSV)
	settings := desk.Settings(plan.BaseOf(1))
	rapid.Check(t, func(t *rapid.T) {
		rows := tableOf(t)
		comma := rapid.SampledFrom([]string{",", ";", "\t"}).Draw(t, "comma")
		var answer struct{ Text string }
		require.NoError(t, p.Ask("write", map[string]any{"rows": rows, "comma": comma}, &answer))
		table := desk.Read(answer.Text, &settings, deskVoices()[0].Today, deskVoices())
		for _, f := range table.Faults {
			require.True(t, f.Ask, f.Code)
		}
		require.Len(t, table.Rows, len(rows)-1)
		for i, r := range table.Rows {
			require.Equal(t, rows[i+1], r.Cells)
		}
	})
}

// asText is how a drawn cell comes back: one that a spreadsheet would take for a formula with an apostrophe
// before it (OWASP, "CSV Injection"); of the signs it names only "=" is drawn here.
func asText(cell string) string {
	if strings.HasPrefix(strings.TrimLeft(cell, " \t\r\n"), "=") {
		return "'" + cell
	}
	return cell
}

// What we write Python's csv reads: the hospital's own cells as they were, but that none is a formula, and
// behind them each link and each message whole.
func TestTablesThatPythonReads(t *testing.T) {
	p := start(t, CSV)
	settings := desk.Settings(plan.BaseOf(1))
	rapid.Check(t, func(t *rapid.T) {
		rows := tableOf(t)
		comma := rapid.SampledFrom([]string{",", ";", "\t"}).Draw(t, "comma")
		var first struct{ Text string }
		require.NoError(t, p.Ask("write", map[string]any{"rows": rows, "comma": comma}, &first))
		table := desk.Read(first.Text, &settings, deskVoices()[0].Today, deskVoices())
		done := table.Make(&settings, "https://plans.example.org/", []byte("0123456789abcdef"))
		var answer struct{ Rows [][]string }
		require.NoError(t, p.Ask("read", map[string]any{"text": table.Text(done, deskVoices()[0]), "comma": comma}, &answer))
		require.Len(t, answer.Rows, len(rows))
		for i, row := range answer.Rows {
			require.Equal(t, []string{asText(rows[i][0]), rows[i][1], asText(rows[i][2])}, row[:3])
			require.Len(t, row, 6)
			if i > 0 {
				require.Equal(t, done[i-1].Address, row[3])
				require.Equal(t, done[i-1].Text, row[4])
				require.Equal(t, rows[i][1] == "soon", strings.HasPrefix(row[5], "Row "))
			}
		}
	})
}
