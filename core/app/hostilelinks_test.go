package app

import (
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/build/hostile"
	"newel/core/link"
	"newel/core/merge"
)

// hostileLinks are those of testdata/hostile/links.txt, by name.
func hostileLinks(t *testing.T) map[string]string {
	data, err := os.ReadFile("../../testdata/hostile/links.txt")
	require.NoError(t, err)
	all := map[string]string{}
	for l := range strings.Lines(string(data)) {
		if name, fragment, ok := strings.Cut(strings.TrimSpace(l), " "); ok && name != "#" {
			all[name] = fragment
		}
	}
	require.Greater(t, len(all), 80)
	return all
}

// Every hostile link on every screen: each answer comes, is a page that the templates wrote, and shows nothing that
// nobody sees; no message that is handed over and no file has a control in it; and of a plan that the device
// had before, nothing is lost.
func TestHostileLinksOnEveryScreen(t *testing.T) {
	pages, err := hostile.ReadPages("../..")
	require.NoError(t, err)
	links := hostileLinks(t)
	paths := []string{"/", "/facts", "/link", "/link/part", "/helper/1", "/duty/1", "/duty/1/change", "/split", "/calendar", "/print", "/print/fridge", "/print/card", "/print/helper.1",
		"/guide/pack", "/say-back", "/me"}
	opened := 0
	for name, fragment := range links {
		p := withTherapy(t)
		mine, before := p.fragment, p.kept[keyPlan+planKey(p.plan().Number)]
		d, err := link.Decode(fragment)
		if err == nil {
			opened++
		}
		at := paths
		if len(fragment) > 1000 {
			at = paths[:1] // those that ask for much; how much is what core/link counts
		}
		for _, path := range at {
			p.fragment = fragment
			stop := hostile.Watch(name + " at " + path)
			out := p.send(path)
			stop()
			require.Empty(t, pages.Judge(out.HTML), "%s at %s", name, path)
			require.NotRegexp(t, hostile.Unseen, out.HTML+out.Title+out.Say, "%s at %s", name, path)
		}
		if err == nil {
			handedOver(t, p, name, d)
		}
		p.open(mine)
		require.Equal(t, before, p.kept[keyPlan+planKey(p.plan().Number)], name)
	}
	require.Greater(t, opened, 30)
	require.Less(t, opened, len(links))
}

// A hostile link under the number of a plan that this device has: it is joined or put aside, and what was written here
// and not heard of by anybody is still there, or asked about.
func TestHostileLinksIntoAPlan(t *testing.T) {
	pages, err := hostile.ReadPages("../..")
	require.NoError(t, err)
	joined := 0
	for name, fragment := range hostileLinks(t) {
		d, err := link.Decode(fragment)
		if err != nil || len(fragment) > 1000 {
			continue
		}
		own := withTherapy(t).plan()
		own.Number = d.Number
		written := own
		written.Arrival, written.Program.Phone = 5*60+15, "555-0142"
		p := newPhone(t)
		p.open(link.Encode(merge.New(own).Change(merge.FirstActor+3, written)))
		stop := hostile.Watch(name)
		out := p.open(fragment)
		stop()
		require.Empty(t, pages.Judge(out.HTML), name)
		require.NotRegexp(t, hostile.Unseen, out.HTML+out.Title+out.Say, name)
		for _, want := range []struct {
			field merge.Field
			value string
		}{{merge.Arrival, "315"}, {merge.Phone, "555-0142"}} {
			require.True(t, slices.ContainsFunc(p.doc().Get(merge.Key{Field: want.field}), func(v merge.Version) bool { return v.Value == want.value }), "%s lost %s", name, want.value)
		}
		after := p.plan()
		require.NotNil(t, after.Duty(own.Duties[0].ID), name)
		joined++
	}
	require.Greater(t, joined, 20)
}

// handedOver asks for what goes to others: a message with the link, and a calendar file.
func handedOver(t *testing.T, p *phone, name string, d *merge.Doc) {
	for _, path := range []string{"/link", "/link/part", "/calendar"} {
		p.open(link.Encode(d))
		p.send(path)
		for _, fields := range [][]string{{"send", "1"}, {"copy", "1"}, {"make", "1", "whose", "all", "steps", "1"}} {
			out := p.send(path, fields...)
			if out.Send != nil {
				require.NotRegexp(t, hostile.Unseen, out.Send.Title+out.Send.Text, name)
				require.Regexp(t, `^[A-Za-z0-9_-]*$`, out.Send.Fragment, name)
			}
			if out.File != nil {
				require.NotRegexp(t, hostile.Unseen, strings.ReplaceAll(out.File.Text, "\r\n", "\n"), name)
				require.Regexp(t, `^[a-zA-Z0-9.-]+$`, out.File.Name, name)
				require.Equal(t, 1, strings.Count(out.File.Text, "BEGIN:VCALENDAR"), name)
			}
		}
	}
}

// Ten thousand helpers, in a link of a few hundred letters, are refused in words, and so is a surgery in the year 9999.
func TestWhatIsTooMuchIsRefusedInWords(t *testing.T) {
	links := hostileLinks(t)
	for _, name := range []string{"helpers-10000", "helpers-61", "surgery-2932896"} {
		p := newPhone(t)
		out := p.open(links[name])
		require.NotEmpty(t, p.part("title"), name)
		require.False(t, slices.ContainsFunc(out.Keep, func(e Entry) bool { return strings.HasPrefix(e.Key, keyPlan) }), "%s is kept", name)
	}
}
