package app

import (
	"html"
	"maps"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/desk"
)

// onDevice is what a phone or computer keeps when the tab is closed.
func (p *phone) onDevice() map[string]string {
	kept := maps.Clone(p.kept)
	maps.DeleteFunc(kept, func(key, _ string) bool { return strings.HasPrefix(key, keyTab) })
	return kept
}

// A reload, another screen and another language lose none of the patients that were put in, and a
// click clears them all. What a tab holds is ours; no published source.
func TestTheTabKeepsThePatients(t *testing.T) {
	p := atDesk(t)
	p.send("/desk", one("label", "P1")...)
	p.send("/desk", one("surgery", "2026-12-11", "label", "P2")...)
	for _, path := range []string{"/desk", "/desk/settings", "/desk/class", "/desk"} {
		p.send(path)
	}
	require.Contains(t, p.part("session"), "2 links made")
	p.send("/language", "language", "es", "at", "/desk")
	require.Contains(t, p.rows(), "P2")
	p.send("/language", "language", "en", "at", "/desk")

	p.check(threeRows)
	links := desk.UnpackDone(p.carried()[3], pageAddress)
	require.Len(t, links, 3)
	p.send("/desk/rows")
	require.Equal(t, links, desk.UnpackDone(p.carried()[3], pageAddress), "the same after a reload")

	p.send("/desk", "act", "clear")
	require.Equal(t, p.onDevice(), p.kept)
	require.NotContains(t, p.last.HTML, `id="session"`)
	require.Contains(t, p.last.Say, "cleared")
	require.Equal(t, "notice-cleared", p.last.Focus)
	p.send("/desk", p.hiddenOf("notice-cleared", "act", "put-back")...)
	require.Contains(t, p.part("session"), "2 links made")
	p.send("/desk", "act", "clear")
	p.send("/desk/rows")
	require.NotContains(t, p.last.HTML, `id="row-0"`)
}

const threeRows = "Label\tDate\nA\t2026-12-14\nB\t2026-02-30\nC\t2026-12-16\n"

// A row that is put right leaves the links of the others as they are: they may have been sent.
func TestAMendedRowLeavesTheOtherLinks(t *testing.T) {
	p := atDesk(t)
	p.check(threeRows)
	before := desk.UnpackDone(p.carried()[3], pageAddress)
	carried := p.carried()
	p.send("/desk/rows", append([]string{"act", "again", "cell-3-1", "2026-12-15"}, carried...)...)
	after := desk.UnpackDone(p.carried()[3], pageAddress)
	require.Len(t, after, 3)
	require.Equal(t, []string{before[0].Fragment, before[2].Fragment}, []string{after[0].Fragment, after[2].Fragment})
	require.NotEmpty(t, after[1].Fragment)

	p.send("/desk/rows", append([]string{"act", "edit"}, carried...)...)
	require.Contains(t, p.text(), before[0].Fragment, "the links stand in the box")
}

// A table that is put in gets the links of none that was there before, whatever its rows.
func TestAnotherTableGetsNoLinksOfTheOneBefore(t *testing.T) {
	p := atDesk(t)
	p.check(threeRows)
	p.send("/desk/rows", "act", "edit", "text", "Label\tDate\nX\t2027-01-11\nY\t2027-01-12\nZ\t2027-01-13\n")
	for _, d := range desk.UnpackDone(p.kept[keyTab+tabMade], pageAddress) {
		if d.Fragment != "" {
			require.NotContains(t, p.last.HTML, d.Fragment)
		}
	}
}

// A row that was put right before its message went out has a first message, which speaks of no
// other day. What came to a family counts as sent all the same: the link has the plan's number.
func TestAMendedRowStillHasAFirstMessage(t *testing.T) {
	p := atDesk(t)
	p.check("Label\tDate\tArrival\tJoint\nA\t46357\t5:30 AM\tknee\n")
	before := desk.UnpackDone(p.carried()[3], pageAddress)
	require.Equal(t, desk.NewLink, before[0].State)
	p.send("/desk/rows", append([]string{"act", "again", "cell-2-1", "2026-12-04"}, p.carried()...)...)
	after := desk.UnpackDone(p.carried()[3], pageAddress)
	require.Equal(t, desk.NewLink, after[0].State)
	require.Contains(t, after[0].Text, "Friday, December 4")
	require.NotContains(t, after[0].Text, "new date")
	require.Equal(t, p.planOf(before[0].Fragment).Number, p.planOf(after[0].Fragment).Number)
}

// What the shell had no room to send is not dropped.
func TestWhatWasLeftOutOfARequestStays(t *testing.T) {
	p := atDesk(t)
	p.kept[keyTab+tabRows] = ""
	p.send("/desk")
	require.Contains(t, p.kept, keyTab+tabRows)
}

// hiddenOf are the hidden fields of a part of the page, and more.
func (p *phone) hiddenOf(id string, more ...string) []string {
	p.t.Helper()
	_, part, ok := strings.Cut(p.last.HTML, `id="`+id+`"`)
	require.True(p.t, ok)
	part, _, _ = strings.Cut(part, "</form>")
	fields := more
	for _, tag := range splitTags(part) {
		if name, ok := cut(tag, `type="hidden" name="`); ok {
			value, _ := cut(tag, `value="`)
			fields = append(fields, name, html.UnescapeString(value))
		}
	}
	return fields
}
