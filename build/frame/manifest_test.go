package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/guide"
	"newel/core/page"
)

// Colours are held to the tokens, members to the W3C Web Application Manifest.
func TestManifest(t *testing.T) {
	tokens, err := os.ReadFile("../../web/style/tokens.css")
	require.NoError(t, err)
	day, night, _ := strings.Cut(string(tokens), "prefers-color-scheme: dark")
	require.Contains(t, day, "--paper: "+page.PaperLight+";")
	require.Contains(t, night[:strings.Index(night, "@media")], "--paper: "+page.PaperDark+";")
	for _, language := range guide.Languages {
		text, err := manifestOf(language)
		require.NoError(t, err)
		var m map[string]any
		require.NoError(t, json.Unmarshal(text, &m))
		require.Equal(t, "standalone", m["display"])
		require.Equal(t, "./", m["scope"])
		require.Equal(t, "./", m["id"], "one application in all languages")
		require.Equal(t, "./#last", m["start_url"])
		require.Equal(t, language, m["lang"])
		require.Contains(t, page.Frame(language, assets), `<link rel="manifest" href="`+page.ManifestName(language)+`">`)
		for _, i := range m["icons"].([]any) {
			require.FileExists(t, filepath.Join("../../web/static", i.(map[string]any)["src"].(string)))
		}
	}
}
