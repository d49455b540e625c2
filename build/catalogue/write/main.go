// Command write writes the catalogue's files. Like build/frame it is a program of its own, so that it
// holds the templates and the texts as they are now, and not as they were when the build's own
// binary was compiled.
//
//	go run ./build/catalogue/write ROOT STYLE FOLDER [LANGUAGE…]
//
// ROOT is the top of the repository, STYLE the style's file name beside the documents. Of the
// languages it takes those that it was compiled with; none means all of them. FOLDER then holds
// NAME.LANGUAGE.html for every state, and states.json, which says what they are.
package main

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"

	"newel/build/catalogue"
	"newel/core/guide"
)

func main() {
	if len(os.Args) < 4 {
		fmt.Fprintln(os.Stderr, "write needs the repository, the style's name and a folder, and takes languages behind them")
		os.Exit(2)
	}
	languages := os.Args[4:]
	if len(languages) == 0 {
		languages = guide.Languages
	}
	if err := write(os.Args[1], os.Args[2], os.Args[3], languages); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func write(root, style, folder string, languages []string) error {
	vectors, err := catalogue.ReadVectors(root)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	states := catalogue.States(vectors)
	listed := make([]entry, len(states))
	for i := range states {
		for _, language := range languages {
			path, size, err := one(&states[i], language, style, folder)
			if err != nil {
				return err
			}
			listed[i] = entry{states[i], path, max(size, listed[i].Size)}
		}
	}
	list, err := json.Marshal(listed)
	if err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(folder, "states.json"), list, 0o644)
}

// entry is a state in states.json.
type entry struct {
	catalogue.State
	Path string // of the screen
	Size int    // of its largest document, in bytes
}

// one writes a state's document in a language.
func one(s *catalogue.State, language, style, folder string) (path string, size int, err error) {
	screen, err := s.Screen(language)
	if err != nil {
		return "", 0, err
	}
	html, err := s.Document(screen, style)
	if err != nil {
		return "", 0, err
	}
	return screen.Path, len(html), os.WriteFile(filepath.Join(folder, s.Name+"."+language+".html"), []byte(html), 0o644)
}
