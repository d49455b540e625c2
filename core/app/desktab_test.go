package app

import (
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
