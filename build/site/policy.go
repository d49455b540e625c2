package site

import (
	"crypto/sha256"
	"encoding/base64"
	"maps"
	"regexp"
	"slices"
	"strings"
)

// Policy is the Content-Security-Policy of a site with these pages: it lets them load what is their own
// and nothing else. There are two openings: 'wasm-unsafe-eval' is what compiling WebAssembly is called;
// it does not allow eval. And the style and the script that stand in the pages themselves may do so,
// those very bytes: each is named by its hash (Content Security Policy Level 3, 2.3.1 "hash-source").
//
// Where the engine has Trusted Types, text becomes HTML or the address of a script only by a policy of
// the page's own, and those are made in one file, web/trusted.ts.
//
// The build writes the same into each page (Meta), for hosts that send no headers. What stands in a page
// has no part in the page's own hash, since a hash is taken over the inside of an element.
func Policy(pages ...[]byte) string {
	hashes := map[string]string{}
	for _, html := range pages {
		for _, inline := range inlines.FindAllSubmatch(html, -1) {
			element, content := string(inline[1]), inline[2]
			sum := sha256.Sum256(content)
			hash := " 'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
			if !strings.Contains(hashes[element], hash) {
				hashes[element] += hash
			}
		}
	}
	return "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'" + hashes["script"] + "; style-src 'self'" + hashes["style"] +
		"; img-src 'self'; font-src 'self'; connect-src 'self'; manifest-src 'self'; worker-src 'self'; base-uri 'none'; form-action 'none'" +
		"; require-trusted-types-for 'script'; trusted-types newel newel-begin"
}

// inlines are elements as the build writes them (build/bundle/inline.go): without attributes.
var inlines = regexp.MustCompile(`(?s)<(script|style)>(.*?)</(?:script|style)>`)

// inHeader is what only a header can say (Content Security Policy Level 3, 3.3: in a meta element it is
// left out).
const inHeader = "; frame-ancestors 'none'"

// Meta is a policy as an element of a page. It holds for what follows it, so it stands first in the head.
func Meta(policy string) string {
	return `<meta http-equiv="Content-Security-Policy" content="` + policy + `">`
}

// policyOf is the policy in the header, of all pages at once: whatever is asked for gets the same.
func policyOf(pages map[string]*page) string {
	var html [][]byte
	for _, path := range slices.Sorted(maps.Keys(pages)) {
		if p := pages[path]; p.kind == kinds[".html"] {
			html = append(html, p.forms[0].data)
		}
	}
	return Policy(html...) + inHeader
}
