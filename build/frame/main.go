// Command frame prints the page's static HTML. It is a program of its own so
// that the build can run it after it has compiled the templates: the build's
// own binary would still hold the templates it was started with.
//
//	go run ./build/frame STYLE SCRIPT CORE > index.html
package main

import (
	"fmt"
	"os"

	"newel/core/page"
)

func main() {
	if len(os.Args) != 4 {
		fmt.Fprintln(os.Stderr, "frame needs three file names: style, script, core")
		os.Exit(2)
	}
	fmt.Print(page.Frame("en", page.Assets{Style: os.Args[1], Script: os.Args[2], Core: os.Args[3]}))
}
