package bench

import (
	"bytes"
	"context"
	_ "embed"
	"os"
	"path/filepath"
	"strings"

	"newel/build/bundle"
	"newel/build/tools"
)

// The floor is the least that a page of Go costs: an empty program that sets one text, of the
// same Go, by the same flags, served by the same handler and with the same copies. It is asked
// for as early as ours, and nothing competes with it for the line.

//go:embed floor.html
var floorPage string

//go:embed floor.js
var floorScript string

const floorProgram = `//go:build js && wasm

package main

import "syscall/js"

func main() {
	page := js.Global().Get("document")
	page.Get("body").Set("textContent", "Here")
	page.Get("documentElement").Get("dataset").Set("floor", "1")
}
`

// The names have the shape of those that a browser may keep for ever (build/site).
const (
	floorCore   = "core-FLOORAAA.wasm"
	floorLoader = "page-FLOORAAA.js"
)

// floorFiles makes the floor's folder: each file, and its brotli and gzip copies.
func floorFiles(ctx context.Context, root string) (map[string][]byte, error) {
	core, err := compiled(ctx, floorProgram)
	if err != nil {
		return nil, err
	}
	script, err := floorLoaderScript(ctx, root)
	if err != nil {
		return nil, err
	}
	page := strings.NewReplacer("{core}", floorCore, "{script}", floorLoader).Replace(floorPage)
	files := map[string][]byte{"index.html": []byte(page), floorCore: core, floorLoader: script}
	for _, name := range []string{"index.html", floorCore, floorLoader} {
		for suffix, encode := range map[string]func([]byte) ([]byte, error){".br": bundle.Brotli, ".gz": bundle.Gzip} {
			if files[name+suffix], err = encode(files[name]); err != nil {
				return nil, err
			}
		}
	}
	return files, nil
}

// floorLoaderScript is Go's own loader with the lines that start the program.
func floorLoaderScript(ctx context.Context, root string) ([]byte, error) {
	support, err := tools.WasmSupport(ctx, root)
	if err != nil {
		return nil, err
	}
	loader, err := os.ReadFile(filepath.Join(support, "wasm_exec.js"))
	if err != nil {
		return nil, err
	}
	start := strings.Replace(floorScript, "import \"wasm_exec\";\n", "", 1)
	return bundle.MinifyScript(bytes.Join([][]byte{loader, []byte(start)}, []byte("\n")))
}

// compiled compiles a program of one file to WebAssembly as the build compiles the core.
func compiled(ctx context.Context, program string) ([]byte, error) {
	dir, remove, err := scratch()
	if err != nil {
		return nil, err
	}
	defer remove()
	for name, text := range map[string]string{"go.mod": "module empty\n\ngo 1.26\n", "main.go": program} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			return nil, err
		}
	}
	return bundle.Wasm(ctx, dir, ".")
}
