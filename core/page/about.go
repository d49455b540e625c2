package page

import (
	_ "embed"
	"strings"

	"newel/core/guide"
)

// AboutView is the page about the page: what it keeps, who can see it, what it is made of.
type AboutView struct {
	Voice    guide.Voice
	Fragment string
	Calls    Calls
	Shipped  []Work
}

// Work is something of others that the page ships. License is its name in the SPDX License List; For
// is the end of the text that says what it does here. Version is empty where it is the build's.
type Work struct{ Name, Version, License, For string }

// shippedText has a line for each, its parts between bars. A test in build/bundle holds it against what
// is in the files that are sent.
//
//go:embed shipped.txt
var shippedText string

// Shipped are the works of others that the page ships.
func Shipped() []Work {
	var all []Work
	for line := range strings.Lines(shippedText) {
		parts := strings.Split(strings.TrimSpace(line), "|")
		if len(parts) != 4 {
			panic("shipped.txt: name, version, license and use are needed: " + line)
		}
		all = append(all, Work{parts[0], parts[1], parts[2], parts[3]})
	}
	return all
}

// AboutPage makes the page.
func AboutPage(v AboutView) string {
	v.Shipped = Shipped()
	return aboutPage(&v)
}
