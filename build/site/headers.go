package site

import (
	"net/http"
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
