package catalogue

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"newel/core/guide"
)

// outward is a link that leads off the page, to another program of the device: what its address has to look
// like, and what must be read on it, so that whoever taps it knows what comes. Nothing else leads anywhere:
// no link goes to the internet. One that did would have to say so, and carry rel="noreferrer noopener" (HTML
// Living Standard, 4.6.7).
type outward struct {
	address *regexp.Regexp
	says    func(v *guide.Book, address, text string) bool
}

var outwards = map[string]outward{
	// RFC 3966 5: the number that is dialed is the one that is read.
	"tel": {regexp.MustCompile(`^tel:\+?[0-9]+$`), func(_ *guide.Book, address, text string) bool {
		return strings.Contains(digits(text), digits(address))
	}},
	// RFC 5724 2.2. Of three places in the texts, each names the text message; nothing is sent before the
	// person does so in the device's own program.
	"sms": {regexp.MustCompile(`^sms:[0-9+,.()-]*(\?body=[A-Za-z0-9._~%-]+)?$`), func(v *guide.Book, _, text string) bool {
		for _, key := range []string{"link-page.sms", "desk-page.sms", "desk-rows.sms"} {
			if strings.HasPrefix(text, v.Say(key)) {
				return true
			}
		}
		return false
	}},
}

func digits(text string) string {
	return strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' {
			return r
		}
		return -1
	}, text)
}

// loading are the attributes that have a browser fetch, send or open something, beside a link's href (HTML
// Living Standard, "Attributes" index; SVG 2, xlink:href). No screen has one with an address in it: pictures
// are drawn in the page itself, and a form's path is read by the page's own script.
var loading = map[string]bool{
	"src": true, "srcset": true, "srcdoc": true, "data": true, "poster": true, "background": true, "ping": true, "cite": true, "longdesc": true,
	"manifest": true, "codebase": true, "archive": true, "profile": true, "xlink:href": true, "imagesrcset": true, "target": true,
}

// strays are what leads off the page in a screen without saying so, and what kinds of link there are.
func strays(v *guide.Book, root *html.Node) (wrong []string, kinds map[string]int) {
	kinds = map[string]int{}
	for n := range root.Descendants() {
		if n.Type != html.ElementNode {
			continue
		}
		for _, a := range n.Attr {
			name := a.Key
			if a.Namespace != "" {
				name = a.Namespace + ":" + a.Key
			}
			if loading[name] {
				wrong = append(wrong, n.Data+" has "+name+"="+a.Val)
			}
			if (name == "action" || name == "formaction") && !ownForm.MatchString(a.Val) {
				wrong = append(wrong, "a form goes to "+a.Val)
			}
			if name != "href" || strings.HasPrefix(a.Val, "#") {
				continue
			}
			scheme, _, _ := strings.Cut(a.Val, ":")
			out, known := outwards[scheme]
			switch {
			case n.Data == "a" && ownPage.MatchString(a.Val):
				kinds["page"]++
			case n.Data != "a" || !known || !out.address.MatchString(a.Val):
				wrong = append(wrong, n.Data+" leads to "+a.Val)
			case !out.says(v, a.Val, textOf(n)):
				wrong = append(wrong, "does not say that it leads to "+a.Val+": "+textOf(n))
			default:
				kinds[scheme]++
			}
		}
	}
	return wrong, kinds
}

var (
	// ownPage is another language's static page, beside this one, or the file of licenses.
	ownPage = regexp.MustCompile(`^(?:(?:[a-z]{2,3}\.html|\./)\?chosen|licenses\.txt)$`)
	// ownForm is a path that core/app answers; two slashes would begin another host's address (RFC 3986 4.2).
	ownForm = regexp.MustCompile(`^/(?:[a-z0-9][^/]*(?:/[^/]+)*)?$`)
)

func textOf(n *html.Node) string {
	var text strings.Builder
	for d := range n.Descendants() {
		if d.Type == html.TextNode {
			text.WriteString(d.Data)
		}
	}
	return strings.Join(strings.Fields(text.String()), " ")
}

// Every screen in every state and both languages: what leads off the page is of a kind that we know, and says so.
func TestWhatLeadsOffThePageSaysSo(t *testing.T) {
	seen := map[string]int{}
	for _, language := range guide.Languages {
		for _, s := range states(t) {
			screen, err := s.Screen(language)
			require.NoError(t, err)
			inside := screen.HTML
			if inside == "" { // the static page, whose head the build fills in
				document, err := s.Document(screen, "page.css")
				require.NoError(t, err)
				_, inside, _ = strings.Cut(document, "<body>")
			}
			root, err := html.Parse(strings.NewReader(inside))
			require.NoError(t, err)
			wrong, kinds := strays(guide.Open(screen.Language), root)
			require.Empty(t, wrong, "%s in %s", s.Name, language)
			for kind, n := range kinds {
				seen[kind] += n
			}
		}
	}
	for _, kind := range []string{"tel", "sms", "page"} {
		require.Positive(t, seen[kind], "no screen has a link of the kind %s, so nothing was looked at", kind)
	}
}

// The gate finds what it is for.
func TestStraysAreFound(t *testing.T) {
	for _, stray := range []string{
		`<a href="https://maps.example/?q=4+Mill+Lane">Map</a>`, `<a href="//other.example/">x</a>`, `<a href="javascript:f()">x</a>`,
		`<a href="data:text/html,x">x</a>`, `<a href="mailto:a@b.example">x</a>`, `<a href="geo:1,2">x</a>`, `<a href="other.html">x</a>`,
		`<a href="tel:5550142">Call us</a>`, `<a href="tel:5550142;ext=1">5550142 1</a>`, `<a href="sms:?body=x">Send</a>`, `<a href="sms:?body=a&amp;b">Send as a text message</a>`,
		`<svg><use href="icons.svg#a"></use></svg>`, `<svg><image xlink:href="a.png"></image></svg>`, `<img src="a.png">`, `<a href="#x" ping="/p">x</a>`,
		`<a href="#x" target="_blank">x</a>`, `<form action="https://other.example/"></form>`, `<form action="//other.example/"></form>`, `<button formaction="//other.example/">x</button>`,
	} {
		root, err := html.Parse(strings.NewReader(stray))
		require.NoError(t, err)
		wrong, _ := strays(guide.Open("en"), root)
		require.Len(t, wrong, 1, stray)
	}
	root, err := html.Parse(strings.NewReader(`<a href="tel:5550142">555-0142</a><a href="sms:?body=x%20y">Send as a text message</a><form action="/"></form><form action="/desk/rows"></form><a href="#x">x</a>`))
	require.NoError(t, err)
	wrong, kinds := strays(guide.Open("en"), root)
	require.Empty(t, wrong)
	require.Equal(t, map[string]int{"tel": 1, "sms": 1}, kinds)
}
