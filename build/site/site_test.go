package site

import (
	"io"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"
)

// The rules compared with are those of RFC 9110 (HTTP Semantics); each test
// names its section.

const (
	plain  = "plain bytes, the longest of the three"
	zipped = "gzip bytes, middling"
	brotli = "br bytes"
	core   = "/core-ABCDEFG2.wasm"
)

func newSite(t *testing.T) http.Handler {
	t.Helper()
	file := func(s string) *fstest.MapFile { return &fstest.MapFile{Data: []byte(s)} }
	h, err := New(fstest.MapFS{
		"index.html": file("<!doctype html>"), "es.html": file("<!doctype html>"), core[1:]: file(plain),
		core[1:] + ".gz": file(zipped), core[1:] + ".br": file(brotli),
		"page-ABCDEFG2.js": file("1"), "page-ABCDEFG2.css": file("a{}"), "icons/a.png": file("png"),
		"worker.js": file("1"), "app-en.webmanifest": file("{}"),
	})
	require.NoError(t, err)
	return h
}

// ask sends one request; headers are given as name, value pairs.
func ask(t *testing.T, method, target string, headers ...string) *http.Response {
	t.Helper()
	r := httptest.NewRequest(method, target, nil)
	for i := 0; i < len(headers); i += 2 {
		r.Header.Add(headers[i], headers[i+1])
	}
	w := httptest.NewRecorder()
	newSite(t).ServeHTTP(w, r)
	return w.Result()
}

func body(t *testing.T, r *http.Response) string {
	t.Helper()
	data, err := io.ReadAll(r.Body)
	require.NoError(t, err)
	return string(data)
}

// RFC 9110 section 8.3 (Content-Type), RFC 9111 section 5.2.2 and RFC 8246
// (immutable) for the caching.
func TestTypesAndCaching(t *testing.T) {
	cases := []struct{ path, kind, cache string }{
		{"/", "text/html; charset=utf-8", "no-cache"},
		{"/index.html", "text/html; charset=utf-8", "no-cache"},
		{"/es.html", "text/html; charset=utf-8", "no-cache"},
		{core, "application/wasm", "public, max-age=31536000, immutable"},
		{"/page-ABCDEFG2.js", "text/javascript; charset=utf-8", "public, max-age=31536000, immutable"},
		{"/page-ABCDEFG2.css", "text/css; charset=utf-8", "public, max-age=31536000, immutable"},
		{"/icons/a.png", "image/png", "no-cache"},
		{"/worker.js", "text/javascript; charset=utf-8", "no-cache"},
		{"/app-en.webmanifest", "application/manifest+json", "no-cache"}, // W3C Web Application Manifest, "media type registration"
	}
	for _, c := range cases {
		r := ask(t, "GET", c.path)
		require.Equal(t, 200, r.StatusCode, c.path)
		require.Equal(t, c.kind, r.Header.Get("Content-Type"), c.path)
		require.Equal(t, c.cache, r.Header.Get("Cache-Control"), c.path)
	}
}

// RFC 9110 section 12.5.3 (Accept-Encoding), 12.4.2 (weights), 8.4.1.3
// (x-gzip) and 15.5.7 (406).
func TestEncoding(t *testing.T) {
	cases := []struct{ accept, coding string }{
		{"gzip, deflate, br", "br"},
		{"gzip", "gzip"},
		{"GZIP", "gzip"},
		{"x-gzip", "gzip"},
		{"br;q=0.5, gzip;q=0.8", "gzip"},
		{"br;q=0, gzip", "gzip"},
		{"br;q=0, *", "gzip"},
		{"*", "br"},
		{"gzip;q=0.001", "gzip"},
		{"identity, gzip;q=0.5", ""},
		{"identity;q=0.5, br;q=0.5", "br"},
		{"deflate", ""},
		{"", ""},
		{"gzip;q=0", ""},
		{"gzip;q=2", ""},
		{"gzip;q=x", ""},
		{"gzip;q=NaN", ""},
		{"gzip ; q=1.000", "gzip"},
		{"*;q=0", "406"},
		{"identity;q=0", "406"},
		{"identity;q=0, br", "br"},
	}
	want := map[string]string{"": plain, "gzip": zipped, "br": brotli}
	for _, c := range cases {
		r := ask(t, "GET", core, "Accept-Encoding", c.accept)
		require.Equal(t, "Accept-Encoding", r.Header.Get("Vary"), c.accept)
		if c.coding == "406" {
			require.Equal(t, 406, r.StatusCode, c.accept)
			continue
		}
		require.Equal(t, 200, r.StatusCode, c.accept)
		require.Equal(t, c.coding, r.Header.Get("Content-Encoding"), c.accept)
		require.Equal(t, want[c.coding], body(t, r), c.accept)
	}
	require.Equal(t, plain, body(t, ask(t, "GET", core)), "no header at all: the plain bytes")
	require.Equal(t, plain, body(t, ask(t, "GET", core, "Accept-Encoding", "gzip;q=0", "Accept-Encoding", "br;q=0")))
}

// RFC 9110 section 8.8.3.3: encodings of one file have different strong tags.
func TestETagsDiffer(t *testing.T) {
	seen := map[string]bool{}
	for _, accept := range []string{"identity", "gzip", "br"} {
		tag := ask(t, "GET", core, "Accept-Encoding", accept).Header.Get("ETag")
		require.Regexp(t, `^"[0-9a-f]{24}"$`, tag)
		seen[tag] = true
	}
	require.Len(t, seen, 3)
}

// RFC 9110 sections 13.1.1, 13.1.2, 13.1.3 and 13.2.2.
func TestConditions(t *testing.T) {
	tag := ask(t, "GET", core, "Accept-Encoding", "br").Header.Get("ETag")
	cases := []struct {
		name, value string
		status      int
	}{
		{"If-None-Match", tag, 304},
		{"If-None-Match", "W/" + tag, 304},
		{"If-None-Match", `"other", ` + tag, 304},
		{"If-None-Match", "*", 304},
		{"If-None-Match", `"other"`, 200},
		{"If-None-Match", strings.Trim(tag, `"`), 200},
		{"If-Match", tag, 200},
		{"If-Match", "*", 200},
		{"If-Match", `"other"`, 412},
		{"If-Match", "W/" + tag, 412},
		{"If-Modified-Since", "Fri, 01 Jan 2100 00:00:00 GMT", 200},
	}
	for _, c := range cases {
		r := ask(t, "GET", core, "Accept-Encoding", "br", c.name, c.value)
		require.Equal(t, c.status, r.StatusCode, c)
	}
	both := ask(t, "GET", core, "Accept-Encoding", "br", "If-Match", `"other"`, "If-None-Match", tag)
	require.Equal(t, 412, both.StatusCode, "If-Match comes first")
}

// RFC 9110 section 15.4.5: what a 304 must carry, and that it has no content.
func TestNotModified(t *testing.T) {
	tag := ask(t, "GET", core).Header.Get("ETag")
	r := ask(t, "GET", core, "If-None-Match", tag)
	require.Equal(t, 304, r.StatusCode)
	require.Equal(t, tag, r.Header.Get("ETag"))
	require.Equal(t, "Accept-Encoding", r.Header.Get("Vary"))
	require.Equal(t, "public, max-age=31536000, immutable", r.Header.Get("Cache-Control"))
	require.Empty(t, body(t, r))
	other := ask(t, "GET", core, "If-None-Match", tag, "Accept-Encoding", "gzip")
	require.Equal(t, 200, other.StatusCode, "the tag of another encoding")
}

// RFC 9110 section 9.3.2: HEAD is GET without the content.
func TestHead(t *testing.T) {
	get, head := ask(t, "GET", core, "Accept-Encoding", "gzip"), ask(t, "HEAD", core, "Accept-Encoding", "gzip")
	require.Equal(t, get.Header, head.Header)
	require.Equal(t, "20", head.Header.Get("Content-Length"))
	require.Empty(t, body(t, head))
	require.Empty(t, body(t, ask(t, "HEAD", "/none")))
}

// RFC 9110 section 15.5.6: 405 with Allow.
func TestMethods(t *testing.T) {
	for _, method := range []string{"POST", "PUT", "DELETE", "OPTIONS", "TRACE", "PATCH", "get"} {
		r := ask(t, method, "/")
		require.Equal(t, 405, r.StatusCode, method)
		require.Equal(t, "GET, HEAD", r.Header.Get("Allow"), method)
	}
}

// RFC 9110 section 14.2 (a server may ignore Range) and 14.3 (saying so).
func TestRangesAreNotOffered(t *testing.T) {
	r := ask(t, "GET", core, "Range", "bytes=0-3")
	require.Equal(t, 200, r.StatusCode)
	require.Equal(t, "none", r.Header.Get("Accept-Ranges"))
	require.Equal(t, plain, body(t, r))
}

// RFC 9110 section 15.5.5 (404); odd spellings of a path are nobody's address
// (RFC 3986 section 6 leaves it to the server how far to normalise).
func TestOddPaths(t *testing.T) {
	for _, path := range []string{
		"//", "/../", "/./", "/..", "/%00", "/index.html%00", "/index.html/", "/icons", "/icons/", "/icons//a.png",
		"/icons/../index.html", "/icons/%2e%2e/index.html", "/icons%2Fa.png", "/%69ndex.html", "/INDEX.HTML",
		core + ".br", core + ".gz", "/etc/passwd", `/..\index.html`,
	} {
		r := ask(t, "GET", path)
		require.Equal(t, 404, r.StatusCode, path)
		require.Contains(t, body(t, r), "nothing at this address", path)
		require.Equal(t, "text/plain; charset=utf-8", r.Header.Get("Content-Type"), path)
	}
	require.Equal(t, 200, ask(t, "GET", "/?a=b").StatusCode)
}

func TestNewRefuses(t *testing.T) {
	_, err := New(fstest.MapFS{"a.js": {Data: []byte("1")}})
	require.ErrorContains(t, err, "no index.html")
	_, err = New(fstest.MapFS{"index.html": {}, "a.xyz": {}})
	require.ErrorContains(t, err, "a.xyz: no type is known")
	_, err = New(fstest.MapFS{"index.html": {}, "lonely.br": {}})
	require.ErrorContains(t, err, "lonely.br: no type is known")
}

// Over a real connection: the server's own HEAD handling and lengths.
func TestOverTheWire(t *testing.T) {
	server := httptest.NewServer(newSite(t))
	defer server.Close()
	r, err := http.Head(server.URL + core)
	require.NoError(t, err)
	require.Equal(t, int64(len(plain)), r.ContentLength)
	r, err = http.Get(server.URL + core) // Go's client asks for gzip, and these bytes are none
	require.NoError(t, err)
	require.Equal(t, 200, r.StatusCode)
}
