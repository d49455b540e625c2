package app

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"newel/core/link"
	"newel/core/plan"
)

// pageAddress is where the page of these tests stands.
const pageAddress = "https://plans.example/n/"

// phone stands for a device with the shell on it: it sends requests and does with
// the response what the shell does.
type phone struct {
	t        *testing.T
	zone     string
	language string
	clock12  bool
	now      time.Time
	kept     map[string]string
	fragment string
	path     string
	random   byte
	device   byte // tells phones apart, in what they take by chance
	last     Response
}

// devices counts the phones of each test, so that every phone takes numbers of its own.
var devices = map[string]byte{}

// newPhone is a phone in Chicago on Tuesday 24 November 2026, 09:00, with nothing
// on it.
func newPhone(t *testing.T) *phone {
	t.Helper()
	devices[t.Name()]++
	p := &phone{t: t, zone: "America/Chicago", language: "en-US", kept: map[string]string{}, path: "/", device: devices[t.Name()]}
	return p.at("2026-11-24T09:00:00-06:00")
}

func (p *phone) at(rfc3339 string) *phone {
	p.t.Helper()
	now, err := time.Parse(time.RFC3339, rfc3339)
	require.NoError(p.t, err)
	p.now = now
	return p
}

func (p *phone) send(path string, fields ...string) Response {
	p.t.Helper()
	p.random++
	r := Request{
		Path: path, Fragment: p.fragment, Page: pageAddress, Zone: p.zone, Language: p.language, Now: p.now.Unix(), Clock12: p.clock12,
		Random: []byte{p.random, 2, 3, 4, 5, 6, p.random, p.device, 9, 10, 11, 12, 13, 14, 15, 16}, Kept: map[string]string{},
	}
	for k, v := range p.kept {
		r.Kept[k] = v
	}
	for i := 0; i < len(fields); i += 2 {
		r.Fields = append(r.Fields, Field{fields[i], fields[i+1]})
	}
	out := Handle(r)
	require.Equal(p.t, out, Handle(r), "the same request gives the same response")
	for _, e := range out.Keep {
		p.kept[e.Key] = e.Value
	}
	for _, k := range out.Drop {
		delete(p.kept, k)
	}
	p.fragment, p.path, p.last = out.Fragment, out.Path, out
	return out
}

// open taps a link.
func (p *phone) open(fragment string) Response {
	p.fragment = fragment
	return p.send("/")
}

// plan is the plan that the address holds now.
func (p *phone) plan() plan.Plan {
	p.t.Helper()
	return p.planOf(p.fragment)
}

func (p *phone) planOf(fragment string) plan.Plan {
	p.t.Helper()
	got, err := link.Decode(fragment)
	require.NoError(p.t, err)
	return got.Plan()
}

// text is what a person reads on the page, one space between words.
func (p *phone) text() string { return textOf(p.t, p.last.HTML, "") }

// part is what a person reads in the element with an id.
func (p *phone) part(id string) string { return textOf(p.t, p.last.HTML, id) }

func textOf(t *testing.T, source, id string) string {
	t.Helper()
	root, err := html.Parse(strings.NewReader(source))
	require.NoError(t, err)
	var words []string
	var walk func(n *html.Node, in bool)
	walk = func(n *html.Node, in bool) {
		for _, a := range n.Attr {
			in = in || a.Key == "id" && a.Val == id
		}
		if n.Type == html.TextNode && in {
			words = append(words, strings.Fields(n.Data)...)
		}
		for c := n.FirstChild; c != nil; c = c.NextSibling {
			walk(c, in)
		}
	}
	walk(root, id == "")
	return strings.Join(words, " ")
}

// values gives what stands in the fields of the form on the page.
func (p *phone) values() map[string]string {
	p.t.Helper()
	root, err := html.Parse(strings.NewReader(p.last.HTML))
	require.NoError(p.t, err)
	values := map[string]string{}
	for n := range root.Descendants() {
		if n.Type != html.ElementNode || n.Data != "input" {
			continue
		}
		a := map[string]string{}
		for _, attr := range n.Attr {
			a[attr.Key] = attr.Val
		}
		_, checked := a["checked"]
		if a["type"] == "text" || a["type"] == "date" || a["type"] == "time" || checked {
			values[a["name"]] = a["value"]
		}
	}
	return values
}

// facts is a form that is filled in right, with some fields changed.
func facts(changed ...string) []string {
	values := map[string]string{
		"patient": "Rosa", "surgery": "2026-12-03", "arrival": "05:30", "zone": "America/Chicago",
		"joint": "knee", "operation": "first", "stay": "one-night", "drive": "40", "parking": "15",
		"home-none": "1", "fact.soap-given": "1",
	}
	for i := 0; i < len(changed); i += 2 {
		values[changed[i]] = changed[i+1]
	}
	var fields []string
	for k, v := range values {
		if v != "" {
			fields = append(fields, k, v)
		}
	}
	return fields
}
