package site

import (
	"crypto/sha256"
	"encoding/base64"
	"maps"
	"net/http"
	"regexp"
	"slices"
	"strings"
)

// kinds are the types we serve, by extension. There is no guessing from the
// content: a type that is not here stops the start.
var kinds = map[string]string{
	".html":        "text/html; charset=utf-8",
	".js":          "text/javascript; charset=utf-8", // RFC 9239
	".css":         "text/css; charset=utf-8",
	".txt":         "text/plain; charset=utf-8",
	".json":        "application/json",
	".webmanifest": "application/manifest+json",
	".wasm":        "application/wasm",         // streaming compilation insists on it
	".press":       "application/octet-stream", // a core on its way, see build/press
	".svg":         "image/svg+xml",
	".png":         "image/png",
	".ico":         "image/x-icon",
	".woff2":       "font/woff2", // RFC 8081
}

// policyOf lets the page load what is its own and nothing else. There are two openings:
// 'wasm-unsafe-eval' is what compiling WebAssembly is called; it does not allow eval. And the style
// and the script that stand in the pages themselves may do so, those very bytes: each is named by its
// hash (Content Security Policy Level 3, 2.3.1 "hash-source").
func policyOf(pages map[string]*page) string {
	hashes := map[string][]string{}
	for _, path := range slices.Sorted(maps.Keys(pages)) {
		p := pages[path]
		if p.kind != kinds[".html"] {
			continue
		}
		for _, inline := range inlines.FindAllSubmatch(p.forms[0].data, -1) {
			element, content := string(inline[1]), inline[2]
			sum := sha256.Sum256(content)
			hash := " 'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
			if !slices.Contains(hashes[element], hash) {
				hashes[element] = append(hashes[element], hash)
			}
		}
	}
	return "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'" + strings.Join(hashes["script"], "") +
		"; style-src 'self'" + strings.Join(hashes["style"], "") + "; " + policy
}

// inlines are elements as the build writes them (build/bundle/inline.go): without attributes.
var inlines = regexp.MustCompile(`(?s)<(script|style)>(.*?)</(?:script|style)>`)

const policy = "img-src 'self' data:; font-src 'self'; connect-src 'self'; manifest-src 'self'; worker-src 'self'; " +
	"base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

// closed are the powers of a browser that the page has no use for. Names that
// desktop Chromium does not know (bluetooth, web-share) are left out, because
// it warns about each; sharing needs no entry, as a page may do it by default
// (Web Share API, section 4.1: default allowlist 'self').
var closed = []string{
	"accelerometer", "autoplay", "camera", "clipboard-read", "display-capture",
	"encrypted-media", "fullscreen", "geolocation", "gyroscope", "hid", "idle-detection",
	"local-fonts", "magnetometer", "microphone", "midi", "payment", "picture-in-picture",
	"publickey-credentials-get", "screen-wake-lock", "serial", "usb", "xr-spatial-tracking",
}

var permissions = strings.Join(closed, "=(), ") + "=(), clipboard-write=(self)"

func (h *handler) secure(head http.Header) {
	head.Set("Content-Security-Policy", h.policy)
	head.Set("Permissions-Policy", permissions)
	head.Set("Referrer-Policy", "no-referrer") // the address holds the plan
	head.Set("X-Content-Type-Options", "nosniff")
	head.Set("Cross-Origin-Opener-Policy", "same-origin")
	head.Set("Cross-Origin-Resource-Policy", "same-origin")
}
