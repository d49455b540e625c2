package app

import (
	"html"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/desk"
	"newel/core/plan"
)

// Enter in a cell presses the first button of its form: HTML Living Standard 4.10.22.2,
// "implicit submission", from memory. That is "Check again", and no other button drops a cell
// either.
func TestNoButtonDropsWhatWasPutRight(t *testing.T) {
	p := atDesk(t)
	p.check(threeRows)
	_, form, _ := strings.Cut(p.last.HTML, `id="rows-form"`)
	_, first, _ := strings.Cut(form, "<button")
	first, _, _ = strings.Cut(first, ">")
	require.Contains(t, first, `value="again"`)
	carried := p.carried()
	cell := []string{"cell-3-1", "2026-12-15"}

	out := p.send("/desk/rows", append(append([]string{"act", "copy-all"}, cell...), carried...)...)
	require.Contains(t, out.Send.Text, "B\t2026-12-15")
	require.Equal(t, 3, strings.Count(out.Send.Text, pageAddress+"#")/2)
	require.Contains(t, out.HTML, "Paste it into your spreadsheet.")
	out = p.send("/desk/rows", append([]string{"sent", "copied", "handed", "table"}, p.carried()...)...)
	require.Equal(t, "The table is copied. Paste it into your spreadsheet.", out.Say)

	out = p.send("/desk/rows", append(append([]string{"act", "save"}, cell...), carried...)...)
	require.Contains(t, out.File.Text, "B\t2026-12-15")
	require.Equal(t, "The table is saved as links.tsv. Look among your downloads.", out.Say)

	out = p.send("/desk/cards", append(append([]string{"act", "cards"}, cell...), carried...)...)
	require.True(t, out.Push, "the way back leads to the rows")
	require.Contains(t, p.text(), "3 cards")
	p.send("/desk/rows")
	require.NotContains(t, p.last.HTML, `id="repair"`, "and they are as they went to the cards")

	out = p.send("/desk/rows", append([]string{"copy", "0", "cell-3-1", "half typed", "leave", "3"}, carried...)...)
	require.NotContains(t, out.Send.Text, "Spreadsheet")
	require.Contains(t, out.HTML, `value="half typed"`)
	require.Contains(t, out.HTML, `value="3" checked`)
	out = p.send("/desk/rows", append([]string{"sent", "copied"}, p.carried()...)...)
	require.Contains(t, out.Say, "Paste it into a message.")
}

// A row that is left out is an empty one, so that the table can be pasted over the one in the
// spreadsheet: all others keep their places.
func TestLeaveOut(t *testing.T) {
	p := atDesk(t)
	p.check("Label\tDate\tJoint\nA\t2026-12-14\tknee\nA\t2026-12-14\tknee\nC\t2026-12-16\thip\n")
	require.Contains(t, p.part("repair"), "Leave row 3 out.")
	p.send("/desk/rows", append([]string{"act", "again", "leave", "3", "leave", "77", "leave", "x"}, p.carried()...)...)
	require.Contains(t, p.last.Say, "2 links are ready.")
	require.NotContains(t, p.last.HTML, `id="repair"`)
	lines := strings.Split(p.carried()[1], "\n")
	require.Empty(t, strings.TrimSpace(lines[2]))
	require.Equal(t, "C\t2026-12-16\thip", strings.Join(strings.Split(lines[3], "\t")[:3], "\t"))
}

// What was not read of a table stands above its links, with the names of the columns.
func TestColumnsThatWereNotRead(t *testing.T) {
	p := atDesk(t)
	p.check("Date\tSkin\n2026-12-14\teczema\n")
	require.Contains(t, p.last.Say, "about the columns.")
	notes := p.part("table-notes")
	require.Contains(t, notes, "Skin")
	require.Contains(t, notes, "knee")
	require.Contains(t, p.part("columns"), "Skin condition or soap allergy")
	require.Less(t, strings.Index(p.last.HTML, `id="table-notes"`), strings.Index(p.last.HTML, `id="rows-copy"`))
}

// Links that were made with other settings say another phone number: that is said on each of the
// desk's screens that shows or prints them, and a click makes new ones.
func TestLinksOfOtherSettings(t *testing.T) {
	p := atDesk(t)
	p.send("/desk", one("label", "P1")...)
	p.check(threeRows)
	before := desk.UnpackDone(p.carried()[3], pageAddress)
	require.NotContains(t, p.last.HTML, `id="notice-settings"`)
	settings := plan.BaseOf(demoProgram)
	settings.Program.Phone = "555-0199"
	p.open(desk.Address(&settings))
	require.Contains(t, p.part("notice-settings"), "made with other settings")
	p.send("/desk/rows")
	require.Contains(t, p.last.HTML, `id="notice-settings"`)
	p.send("/desk/cards", append([]string{"act", "cards"}, p.carried()...)...)
	require.Contains(t, p.last.HTML, `id="notice-settings"`)

	name, _ := cut(p.last.HTML[strings.Index(p.last.HTML, `id="notice-settings"`):], `name="`)
	value, _ := cut(p.last.HTML[strings.Index(p.last.HTML, `id="notice-settings"`):], `value="`)
	p.send("/desk/rows", "act", "renew", name, html.UnescapeString(value))
	after := desk.UnpackDone(p.carried()[3], pageAddress)
	require.Len(t, after, 3)
	for i, d := range after {
		if d.Fragment != "" {
			require.Equal(t, "555-0199", p.planOf(d.Fragment).Program.Phone)
			require.NotEqual(t, before[i].Fragment, d.Fragment)
		}
	}
	require.Equal(t, desk.NewLink, after[0].State)
}

func TestBackFromTheRowsLeadsHome(t *testing.T) {
	p := atDesk(t)
	p.send("/desk", one("label", "P1")...)
	require.True(t, p.send("/desk/rows", "act", "check", "rows", p.rows()).Push)
	require.False(t, p.send("/desk/rows", append([]string{"act", "again"}, p.carried()...)...).Push)
	require.True(t, p.send("/desk/cards", append([]string{"act", "cards"}, p.carried()...)...).Push)
}
