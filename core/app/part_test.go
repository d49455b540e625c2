package app

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/link"
	"newel/core/merge"
)

// partLink is a family's plan on one phone, and the link of Luis's part of it: he drives to
// the hospital, and has one date of Dana's therapy.
func partLink(t *testing.T) (p *phone, fragment string) {
	t.Helper()
	p = started(t)
	p.send("/facts", facts("hospital", "Alder Ferry Hospital", "address", "12 Millrace Road", "phone", "555-0142")...)
	p.send("/duty/new/therapy", therapy("place", "Millrace Therapy, 3 Quay Street", "note", "Loose trousers")...)
	p.send("/duty/1/date", "act", "give", "day", "2026-12-16", "who", "Luis")
	p.send("/who/drive-there", "who", "Luis")
	p.send("/tick", "code", "11", "n", "0", "done", "1")
	fragment = link.EncodePart(p.plan(), "Luis")
	require.NotEmpty(t, fragment)
	return p, fragment
}

func TestOneHelpersPartIsRead(t *testing.T) {
	_, fragment := partLink(t)
	p := newPhone(t)
	out := p.open(fragment + ".")
	require.Equal(t, []string{"/", fragment}, []string{out.Path, out.Fragment})
	require.Contains(t, out.Title, "Only Luis's duties, to read")
	require.Empty(t, p.kept, "it is no copy of the plan, and nothing of it is kept")
	require.Contains(t, p.part("notice-part"), "ask whoever sent it")
	for _, there := range []string{"Thursday, December 3", "9 days to go", "Alder Ferry Hospital, 12 Millrace Road", "555-0142", "Rosa: knee replacement", "part of the plan as it was when the link was sent"} {
		require.Contains(t, p.text(), there)
	}
	require.Contains(t, p.part("next"), "Leave home by 04:15")
	require.Contains(t, p.part("day-2026-12-03"), "Leave home by 04:15 Drive to the hospital")
	require.Contains(t, p.part("day-2026-12-03"), "Surgery begins", "the day itself, since he is there")
	require.Contains(t, p.part("family"), "Ride to therapy Millrace Therapy, 3 Quay Street Loose trousers")
	require.Contains(t, p.part("family"), "1 date to come")
	require.Contains(t, p.part("family"), "Wed, Dec 16, 10:30")
	require.Contains(t, p.part("signs"), "555-0142")
	require.Contains(t, p.text(), "The hospital's own instructions come first")
	require.Equal(t, refreshSeconds, out.Refresh)
	for _, not := range []string{"Dana", "Dec 14", "rugs", "Nobody has this yet"} {
		require.NotContains(t, textOf(t, out.HTML, "main"), not)
	}
	// No way to change anything: the only form is that of the clock.
	for _, form := range strings.Split(out.HTML, "<form ")[1:] {
		require.True(t, strings.HasPrefix(form, `action="/clock"`), form[:40])
	}
	for _, link := range strings.Split(out.HTML, `data-path="`)[1:] {
		path, _, _ := strings.Cut(link, `"`)
		require.Contains(t, []string{"/", "/calendar"}, path)
	}
}

// A helper who only feeds the cat is not told how the day in the hospital usually goes.
func TestAPartWithoutTheHospital(t *testing.T) {
	p := started(t)
	p.send("/duty/new/pets", "first", "2026-12-01", "at", "07:30", "length", "20", "often", "daily", "every", "1", "month", "day", "ends", "weeks", "weeks", "2", "title", "Feed the cat", "who", "Ann")
	reader := newPhone(t)
	reader.open(link.EncodePart(p.plan(), "Ann"))
	require.Contains(t, reader.part("days"), "Feed the cat")
	require.NotContains(t, reader.part("days"), "Surgery begins")
	require.Contains(t, reader.part("next"), "Feed the cat")
	reader.at("2027-03-03T09:00:00-06:00").send("/")
	require.Contains(t, reader.part("next"), "Nothing is due now")
	require.Contains(t, reader.part("days"), "Nothing is left for Ann to do")
}

// Whatever is asked for with a part in the address, nothing changes and nothing is kept.
func TestAPartCannotBeChanged(t *testing.T) {
	whole, fragment := partLink(t)
	p := newPhone(t)
	for _, path := range []string{"/facts", "/tick", "/arrival", "/way", "/me", "/send", "/link", "/link/part", "/link/lock", "/link/afresh",
		"/duty/1", "/duty/1/change", "/duty/1/drop", "/duty/new/pets", "/who/drive-there", "/import", "/import/add", "/settle", "/join", "/read", "/calendar/1", "/x", "/unlock"} {
		p.fragment = fragment
		out := p.send(path, append(facts("arrival", "07:00"), "code", "11", "n", "0", "done", "1", "who", "Ann", "act", "send", "sure", "1", "phrase", "long enough", "part", "1", "key", "x", "value", "y")...)
		require.Equal(t, fragment, out.Fragment, path)
		require.Contains(t, p.part("notice-part"), "Only Luis's duties, to read", path)
		require.Empty(t, p.kept, path)
		require.Nil(t, out.Send, path)
		require.Nil(t, out.Lock, path)
		require.Nil(t, out.File, path)
	}
	// On a device that has the plan it stays as it is, and is offered.
	before := whole.fragment
	keys := len(whole.kept)
	whole.open(fragment)
	require.Equal(t, keys, len(whole.kept))
	require.Contains(t, whole.last.HTML, `href="#`+before+`" data-path="/">Open the whole plan on this device`)
	require.NotContains(t, p.last.HTML, "Open the whole plan")
}

// The helper's part goes into their calendar, with the UIDs that the whole plan's file has,
// so that one takes the place of the other (RFC 5545 3.8.4.7).
func TestAPartGoesIntoACalendar(t *testing.T) {
	whole, fragment := partLink(t)
	p := newPhone(t)
	p.open(fragment)
	out := p.send("/calendar")
	require.Equal(t, []string{"/calendar", fragment}, []string{out.Path, out.Fragment})
	require.NotContains(t, p.text(), "Whose rides and help?")
	require.NotContains(t, p.text(), "patient's steps")
	require.NotContains(t, p.last.HTML, "/import")
	out = p.send("/calendar", "make", "1", "alarm", "30", "whose", "all", "steps", "1")
	require.NotNil(t, out.File)
	require.Contains(t, out.File.Text, "Drive to the hospital")
	require.NotContains(t, out.File.Text, "Dana")
	require.NotContains(t, out.File.Text, "shower")
	for key := range p.kept {
		require.True(t, strings.HasPrefix(key, keyCalendar), "%s: only what calendars hold is kept", key)
	}
	full := whole.send("/calendar", "make", "1", "alarm", "30", "whose", "h2")
	require.Equal(t, uids(full.File.Text), uids(out.File.Text))
	require.GreaterOrEqual(t, len(uids(out.File.Text)), 2)
}

func uids(file string) []string {
	var all []string
	for line := range strings.Lines(file) {
		if uid, ok := strings.CutPrefix(line, "UID:"); ok {
			all = append(all, strings.TrimSpace(uid))
		}
	}
	return all
}

func TestAPartInAZoneThatIsNotKnown(t *testing.T) {
	whole, _ := partLink(t)
	odd := whole.plan()
	odd.Zone = "Mars/Olympus"
	p := newPhone(t)
	p.open(link.EncodePart(odd, "Luis"))
	require.Contains(t, p.text(), "This link needs a newer page")
	require.Empty(t, p.kept)
	require.NotPanics(t, func() { p.open(link.EncodePart(merge.New(odd).Plan(), "Nobody")) })
}
