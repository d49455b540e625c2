package app

import (
	"html"
	"strings"

	"github.com/stretchr/testify/require"
)

// news is what the page lists as changed since the person last looked.
func (p *phone) news() string { return p.part("notice-moved") }

// answer taps the answer of a question whose button holds a text.
func (p *phone) answer(button string) Response {
	p.t.Helper()
	for _, form := range strings.Split(p.last.HTML, `<form action="/settle"`)[1:] {
		form, _, _ = strings.Cut(form, "</form>")
		_, label, _ := strings.Cut(form, "<button>")
		if !strings.Contains(html.UnescapeString(label), button) {
			continue
		}
		key, _ := cut(form, `name="key" value="`)
		value, _ := cut(form, `name="value" value="`)
		return p.send("/settle", "key", html.UnescapeString(key), "value", html.UnescapeString(value))
	}
	require.Fail(p.t, "no question has the answer "+button, p.text())
	return Response{}
}

// is says whose phone it is.
func (p *phone) is(name string) *phone {
	p.t.Helper()
	p.send("/me", "who", "other", "name", name)
	require.Equal(p.t, "/", p.path)
	return p
}

// opened is a new phone with somebody's plan on it.
func (p *phone) opened() *phone {
	p.t.Helper()
	q := newPhone(p.t)
	q.open(p.fragment)
	return q
}

// exchange lets phones open each other's links, as often as it takes for each change to
// reach everybody.
func exchange(phones ...*phone) {
	for range 2 {
		for _, from := range phones {
			for _, to := range phones {
				to.open(from.fragment)
			}
		}
	}
}
