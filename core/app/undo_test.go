package app

import (
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// What is taken out comes back with one tap on the screen that the person lands on, just as
// it was. Our own rule: there is no "are you sure", so there is a way back.
func TestALineComesBack(t *testing.T) {
	for _, from := range []string{"", "/guide/pack"} {
		p := started(t)
		p.send("/line/add", "list", "pack", "from", from, "text", "Bring the lamp", "day", "2026-12-01")
		before := p.plan()
		out := p.send("/line/"+number(before.Lines[0].ID)+"/out", "list", "pack", "from", from)
		require.Empty(t, p.plan().Lines)
		require.Equal(t, "notice-undo", out.Focus)
		require.Equal(t, "Taken out of What to pack: Bring the lamp", out.Say)
		require.Contains(t, p.part("notice-undo"), "Undo")
		path := p.path
		require.Equal(t, from != "", path == "/guide/pack")

		out = p.send("/undo", "from", from)
		require.Equal(t, before, p.plan())
		require.Equal(t, path, p.path)
		require.Equal(t, "Undone. It is as it was before.", out.Say)
		require.NotContains(t, out.HTML, `id="notice-undo"`)
		p.send("/undo", "from", from) // sent twice
		require.Equal(t, before, p.plan())
		require.Contains(t, p.last.Say, "cannot be put back in one go")
	}
}

// With a name comes back what was known of the person, and nobody else's duty changes hands.
func TestANameComesBack(t *testing.T) {
	p := started(t)
	p.send("/helper/new", helper(append(workdays("08:00", "17:00"), "name", "Ann", "when", "work")...)...)
	p.send("/helper/new", helper("name", "Luis")...)
	p.send("/duty/new/therapy", therapy("who", "Luis")...)
	about, luis := p.about("Ann"), p.about("Luis")
	p.send("/helper/1/remove", "of", "Ann")
	require.Equal(t, []string{"Luis"}, p.plan().Helpers)
	require.Equal(t, "notice-undo", p.last.Focus)
	p.send("/undo", "from", "split")
	require.Equal(t, "/split", p.path)
	require.ElementsMatch(t, []string{"Ann", "Luis"}, p.plan().Helpers)
	require.Equal(t, about, p.about("Ann"))
	require.Equal(t, luis, p.about("Luis"))
	require.Equal(t, "Luis", helperAt(p, p.plan().Duties[0].Who))
}

// "Can no longer help", tapped by mistake.
func TestSomebodyIsInAgain(t *testing.T) {
	p := started(t)
	p.send("/helper/new", helper("name", "Luis")...)
	p.send("/duty/new/therapy", therapy("who", "Luis")...)
	before := p.plan()
	p.send("/helper/1/out", "of", "Luis")
	require.True(t, p.about("Luis").Out)
	require.Contains(t, p.part("notice-undo"), "Luis can no longer help.")
	p.send("/undo", "from", "split")
	require.Equal(t, before, p.plan())
	p.send("/helper/1/out", "of", "Luis")
	p.send("/helper/1/back", "of", "Luis")
	require.NotContains(t, p.last.HTML, `id="notice-undo"`, "it was taken back by hand")
}

// Nothing is put back over what was changed since, nor long after; then nothing changes.
func TestWhatIsTooLateIsNotUndone(t *testing.T) {
	p := started(t)
	p.send("/line/add", "list", "pack", "from", "", "text", "Bring the lamp", "day", "")
	id := number(p.plan().Lines[0].ID)
	p.send("/line/"+id+"/out", "list", "pack", "from", "")
	now := p.now
	p.now = now.Add(undoFor)
	p.send("/")
	require.Contains(t, p.part("notice-undo"), "Undo")
	p.now = now.Add(undoFor + time.Second)
	p.send("/")
	require.NotContains(t, p.last.HTML, `id="notice-undo"`)
	require.NotContains(t, p.kept, keyUndo+planKey(p.plan().Number), "what was taken out does not stay on the device")
	p.now = now
	p.send("/tick", "code", "1", "n", "0", "done", "1")
	require.NotContains(t, p.last.HTML, `id="notice-undo"`)
	after := p.plan()
	p.send("/undo", "from", "")
	require.Equal(t, after, p.plan())
	require.Contains(t, p.last.Say, "cannot be put back in one go")

	// Nor is the plan of another family put back.
	other := newPhone(t)
	other.open("demo")
	require.NotEqual(t, after.Number, other.plan().Number)
	p.kept[keyUndo+planKey(after.Number)] = endOf(p.fragment) + " " + strconv.FormatInt(p.now.Unix(), 10) + " " + other.fragment + " z"
	p.send("/undo", "from", "")
	require.Equal(t, after, p.plan())

	// Whatever else stands there is nothing to put back.
	for _, kept := range []string{"", "x", "x 1 y z", endOf(p.fragment) + " 1 y", endOf(p.fragment) + " a " + p.fragment + " z", endOf(p.fragment) + " 99999999999999 nolink z"} {
		p.kept[keyUndo+planKey(after.Number)] = kept
		p.send("/undo", "from", "")
		require.Equal(t, after, p.plan(), kept)
	}
}

// To ask for the address alone, as the browser's way back does, changes nothing.
func TestUndoIsAnAct(t *testing.T) {
	p := started(t)
	p.send("/line/add", "list", "pack", "from", "", "text", "Bring the lamp", "day", "")
	p.send("/line/"+number(p.plan().Lines[0].ID)+"/out", "list", "pack", "from", "")
	p.send("/undo")
	require.Empty(t, p.plan().Lines)
	p.send("/undo", "from", "")
	require.Len(t, p.plan().Lines, 1)
}

// Of a calendar file everything that came in goes again, and what it changed is as before.
func TestAFileIsTakenOutAgain(t *testing.T) {
	p := started(t)
	p.send("/duty/new/therapy", therapy()...)
	before := p.plan()
	file := strings.Join([]string{
		"BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:x", "BEGIN:VEVENT", "UID:a", "DTSTAMP:20261120T120000Z",
		"DTSTART;TZID=America/Chicago:20261210T103000", "DURATION:PT45M", "SUMMARY:Visit", "END:VEVENT", "END:VCALENDAR", "",
	}, "\r\n")
	p.send("/import/add", "text", file)
	require.Len(t, p.plan().Duties, len(before.Duties)+1)
	require.Contains(t, p.part("notice-undo"), "1 entry is in the plan now.")
	p.send("/undo", "from", "")
	require.Equal(t, before.Duties[0], p.plan().Duties[0])
	require.True(t, p.plan().Duties[1].Dropped, "what calendars know of stays, as taken out")
}
