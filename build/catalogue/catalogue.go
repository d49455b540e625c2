// Package catalogue has every screen of the page in every state that has a name: no plan, surgery
// today, a damaged link, twelve helpers, very long names, and so on. Each state is a few taps on a
// phone that exists only here (phone.go), answered by the real core through app.Handle, so that its
// HTML comes from the real templates.
//
// States lists them; State.Screen makes one in a language; Document puts it into the real static
// page's head, without its script, and Index makes the page that shows all of them. The program
// build/catalogue/write writes the files, build/catalogue/shelf runs that program with the sources as
// they are and serves the folder, and web/test/browser/catalogue.test.mjs goes through all of it:
//
//	go run ./build serve                          the catalogue is at /catalogue/
//	go test ./build/catalogue/...                 whether a screen or a path is in no state
//	go run ./build test --only browser            the gates on overlap, clipping, contrast and so on
//
// To add a state, add it to one of the lists (day.go, people.go, links.go, guide.go, desk.go,
// texts.go). A test fails when a path of core/app or a form of any screen is in none.
package catalogue

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"newel/core/app"
	"newel/core/guide"
	"newel/core/page"
)

// State is one screen in one state that has a name.
type State struct {
	Group string // the heading it stands under in the index
	Name  string // lower-case letters and dashes: the state's file name
	What  string // a sentence: what it is there for

	reach func(*phone) // the taps that lead there; nil: the static page
	why   string       // the sentence of trouble that is shown on top, as in web/trouble.ts, or "#" and the id of what is shown beside the screen
}

// Screen is a state in a language.
type Screen struct {
	Title, HTML         string // HTML is the inside of the element "app"; "": the static page's own
	Language, Direction string
	Path                string   // the screen shown
	Asked               []string // the paths that were asked for on the way
	Sent                []app.Request
}

// Vectors are the links that cannot be made here: a locked one and one of a newer page.
type Vectors struct{ Locked, Newer string }

// ReadVectors reads them from testdata/link below root, the top of the repository.
func ReadVectors(root string) (Vectors, error) {
	locked, err := vector(filepath.Join(root, "testdata/link/locked/starter.txt"))
	if err != nil {
		return Vectors{}, err
	}
	newer, err := vector(filepath.Join(root, "testdata/link/heads/newer-next.txt"))
	return Vectors{locked, newer}, err
}

func vector(file string) (string, error) {
	text, err := os.ReadFile(file)
	if err != nil {
		return "", err
	}
	_, fragment, ok := strings.Cut(string(text), "\nfragment: ")
	if !ok {
		return "", fmt.Errorf("%s has no line that begins with \"fragment: \"", file)
	}
	return strings.TrimSpace(fragment), nil
}

// States lists all states, in the order of the index.
func States(v Vectors) []State {
	var all []State
	for _, list := range []func(Vectors) []State{dayStates, peopleStates, linkStates, guideStates, paperStates, deskStates, textStates} {
		all = append(all, list(v)...)
	}
	return all
}

// Screen makes the state in a language. It fails where a tap finds nothing to tap: then the screens
// have changed, and the state has to be told the way anew.
func (s *State) Screen(language string) (Screen, error) {
	if s.reach == nil {
		return Screen{Title: guide.Open(language).Say("app.name"), Language: language, Direction: guide.Direction(language), Path: "/"}, nil
	}
	p := newPhone(language)
	s.reach(p)
	if p.fault != nil {
		return Screen{}, fmt.Errorf("%s in %s: %w", s.Name, language, p.fault)
	}
	return Screen{
		Title: p.out.Title, HTML: p.out.HTML, Language: p.out.Language, Direction: p.out.Direction,
		Path: p.out.Path, Asked: p.asked, Sent: p.sent,
	}, nil
}

// Document is a state's own HTML document: the static page of the language with the style at the
// address style, the screen in place of what waits for the core, and no script.
func (s *State) Document(screen Screen, style string) (string, error) {
	html := page.Frame(screen.Language, page.Assets{Style: style, Begin: "no-script", Script: "no-script", Core: "no-core", Whole: "no-core"})
	return fill(html, screen, s.why)
}

// field is a form's entry.
func field(name, value string) app.Field { return app.Field{Name: name, Value: value} }
