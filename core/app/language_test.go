package app

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/guide"
)

// inLanguage is a request from a device that has a language, and where one was chosen.
func inLanguage(device, chosen string) Request {
	r := Request{Path: "/", Zone: "America/Chicago", Language: device, Now: 1790000000, Random: make([]byte, 16), Kept: map[string]string{}}
	if chosen != "" {
		r.Kept[keyLanguage] = chosen
	}
	return r
}

// What was chosen on a device goes before the device's own language; the answer always says
// which one it is in, and how that is written (CLDR 48: en and es are written left to right).
func TestTheChosenLanguageGoesFirst(t *testing.T) {
	cases := []struct{ device, chosen, language string }{
		{"en-US", "", "en"},
		{"es-MX", "", "es"},
		{"es-MX", "en", "en"},
		{"en-US", "es", "es"},
		{"fr-CA", "", "en"},
		{"es-US", "fr", "es"}, // chosen on a page that spoke more, and no longer spoken
		{"C", "", "en"},
		{"", "es", "es"},
	}
	for _, c := range cases {
		out := Handle(inLanguage(c.device, c.chosen))
		require.Equal(t, c.language, out.Language, c)
		require.Equal(t, "ltr", out.Direction, c)
		require.Contains(t, out.HTML, guide.Open(c.language).Say("front.start"), c)
		require.Empty(t, out.Drop, c)
	}
}

// Every page has a button for each other language and none for its own, with the name that
// its speakers give it (ISO 639-1 en and es; endonyms as CLDR 48 has them).
func TestEveryPageHasTheSwitch(t *testing.T) {
	for _, fragment := range []string{"", "demo", "start", "damaged-link"} {
		r := inLanguage("en", "")
		r.Fragment = fragment
		out := Handle(r)
		require.Equal(t, 1, strings.Count(out.HTML, `action="/language"`), fragment)
		require.Contains(t, out.HTML, `name="language" value="es" lang="es" dir="ltr">Español</button>`, fragment)
		require.NotContains(t, out.HTML, `value="en" lang="en"`, fragment)
		r.Language = "es"
		require.Contains(t, Handle(r).HTML, `value="en" lang="en" dir="ltr">English</button>`, fragment)
	}
}

// choose asks for a language on a screen of the device.
func choose(r Request, tag, at string) Response {
	r.Path, r.Fields = "/language", []Field{{"language", tag}, {"at", at}}
	return Handle(r)
}

func TestSwitchingShowsTheSameScreen(t *testing.T) {
	r := inLanguage("en-US", "")
	r.Fragment = wordDemo
	demo := Handle(r)
	for _, e := range demo.Keep {
		r.Kept[e.Key] = e.Value
	}
	r.Fragment = demo.Fragment
	for _, path := range []string{"/", "/facts", "/link", "/link/part", "/link/lock", "/duty/new/therapy", "/calendar", "/import", "/me"} {
		r.Path, r.Fields = path, nil
		before := Handle(r)
		out := choose(r, "es", path)
		require.Equal(t, before.Path, out.Path, path)
		require.Equal(t, before.Fragment, out.Fragment, path)
		require.Equal(t, "es", out.Language, path)
		require.Contains(t, out.Keep, Entry{keyLanguage, "es"}, path)
		require.False(t, out.Push, path)
		require.Equal(t, "La página está ahora en español.", out.Say, path)
		require.Contains(t, out.HTML, `id="`+out.Focus+`"`, path)
		require.Equal(t, "language-en", out.Focus, path)
		require.Equal(t, strings.Count(before.HTML, "<form "), strings.Count(out.HTML, "<form "), "%s: not the same screen", path)
	}
}

// The language changes how a plan is shown, never the plan: the same link, on every device.
func TestALanguageChangesNoPlan(t *testing.T) {
	r := inLanguage("en-US", "")
	r.Fragment = wordDemo
	english := Handle(r)
	r.Language = "es-US"
	require.Equal(t, english.Fragment, Handle(r).Fragment)
}

func TestWrongWishesAreNoHarm(t *testing.T) {
	r := inLanguage("en-US", "")
	for _, tag := range []string{"", "fr", "EN", "../en", "es-MX", "words"} {
		out := choose(r, tag, "/")
		require.Equal(t, "en", out.Language, tag)
		for _, e := range out.Keep {
			require.NotEqual(t, keyLanguage, e.Key, tag)
		}
	}
	for _, at := range []string{"", "/language", "javascript:alert(1)", "//elsewhere", "/nothing/here", "start"} {
		out := choose(r, "es", at)
		require.Equal(t, "es", out.Language, at)
		require.Equal(t, "/", out.Path, at)
		require.Contains(t, out.HTML, guide.Open("es").Say("front.start"), at)
	}
}

// All screens that links of the example lead to can be shown in another language; of what
// acts without a field to say so, nothing is done.
func TestTheSwitchOnlyShows(t *testing.T) {
	p := started(t)
	p.fragment = "demo"
	p.send("/")
	seen, next := map[string]bool{}, []string{"/"}
	for len(next) > 0 {
		path := next[0]
		next = next[1:]
		if seen[path] {
			continue
		}
		seen[path] = true
		p.send(path)
		require.True(t, shows(path), path)
		require.True(t, shows(p.path), "%s shows %s", path, p.path)
		for _, part := range strings.Split(p.last.HTML, ` data-path="`)[1:] {
			link, _, _ := strings.Cut(part, `"`)
			next = append(next, link)
		}
	}
	require.Greater(t, len(seen), 40)

	p.fragment = "demo"
	p.send("/")
	d := p.plan()
	duty, line := dutyPath(d.Duties[0].ID), "/line/"+number(d.Lines[0].ID)
	for _, at := range []string{"/forget", "/put-back", "/read", "/join", "/clock", "/tick", "/settle", "/send", "/open", "/language", "/language/",
		duty + "/drop", duty + "/put-back", duty + "/date", duty + "/days", "/helper/1/out", "/helper/1/remove", line + "/out", "/split/fill", "/split/undo", "/undo",
		"/import/add", "/link/other", "/link/afresh/x", "forget", "//forget", "", "/nothing"} {
		require.False(t, shows(at), at)
		before, kept := p.fragment, p.kept[keyPlan+planKey(d.Number)]
		p.send("/language", "language", "es", "at", at)
		require.Equal(t, before, p.fragment, at)
		require.Equal(t, kept, p.kept[keyPlan+planKey(d.Number)], at)
		require.Equal(t, "/", p.path, at)
	}
}
