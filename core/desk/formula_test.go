package desk

import (
	"encoding/csv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/build/hostile"
)

// A cell that a spreadsheet computes begins with one of these (OWASP, "CSV Injection"), also behind white space
// that a program drops.
func computed(value string) bool {
	value = strings.TrimLeft(value, " \t\r\n\u00a0")
	return value != "" && strings.ContainsAny(value[:1], "=@") || strings.HasPrefix(value, "\uff1d") || strings.HasPrefix(value, "\uff20") ||
		value != "" && strings.ContainsAny(value[:1], "+-") && strings.ContainsAny(strings.ToLower(value), "abcdefghijklmnopqrstuvwxyz!'\"|&=")
}

// Each hostile text in each column of a table, quoted or not: what is copied back into a spreadsheet has no
// formula in any cell, as encoding/csv reads it, and the rows around it are still there.
func TestNoFormulaComesOut(t *testing.T) {
	texts, names, err := hostile.Texts("../..")
	require.NoError(t, err)
	tried := 0
	for _, name := range names {
		for _, comma := range []byte{',', ';', '\t'} {
			quotedText := `"` + strings.ReplaceAll(texts[name], `"`, `""`) + `"`
			c := string(comma)
			text := strings.Join([]string{"Date", "Label", quotedText, "Message", "Link"}, c) + "\r\n" +
				strings.Join([]string{"11/30/2026", quotedText, quotedText, quotedText, ""}, c) + "\r\n" +
				strings.Join([]string{quotedText, "B", "", "", quotedText}, c) + "\r\n" +
				strings.Join([]string{"12/1/2026", "C", "-5", "+1 206 555-0187", ""}, c) + "\r\n"
			table := Read(text, known(), today, voices())
			if !usable(table.Faults) {
				continue // a text may be the name of a column, and then the table is refused
			}
			tried++
			r := csv.NewReader(strings.NewReader(table.Text(table.Make(known(), page, chance), voices()[0])))
			r.Comma = rune(comma)
			r.FieldsPerRecord = -1
			rows, err := r.ReadAll()
			require.NoError(t, err, name)
			require.GreaterOrEqual(t, len(rows), 4, name)
			for _, row := range rows {
				for _, value := range row {
					require.False(t, computed(value), "%s: %q", name, value)
				}
			}
			last := rows[len(rows)-1]
			require.Equal(t, []string{"12/1/2026", "C", "-5"}, last[:3], "numbers stay numbers")
		}
	}
	require.Greater(t, tried, 2*len(names))
}
