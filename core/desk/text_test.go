package desk

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestTextAppendsItsColumns(t *testing.T) {
	text := "Label,Room,Date\r\nA1,\"B 12\",11/30/2026\r\n\r\nA2,=1+1,soon\r\n"
	table := readAll(t, text)
	done := table.Make(known(), page, chance)
	out := table.Text(done, voices()[0])
	lines := strings.Split(out, "\r\n")
	require.Equal(t, "Label,Room,Date,Link,Message,To look at", lines[0])
	require.True(t, strings.HasPrefix(lines[1], `A1,"B 12",11/30/2026,`+done[0].Address+`,"Your plan for Monday, November 30`), lines[1])
	require.True(t, strings.HasSuffix(lines[1], `",`), "the note is empty")
	require.Empty(t, lines[2], "rows stand where they stood")
	require.True(t, strings.HasPrefix(lines[3], `A2,'=1+1,soon,,,"Row 4, Surgery date: ""soon"" is not a day`), lines[3])
	require.Empty(t, lines[4])
}

func TestTextFillsItsOwnColumns(t *testing.T) {
	text := "\ufeffLink;Nota;Por revisar;Fecha;Mensaje\nhttps://x.example/;n;old;;\n;n2;old;30 nov 2026;old\n"
	table := readAll(t, text)
	done := table.Make(known(), page, chance)
	v := voices()[1]
	out := table.Text(done, v)
	lines := strings.Split(out, "\n")
	require.Equal(t, "\ufeffLink;Nota;Por revisar;Fecha;Mensaje", lines[0])
	require.Equal(t, page+"#"+done[1].Fragment+";n2;;30 nov 2026;"+done[1].Text, lines[2])
	require.True(t, strings.HasPrefix(lines[1], "https://x.example/;n;"), "a link that could not be read stays")
}

// What was written is read again, and then every link says all of its row already; a message
// that may still wait to be sent is kept.
func TestTextIsReadAgain(t *testing.T) {
	for _, s := range []string{"\t", ",", ";"} {
		table := readAll(t, strings.ReplaceAll(bigTable(20, nil), "\t", s))
		done := table.Make(known(), page, chance)
		moved := strings.ReplaceAll(table.Text(done, voices()[0]), (today + 12).String(), (today + 40).String())
		again := readAll(t, moved)
		corrected := again.Make(known(), page, chance)
		require.Equal(t, MovedLink, corrected[2].State)
		require.Equal(t, SameLink, corrected[3].State)
		out := again.Text(corrected, voices()[0])
		require.Contains(t, out, corrected[2].Text)
		third := readAll(t, out)
		last := third.Make(known(), page, chance)
		for i, d := range last {
			require.Equal(t, SameLink, d.State)
			require.Equal(t, corrected[i].Fragment, d.Fragment)
		}
		require.Equal(t, out, third.Text(last, voices()[0]), "nothing changes any more")
	}
}

// Cells that are not ours are given back letter for letter, however the table is written, unless a
// spreadsheet would take them for a formula.
func TestTextLeavesTheOthersAlone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		comma := rapid.SampledFrom([]string{",", ";", "\t"}).Draw(t, "comma")
		end := rapid.SampledFrom([]string{"\n", "\r\n"}).Draw(t, "end")
		cell := rapid.OneOf(rapid.SampledFrom([]string{"=HYPERLINK(1)", "+1", "-2", "@x", `"a""b"`, "\"x\ny\"", " s ", ""}), rapid.StringOf(rapid.SampledFrom([]rune("abé\x00\u202e=#"))))
		n := rapid.IntRange(1, 5).Draw(t, "rows")
		text := "Wing" + comma + "Date" + comma + "Bed" + comma + "Label" + end
		var extra [][2]string
		for i := range n {
			a, b := cell.Draw(t, "a"), cell.Draw(t, "b")
			extra = append(extra, [2]string{a, b})
			text += a + comma + []string{"11/30/2026", "soon"}[i%2] + comma + b + comma + "L" + string(rune('0'+i)) + end
		}
		table := Read(text, known(), today, voices())
		require.Len(t, table.Rows, n)
		out := table.Text(table.Make(known(), page, chance), voices()[0])
		for i, l := range readLines(out, comma[0])[1:] {
			for place, typed := range map[int]string{0: extra[i][0], 2: extra[i][1]} {
				if got := l.cells[place].raw; got != typed {
					require.Contains(t, "=+-@", strings.TrimLeft(typed, "\" \x00")[:1], "%q became %q", typed, got)
					require.Equal(t, "'"+strings.Trim(typed, `"`), l.cells[place].value)
				}
			}
			require.Len(t, l.cells, 7)
			for _, c := range l.cells {
				require.False(t, computed(c.value), "%q", c.value)
			}
			for _, c := range l.cells[4:] {
				require.NotContains(t, []string{"=", "+", "-", "@", "\t", "\r"}, (c.value + "x")[:1])
			}
		}
	})
}
