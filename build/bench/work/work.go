// Package work is the piece of work that the schedule benchmark times: one
// request for the demo family's plan, from the link to the rendered HTML.
package work

import (
	"strings"

	"newel/core/app"
)

// demo is the request of a device that has the demo family's link open. The
// clock stands still, so that every call renders the same page.
func demo() app.Request {
	request := app.Request{
		Path: "/", Fragment: "demo", Zone: "America/Chicago", Language: "en-US",
		Now:    1767715200, // 2026-01-06 16:00 UTC
		Random: make([]byte, 16), Kept: map[string]string{},
	}
	first := app.Handle(request)
	for _, entry := range first.Keep {
		request.Kept[entry.Key] = entry.Value
	}
	request.Fragment = first.Fragment
	return request
}

// Demo returns a function that renders the page once and returns its size in
// bytes.
func Demo() func() int {
	request := demo()
	return func() int { return len(app.Handle(request).HTML) }
}

// Entries is the number of list items on that page. The peer renders as many.
func Entries() int {
	return strings.Count(app.Handle(demo()).HTML, "<li")
}
