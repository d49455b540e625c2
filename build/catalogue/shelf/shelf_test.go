package shelf

import (
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

func asked(t *testing.T, h http.Handler, path string) *http.Response {
	w := httptest.NewRecorder()
	h.ServeHTTP(w, httptest.NewRequest(http.MethodGet, path, nil))
	return w.Result()
}

// Content Security Policy Level 3: frame-ancestors (6.4.2) and frame-src (6.1.6).
func TestOnlyTheCatalogueMayBeFramed(t *testing.T) {
	folder := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(folder, "index.html"), []byte("<h1>catalogue</h1>"), 0o644))
	site := http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) { w.WriteHeader(http.StatusTeapot) })
	h, err := Beside(site, folder)
	require.NoError(t, err)
	out := asked(t, h, "/catalogue/")
	require.Equal(t, http.StatusOK, out.StatusCode)
	require.Contains(t, out.Header.Get(policy), "frame-ancestors 'self'; frame-src 'self'")
	require.NotContains(t, out.Header.Get(policy), "'none'; frame-src")
	require.Equal(t, http.StatusNotFound, asked(t, h, "/catalogue/nothing.html").StatusCode)
	require.Equal(t, http.StatusPermanentRedirect, asked(t, h, "/catalogue").StatusCode)
	require.Equal(t, http.StatusTeapot, asked(t, h, "/").StatusCode, "everything else is the site's")
	require.Equal(t, http.StatusTeapot, asked(t, h, "/cataloguex").StatusCode)
}

func TestTheIndexHasEveryState(t *testing.T) {
	out := t.TempDir()
	list := `[{"Group":"One","Name":"a-b","What":"It is <a>."},{"Group":"Two","Name":"c","What":"C."},{"Group":"One","Name":"d","What":"D."}]`
	require.NoError(t, os.WriteFile(filepath.Join(out, "states.json"), []byte(list), 0o644))
	require.NoError(t, writeIndex(out, []string{"en", "es"}))
	html, err := os.ReadFile(filepath.Join(out, "index.html"))
	require.NoError(t, err)
	require.Contains(t, string(html), `src="a-b.en.html"`)
	require.Contains(t, string(html), "It is &lt;a&gt;.")
	require.Contains(t, string(html), `One</a> (2)`)
	require.Contains(t, string(html), `value="es"`)
}

func TestABundleWithoutItsStyle(t *testing.T) {
	dist, out := t.TempDir(), t.TempDir()
	_, err := copyStyle(dist, out)
	require.ErrorContains(t, err, "cannot be read for its style")
	require.NoError(t, os.WriteFile(filepath.Join(dist, "index.html"), []byte("<p>"), 0o644))
	_, err = copyStyle(dist, out)
	require.ErrorContains(t, err, "has no <style>")
	require.NoError(t, os.WriteFile(filepath.Join(dist, "index.html"), []byte("<style>p{}</style>"), 0o644))
	name, err := copyStyle(dist, out)
	require.NoError(t, err)
	css, err := os.ReadFile(filepath.Join(out, name))
	require.NoError(t, err)
	require.Equal(t, "p{}", string(css))
}

func TestLanguages(t *testing.T) {
	all, err := languagesOf("../../..")
	require.NoError(t, err)
	require.Equal(t, []string{"en", "es"}, all)
}
