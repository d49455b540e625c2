// Command frame writes the page's static HTML, once for each language. It is a program of
// its own so that the build can run it after it has compiled the templates and with the
// texts as they are now: the build's own binary would still hold those it was started with.
//
//	go run ./build/frame STYLE BEGIN SCRIPT CORE BYTES WHOLE BYTES AHEAD FONT FOLDER
//
// FOLDER then holds index.html in English, es.html in Spanish, and so on, and the web application
// manifest in each. A language that lacks a word, or has one that nothing says, stops the build:
// its page would show keys in place of sentences, on the one page that must be read without a
// program's help.
package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"newel/core/guide"
	"newel/core/page"
)

func main() {
	if len(os.Args) != 11 {
		fmt.Fprintln(os.Stderr, "frame needs seven file names, two of them with a length, and a folder: style, first script, script, core, its bytes, whole core, its bytes, the worker, font, where to")
		os.Exit(2)
	}
	assets := page.Assets{Style: os.Args[1], Begin: os.Args[2], Script: os.Args[3], Core: os.Args[4], CoreSize: os.Args[5], Whole: os.Args[6], WholeSize: os.Args[7], Ahead: os.Args[8], Font: os.Args[9]}
	if err := write(assets, guide.Languages, os.Args[10]); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// write makes a file in folder for each language, unless one of them is not complete.
func write(a page.Assets, languages []string, folder string) error {
	var missing []string
	for _, language := range languages {
		missing = append(missing, guide.Missing(language)...)
	}
	if len(missing) > 0 {
		return incomplete(missing)
	}
	for _, language := range languages {
		html := page.Frame(language, a)
		if err := os.WriteFile(filepath.Join(folder, page.StaticName(language)), []byte(html), 0o644); err != nil {
			return err
		}
		app, err := manifestOf(language)
		if err != nil {
			return err
		}
		if err := os.WriteFile(filepath.Join(folder, page.ManifestName(language)), app, 0o644); err != nil {
			return err
		}
	}
	return nil
}

// incomplete says what is missing: all of it where that is not long, else its beginning.
func incomplete(missing []string) error {
	const most = 20
	more := ""
	if len(missing) > most {
		more = fmt.Sprintf("\n  and %d more", len(missing)-most)
		missing = missing[:most]
	}
	return fmt.Errorf("a language does not say what English says:\n  %s%s\n"+
		"write what is missing in core/guide/text/LANGUAGE/, and take out what is too many",
		strings.Join(missing, "\n  "), more)
}
