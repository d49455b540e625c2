package page_test

import (
	"regexp"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"newel/core/app"
)

// hostile are texts that would break out of a page that printed them as they are:
// of an element, of an attribute in double or single quotes or none, of an address,
// of a {name}; that would be taken for an entity; that turn a line around or hide
// in it; that are too wide. (The kinds are those of OWASP's cheat sheet on
// cross-site scripting.)
var hostile = []string{
	`<script>alert(1)</script>`,
	`</title></textarea></script><svg/onload=alert(1)>`,
	`"><img src=x onerror=alert(1)>`,
	`" onmouseover="alert(1)" x="`,
	`' onfocus='alert(1)' autofocus='`,
	"` onclick=alert(1) ",
	`javascript:alert(1)`,
	`data:text/html,<b>x`,
	`{n} {of} {what} {name} {field}`,
	`{% s %}{%= x %}`,
	`&lt;b&gt; &amp;quot; &#34; &#x22;`,
	`<!-- `,
	`]]>`,
	"\u202eabc\u2066\u200b\u0000\t\x1b",
	"555\" onclick=\"1",
	"+1<2>3",
	"tel:1;phone-context=x",
	"%22%3E%3Cscript%3E",
	strings.Repeat("W", 40),
	strings.Repeat("🙂", 300),
}

var zoneOption = regexp.MustCompile(`<option value="[A-Za-z0-9_/+-]*"></option>`)

// parsed reads a screen as a browser does.
func parsed(t *testing.T, name, text string) *html.Node {
	t.Helper()
	text = zoneOption.ReplaceAllString(text, "") // four hundred of them, and all the same
	if name != "static page" {
		text = `<!doctype html><html lang="en"><head><title>x</title></head><body><div id="app">` + text + `</div></body></html>`
	}
	doc, err := html.Parse(strings.NewReader(text))
	require.NoError(t, err)
	return doc
}

func elements(doc *html.Node) []*html.Node {
	var all []*html.Node
	for n := range doc.Descendants() {
		if n.Type == html.ElementNode {
			all = append(all, n)
		}
	}
	return all
}

func attribute(n *html.Node, key string) (string, bool) {
	for _, a := range n.Attr {
		if a.Key == key {
			return a.Val, true
		}
	}
	return "", false
}

// shape is the set of a screen's elements with their attributes.
func shape(doc *html.Node) map[string]bool {
	found := map[string]bool{}
	for _, n := range elements(doc) {
		found[n.Data] = true
		for _, a := range n.Attr {
			found[n.Data+" "+a.Key] = true
		}
	}
	return found
}

// numbers are telephone numbers that are dialled, and some that look like one.
var numbers = []string{"Rosa", "(206) 555-0187", "+1 206-555-0187", "+", "12", "5+5"}

func TestNoTextBreaksOutOfItsPlace(t *testing.T) {
	want := map[string]map[string]bool{}
	for name, text := range screens(t, harmless) {
		want[name] = shape(parsed(t, name, text))
	}
	given := map[string]texts{}
	for i, s := range hostile {
		if each(i) {
			given[s] = same(s)
		}
	}
	for i, number := range numbers {
		if x := harmless; each(i) {
			x.phone = number
			given[number] = x
		}
	}
	for s, x := range given {
		for name, text := range screens(t, x) {
			doc := parsed(t, name, text)
			for thing := range shape(doc) {
				if !want[name][thing] {
					t.Fatalf("%s: the text %q made %s", name, s, thing)
				}
			}
			for _, n := range elements(doc) {
				if fault := unsafe(name, n); fault != "" {
					t.Fatalf("%s: with the text %q: %s on %s %v", name, s, fault, n.Data, n.Attr)
				}
			}
		}
	}
}

// each tells which of many texts are tried: all natively, and in WebAssembly, where the same
// code takes four times as long, every eighth.
func each(i int) bool { return runtime.GOARCH != "wasm" || i%8 == 0 }

// A text is shown as it was typed, no more and no less: on the plan's page the
// patient's name, in the form what stood in each field.
func TestEveryTextIsShownAsItIs(t *testing.T) {
	for _, s := range hostile {
		name := fitting(s, 40)
		all := requests(t, same(s))
		doc := parsed(t, "plan", app.Handle(all["plan"]).HTML)
		shown := ""
		for _, n := range elements(doc) {
			if id, _ := attribute(n, "id"); id == "title" {
				shown = content(n)
			}
		}
		if name != "" {
			require.Contains(t, shown, name)
		}
		typed := fitting(s, 1000)
		doc = parsed(t, "form", app.Handle(all["form with all problems"]).HTML)
		fields := 0
		for _, n := range elements(doc) {
			if kind, _ := attribute(n, "type"); n.Data == "input" && (kind == "text" || kind == "date" || kind == "time") {
				value, _ := attribute(n, "value")
				require.Equal(t, typed, value, "%v", n.Attr)
				fields++
			}
		}
		require.Greater(t, fields, 25)
	}
}

func content(n *html.Node) string {
	var b strings.Builder
	for d := range n.Descendants() {
		if d.Type == html.TextNode {
			b.WriteString(d.Data)
		}
	}
	return b.String()
}

var (
	ownAddress = regexp.MustCompile(`^#[A-Za-z0-9_.-]*$`)
	texted     = regexp.MustCompile(`^sms:\?body=[A-Za-z0-9%._~-]+$`)
	coded      = regexp.MustCompile(`^[A-Za-z0-9_-]+$`)
	dialled    = regexp.MustCompile(`^tel:\+?[0-9]{2,}$`)
	ownPath    = regexp.MustCompile(`^/([a-z0-9.-]+(/[a-z0-9.-]+)*/?)?$`)
	ownID      = regexp.MustCompile(`^[a-z0-9.-]+$`)
	ownMark    = regexp.MustCompile(`^#who-[0-9]{1,2}$`) // a helper's mark that is drawn already
	ownClass   = regexp.MustCompile(`^[a-z0-9 -]*$`)
	foreignKey = regexp.MustCompile(`^on|^style$|^srcdoc$|^background$|^ping$|^xlink`)
	foreign    = map[string]bool{"style": true, "iframe": true, "object": true, "embed": true, "base": true, "img": true, "template": true}
	headOnly   = map[string]bool{"script": true, "meta": true, "link": true}
	files      = map[string]bool{"style.css": true, "page.js": true, "begin.js": true, "ahead.js": true, "core.wasm": true, "icon.svg": true, "type.woff2": true, "apple-touch-icon.png": true, "app-en.webmanifest": true}
	ownPages   = regexp.MustCompile(`^(\./|[a-z]{2,3}\.html)(\?chosen)?$`) // the static page in each language
)

// unsafe says what is wrong with an element: one that does not belong on any page,
// an address that leads elsewhere, an id made from what somebody typed.
func unsafe(screen string, n *html.Node) string {
	static := screen == "static page"
	if foreign[n.Data] || headOnly[n.Data] && !static && n.Parent.Data != "head" {
		return "an element that does not belong here"
	}
	for _, a := range n.Attr {
		ok := true
		switch a.Key {
		case "href":
			ok = n.Data == "a" && a.Val == "licenses.txt" || static && (files[a.Val] || ownPages.MatchString(a.Val)) || n.Data == "a" && (ownAddress.MatchString(a.Val) || dialled.MatchString(a.Val) || texted.MatchString(a.Val)) ||
				n.Data == "use" && ownMark.MatchString(a.Val)
		case "src":
			ok = static && files[a.Val]
		case "action", "formaction", "data-path":
			ok = ownPath.MatchString(a.Val)
		case "data-qr":
			ok = coded.MatchString(a.Val)
		case "id", "for", "list":
			ok = ownID.MatchString(a.Val)
		case "class":
			ok = ownClass.MatchString(a.Val)
		}
		if !ok || foreignKey.MatchString(a.Key) {
			return "the attribute " + a.Key
		}
	}
	return ""
}

var invisible = regexp.MustCompile("[\u202a-\u202e\u2066-\u2069\u200b-\u200f\u00ad\ufeff\\x00-\\x08\\x0b-\\x1f\\x7f]")

// Characters that cannot be seen do not get past the form or the link.
func TestNothingInvisibleReachesThePage(t *testing.T) {
	for name, text := range screens(t, same("a\u202eb\u2066c\u200bd\x00e\x1bf\u200eg\u00adh")) {
		if at := invisible.FindStringIndex(text); at != nil && name != "plan, not cleaned" {
			t.Errorf("%s: %+q", name, text[max(0, at[0]-80):at[1]+10])
		}
	}
}
