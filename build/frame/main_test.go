package main

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/guide"
	"newel/core/page"
)

var assets = page.Assets{Style: "page.css", Begin: "begin.js", Script: "page.js", Core: "core.wasm", Whole: "whole.wasm", Font: "type.woff2"}

// A page in each language, by the names that they link to each other with; each says its
// language (WCAG 2.2, 3.1.1), and where the others are (HTML, link type "alternate").
func TestAPageInEachLanguage(t *testing.T) {
	folder := t.TempDir()
	require.NoError(t, write(assets, guide.Languages, folder))
	names := map[string]string{"en": "index.html", "es": "es.html"}
	require.ElementsMatch(t, []string{"en", "es"}, guide.Languages, "this test names each language")
	for language, name := range names {
		data, err := os.ReadFile(folder + "/" + name)
		require.NoError(t, err)
		html := string(data)
		require.Contains(t, html, `<html lang="`+language+`" dir="ltr">`)
		require.Contains(t, html, `<link rel="alternate" hreflang="en" href="./">`)
		require.Contains(t, html, `<link rel="alternate" hreflang="es" href="es.html">`)
		require.Contains(t, html, guide.Open(language).Say("app.title"))
		require.Contains(t, html, guide.Open(language).Say("trouble.core"))
	}
	english, err := os.ReadFile(folder + "/index.html")
	require.NoError(t, err)
	require.Contains(t, string(english), `<a href="es.html?chosen" hreflang="es" lang="es" dir="ltr">Español</a>`)
}

// A language that is not whole stops all of it: nothing is written that could be served.
func TestALanguageThatLacksSomethingStopsTheBuild(t *testing.T) {
	folder := t.TempDir()
	require.ErrorContains(t, write(assets, []string{"en", "qq"}, folder), "qq is no language of text/")
	entries, err := os.ReadDir(folder)
	require.NoError(t, err)
	require.Empty(t, entries)
}

func TestALongListIsCut(t *testing.T) {
	missing := make([]string, 25)
	for i := range missing {
		missing[i] = "es: the word x is missing"
	}
	require.ErrorContains(t, incomplete(missing), "\n  and 5 more\n")
	require.NotContains(t, incomplete(missing[:3]).Error(), "more")
}
