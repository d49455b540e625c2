package page_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"newel/core/guide"
	"newel/core/page"
)

// A link to the static page in another language has no place for the plan that the address
// holds (RFC 9110 4.2.5: a fragment is the browser's), so where scripts run, nobody can tap on
// it before they take the tap over. (What is in a noscript is no element where scripts run.)
func TestNoLinkOfTheStaticPageLeavesThePlanBehind(t *testing.T) {
	for _, language := range guide.Languages {
		links := 0
		for _, n := range elements(parsed(t, "static page", page.Frame(language, page.Assets{}))) {
			if _, ok := attribute(n, "hreflang"); n.Data != "a" || !ok {
				continue
			}
			links++
			require.True(t, hidden(n), language)
		}
		require.NotZero(t, links, language)
	}
}

// hidden tells whether an element, or one that it stands in, is hidden.
func hidden(n *html.Node) bool {
	for ; n != nil; n = n.Parent {
		if _, ok := attribute(n, "hidden"); ok {
			return true
		}
	}
	return false
}
