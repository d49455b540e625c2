package site

import (
	"net/http"
	"strings"
)

// precondition evaluates If-Match and If-None-Match in the order of RFC 9110
// section 13.2.2, and returns 412, 304 or 200. The two that compare dates are
// ignored, as sections 13.1.3 and 13.1.4 ask where there is no Last-Modified.
func precondition(head http.Header, etag string) int {
	if values := head.Values("If-Match"); len(values) > 0 && !matches(values, etag, false) {
		return http.StatusPreconditionFailed
	}
	if values := head.Values("If-None-Match"); len(values) > 0 && matches(values, etag, true) {
		return http.StatusNotModified
	}
	return http.StatusOK
}

// matches looks for our tag, or a star, in a list of tags. A weak tag in the
// list counts for If-None-Match (weak comparison, section 13.1.2) and not for
// If-Match (strong comparison, section 13.1.1). Our tags are hexadecimal, so
// splitting at commas cannot cut one that equals ours.
func matches(values []string, etag string, weak bool) bool {
	for _, tag := range strings.Split(strings.Join(values, ","), ",") {
		tag = strings.TrimSpace(tag)
		if weak {
			tag = strings.TrimPrefix(tag, "W/")
		}
		if tag == "*" || tag == etag {
			return true
		}
	}
	return false
}
