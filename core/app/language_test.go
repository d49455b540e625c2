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
