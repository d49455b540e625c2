package bundle

import (
	"net/http/httptest"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"newel/build/site"
)

func TestInlined(t *testing.T) {
	n := Names{Style: "a.css", Begin: "b.js"}
	page := []byte(`<head><link rel="stylesheet" href="a.css"><script src="b.js"></script></head>`)
	html, err := inlined(page, n, []byte("p{content:\"$1\"}\n"), []byte("f(1<2);\n"))
	require.NoError(t, err)
	// Content Security Policy Level 3, 3.3: the policy holds for what follows it.
	require.Equal(t, `<head>`+site.Meta(site.Policy(html))+`<style>p{content:"$1"}</style><script>f(1<2);</script></head>`, string(html))
	require.Contains(t, string(html), "'wasm-unsafe-eval' 'sha256-")

	_, err = inlined([]byte(strings.Replace(string(page), "<head>", "", 1)), n, nil, nil)
	require.ErrorContains(t, err, "should have <head> once")
	_, err = inlined([]byte("<head></head>"), n, nil, nil)
	require.ErrorContains(t, err, `should have <link rel="stylesheet" href="a.css"> once`)
	_, err = inlined(page, n, []byte("p{}"), []byte(`g("</script>")`))
	require.ErrorContains(t, err, `"</" in it`)
	_, err = inlined(page, n, []byte("p{}"), []byte(`g("<!--")`))
	require.ErrorContains(t, err, `"<!--" in it`)
}

// What a page says of itself is what the header says of it, but for frame-ancestors, which has no meaning in
// a page (Content Security Policy Level 3, 3.3). And a browser looks for the page's encoding in its first
// 1024 bytes (HTML Living Standard, 4.2.5.4), so the policy before it must leave room.
func TestThePageSaysWhatTheHeaderSays(t *testing.T) {
	n := Names{Style: "a.css", Begin: "b.js"}
	page := []byte(`<!doctype html><html lang="en" dir="ltr"><head><meta charset="utf-8"><link rel="stylesheet" href="a.css"><script src="b.js"></script></head>`)
	html, err := inlined(page, n, []byte("p{}"), []byte("f()"))
	require.NoError(t, err)
	require.Less(t, strings.Index(string(html), `<meta charset="utf-8">`)+len(`<meta charset="utf-8">`), 1024)
	require.True(t, strings.HasPrefix(string(html), `<!doctype html><html lang="en" dir="ltr"><head><meta http-equiv="Content-Security-Policy"`))

	h, err := site.New(fstest.MapFS{"index.html": {Data: html}, "es.html": {Data: html}})
	require.NoError(t, err)
	w := httptest.NewRecorder()
	h.ServeHTTP(w, httptest.NewRequest("GET", "/", nil))
	_, rest, _ := strings.Cut(string(html), `content="`)
	own, _, _ := strings.Cut(rest, `"`)
	require.Equal(t, own+"; frame-ancestors 'none'", w.Header().Get("Content-Security-Policy"))
}
