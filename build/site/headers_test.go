package site

import (
	"net/http"
	"net/http/httptest"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"
)

// every answer there is: a page, a file that may be kept, one that is not there, a method that is not
// allowed, one that has not changed, and a coding that is refused.
func every(t *testing.T) map[string]*http.Response {
	tag := ask(t, "GET", "/").Header.Get("ETag")
	all := map[string]*http.Response{
		"200": ask(t, "GET", "/"), "kept": ask(t, "GET", core), "404": ask(t, "GET", "/none"), "405": ask(t, "POST", "/"),
		"304": ask(t, "GET", "/", "If-None-Match", tag), "412": ask(t, "GET", "/", "If-Match", `"other"`), "406": ask(t, "GET", "/", "Accept-Encoding", "*;q=0"),
	}
	for name, status := range map[string]int{"200": 200, "kept": 200, "404": 404, "405": 405, "304": 304, "412": 412, "406": 406} {
		require.Equal(t, status, all[name].StatusCode, name)
	}
	return all
}

// Each header is there once, with the one value that its own standard gives for "as closed as can be".
func TestSecurityHeaders(t *testing.T) {
	for name, r := range every(t) {
		for header, value := range map[string]string{
			"Referrer-Policy":              "no-referrer", // W3C Referrer Policy, 3.1
			"X-Content-Type-Options":       "nosniff",     // WHATWG Fetch, "X-Content-Type-Options header"
			"Cross-Origin-Opener-Policy":   "same-origin", // HTML Living Standard, "Cross-Origin-Opener-Policy"
			"Cross-Origin-Resource-Policy": "same-origin", // WHATWG Fetch, "Cross-Origin-Resource-Policy header"
		} {
			require.Equal(t, []string{value}, r.Header.Values(header), "%s: %s", name, header)
		}
		require.Len(t, r.Header.Values("Content-Security-Policy"), 1, name)
		require.Len(t, r.Header.Values("Permissions-Policy"), 1, name)
		// What is the host's to say (RFC 6797 7.2 forbids it on plain http, which a host in front of this may
		// speak), and what would set something on the device (RFC 6265).
		for _, header := range []string{"Strict-Transport-Security", "Set-Cookie"} {
			require.Empty(t, r.Header.Values(header), "%s: %s", name, header)
		}
	}
}

// directives reads a policy as Content Security Policy Level 3, 2.2.1 ("parse a serialized CSP") does.
func directives(t *testing.T, policy string) map[string]string {
	all := map[string]string{}
	for _, token := range strings.Split(policy, ";") {
		name, value, _ := strings.Cut(strings.TrimSpace(token), " ")
		require.NotContains(t, all, name, "a browser takes the first of two")
		all[name] = value
	}
	return all
}

// Content Security Policy Level 3, 6, and Trusted Types (W3C), 4.2: everything that the policy says. What is
// not named falls back to default-src (6.8.3), or, as base-uri, form-action and frame-ancestors, has to be.
func TestThePolicyIsThisAndNoMore(t *testing.T) {
	want := map[string]string{
		"default-src": "'none'", "script-src": "'self' 'wasm-unsafe-eval'", "style-src": "'self'", "img-src": "'self'", "font-src": "'self'",
		"connect-src": "'self'", "manifest-src": "'self'", "worker-src": "'self'", "base-uri": "'none'", "form-action": "'none'",
		"require-trusted-types-for": "'script'", "trusted-types": "newel newel-begin", "frame-ancestors": "'none'",
	}
	for name, r := range every(t) {
		require.Equal(t, want, directives(t, r.Header.Get("Content-Security-Policy")), name)
	}
	// In a page three directives have no meaning, and browsers warn of them (3.3).
	delete(want, "frame-ancestors")
	require.Equal(t, want, directives(t, Policy([]byte("<!doctype html>"))))
	require.Equal(t, `<meta http-equiv="Content-Security-Policy" content="a 'b'">`, Meta("a 'b'"))
	require.NotContains(t, Policy(), `"`, "it stands in an attribute")
}

// Content Security Policy Level 3, 2.3.1 and 6.7.3.3: a hash over the element's text, in base64. The
// two values are from openssl ("openssl dgst -sha256 -binary | base64"). Neither the policy in the page
// nor a second page with the same parts changes them.
func TestWhatStandsInThePageIsAllowedByItsHash(t *testing.T) {
	html := "<!doctype html>" + Meta("none") + "<style>a{}</style><script>f()</script><script src=\"a.js\"></script>"
	h, err := New(fstest.MapFS{"index.html": {Data: []byte(html)}, "es.html": {Data: []byte(html)}, "a.js": {Data: []byte("<style>no page</style>")}})
	require.NoError(t, err)
	w := httptest.NewRecorder()
	h.ServeHTTP(w, httptest.NewRequest("GET", "/", nil))
	got := directives(t, w.Header().Get("Content-Security-Policy"))
	require.Equal(t, "'self' 'wasm-unsafe-eval' 'sha256-GcEEE0IkDzIP5EQ6DXZaDPORqT5RTBELX8Fyzyg9yvo='", got["script-src"])
	require.Equal(t, "'self' 'sha256-X1RutGBrXCt9KkSaXMK7tHftWiRscFHOhxsS8tv8hBk='", got["style-src"])
}

// Permissions Policy (W3C), 5.2: a dictionary of structured fields (RFC 9651, 3.2), whose keys are features
// and whose values are lists of who may have them.
func TestThePageHasNoPowersButToCopy(t *testing.T) {
	got := map[string]string{}
	for _, member := range strings.Split(ask(t, "GET", "/").Header.Get("Permissions-Policy"), ",") {
		parts := regexp.MustCompile(`^ ?([a-z*][a-z0-9_.*-]*)=(\([a-z]*\))$`).FindStringSubmatch(member)
		require.NotNil(t, parts, "%q is no member of a dictionary", member)
		require.NotContains(t, got, parts[1], "the last of two would hold")
		got[parts[1]] = parts[2]
	}
	require.Equal(t, "(self)", got["clipboard-write"], "the link is copied")
	require.NotContains(t, got, "web-share", "sharing stays open")
	delete(got, "clipboard-write")
	for feature, who := range got {
		require.Equal(t, "()", who, feature)
	}
	// The names that the specifications of these powers give them (from memory).
	for _, feature := range []string{"geolocation", "camera", "microphone", "display-capture", "payment", "usb", "clipboard-read"} {
		require.Contains(t, got, feature)
	}
}
