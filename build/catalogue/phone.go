package catalogue

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"

	"golang.org/x/net/html"

	"newel/core/app"
	"newel/core/link"
	"newel/core/merge"
	"newel/core/plan"
	"newel/core/wall"
	"newel/core/zone"
)

// home is the zone of all plans here, and of the phone where nothing else is said.
const home = "America/Chicago"

// address is where the page is said to be.
const address = "https://newel.example/"

// surgery is the day of every plan here, a Tuesday.
var surgery = day("2027-03-09")

func day(text string) wall.Date {
	d, err := wall.ParseDate(text)
	if err != nil {
		panic(err) // a constant of this package
	}
	return d
}

// phone is a device with a page on it: what is stored, and what it shows.
type phone struct {
	in    app.Request
	out   app.Response
	asked []string
	sent  []app.Request // what was asked, whole
	fault error         // the first tap that found nothing
}

// newPhone has nothing stored; it is 05:00, nine days before surgery. The clock is as people who
// speak the language mostly have theirs (Unicode CLDR 47, timeData: US has 12 hours; the Spanish
// states show the other one).
func newPhone(language string) *phone {
	p := &phone{in: app.Request{
		Path: "/", Page: address, Zone: home, Language: tag(language), Clock12: language != "es",
		Random: []byte("0123456789abcdef"), Kept: map[string]string{},
	}}
	p.at(-9, 5, 0)
	return p
}

func tag(language string) string {
	switch language {
	case "en", "es":
		return language + "-US"
	}
	return language
}

// at sets the clock: so many days from surgery, in the plan's zone.
func (p *phone) at(days, hour, minute int) *phone {
	loc, err := zone.Load(home)
	if err != nil {
		panic(err) // a constant of this package
	}
	d := surgery + wall.Date(days)
	t, err := time.ParseInLocation("2006-01-02", d.String(), loc)
	if err != nil {
		panic(err)
	}
	now, _ := zone.At(loc, t.Year(), t.Month(), t.Day(), hour, minute)
	p.in.Now = now.Unix()
	return p
}

// open follows a link.
func (p *phone) open(fragment string) *phone {
	p.in.Fragment = fragment
	return p.send("/")
}

// of opens the link of a plan.
func (p *phone) of(plan plan.Plan) *phone {
	fragment := fragmentOf(plan)
	if fragment == "" && p.fault == nil {
		p.fault = errors.New("a plan of the catalogue cannot be written as a link")
	}
	return p.open(fragment)
}

func fragmentOf(p plan.Plan) string { return link.Encode(merge.New(p)) }

// send asks for a path, with what a form of it would hold, and keeps what the answer stores.
func (p *phone) send(path string, fields ...app.Field) *phone {
	if p.fault != nil {
		return p
	}
	in := p.in
	in.Path, in.Fields = path, fields
	before := in
	before.Kept = maps.Clone(in.Kept)
	p.sent = append(p.sent, before)
	p.out = app.Handle(in)
	p.asked = append(p.asked, path)
	p.in.Fragment = p.out.Fragment
	for _, e := range p.out.Keep {
		p.in.Kept[e.Key] = e.Value
	}
	for _, key := range p.out.Drop {
		delete(p.in.Kept, key)
	}
	return p
}

// press sends the form of the screen that has this action, as it stands, with some fields filled in
// otherwise. Of several it is the first of those that have most of these fields.
func (p *phone) press(action string, filled ...app.Field) *phone {
	if p.fault != nil {
		return p
	}
	root, err := html.Parse(strings.NewReader(p.out.HTML))
	if err != nil {
		p.fault = err
		return p
	}
	var found *html.Node
	for form := range root.Descendants() {
		if form.Data != "form" || attribute(form, "action") != action {
			continue
		}
		if found == nil || missing(found, filled) > missing(form, filled) {
			found = form
		}
	}
	if found == nil {
		p.fault = fmt.Errorf("the screen %s has no form for %s", p.out.Path, action)
		return p
	}
	return p.send(action, entries(found, filled)...)
}

// missing counts the fields that a form has no control for.
func missing(form *html.Node, filled []app.Field) int {
	n := len(filled)
	for _, f := range filled {
		for e := range form.Descendants() {
			if attribute(e, "name") == f.Name {
				n--
				break
			}
		}
	}
	return n
}

// entries are what the form would send (HTML, 4.10.21.4), with the filled ones in place of its own.
func entries(form *html.Node, filled []app.Field) []app.Field {
	var all []app.Field
	for e := range form.Descendants() {
		name := attribute(e, "name")
		own := slices.ContainsFunc(filled, func(f app.Field) bool { return f.Name == name })
		if value, sent := entry(e); sent && name != "" && !own {
			all = append(all, field(name, value))
		}
	}
	return append(all, filled...)
}

// entry gives what a control sends, if it sends anything without being pressed.
func entry(e *html.Node) (value string, sent bool) {
	switch e.Data {
	case "input":
		switch attribute(e, "type") {
		case "checkbox", "radio":
			if !has(e, "checked") {
				return "", false
			}
			if !has(e, "value") {
				return "on", true
			}
		case "file", "submit", "button":
			return "", false
		}
		return attribute(e, "value"), true
	case "textarea":
		return strings.TrimPrefix(words(e), "\n"), true
	case "select":
		return chosen(e), true
	}
	return "", false
}

func chosen(list *html.Node) string {
	first, found := "", false
	for o := range list.Descendants() {
		if o.Data != "option" {
			continue
		}
		if has(o, "selected") {
			return attribute(o, "value")
		}
		if !found {
			first, found = attribute(o, "value"), true
		}
	}
	return first
}

func attribute(e *html.Node, name string) string {
	for _, a := range e.Attr {
		if a.Key == name {
			return a.Val
		}
	}
	return ""
}

func has(e *html.Node, name string) bool {
	return slices.ContainsFunc(e.Attr, func(a html.Attribute) bool { return a.Key == name })
}

func words(e *html.Node) string {
	var text strings.Builder
	for c := range e.Descendants() {
		if c.Type == html.TextNode {
			text.WriteString(c.Data)
		}
	}
	return text.String()
}
