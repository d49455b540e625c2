package bench

import (
	"context"
	_ "embed"
	"os"
	"path/filepath"
	"strings"

	"newel/build/bundle"
	"newel/build/tools"
)

// loaderPage is the least a page needs to run a Go program: the floor for
// everything the page adds around the core.
//
//go:embed loader.html
var loaderPage []byte

const emptyProgram = "package main\n\nfunc main() {}\n"

// sizes are what a browser downloads, in kB (1000 bytes) after brotli 11, and what of the near
// core is whose.
func sizes(ctx context.Context, root string) ([]Row, error) {
	files, err := bundle.Files(ctx, root, func(string) {})
	if err != nil {
		return nil, err
	}
	sent, err := measureBundle(files)
	if err != nil {
		return nil, err
	}
	empty, err := emptySize(ctx)
	if err != nil {
		return nil, err
	}
	loader, err := loaderSize(ctx, root)
	if err != nil {
		return nil, err
	}
	parts, err := budgetRows(ctx, root)
	return append(bundleRows(sent, empty, loader), parts...), err
}

// transfers are what goes over the line, by what it is, in kB.
type transfers map[string]float64

// sizeKinds say what a file of the bundle counts as, by how its name begins or all of it.
var sizeKinds = []struct{ begins, kind string }{
	{"core-", "core"}, {"whole-", "whole"}, {"index.html", "page"}, {"page-", "page"},
	{"es.html", "static-es"}, {"worker.js", "worker"}, {"atkinson", "typeface"}, {"qr-", "qr"},
}

// measureBundle adds up each kind of file, compressed where that makes it smaller.
func measureBundle(files map[string][]byte) (transfers, error) {
	sent := transfers{}
	for name, data := range files {
		for _, k := range sizeKinds {
			if !strings.HasPrefix(name, k.begins) {
				continue
			}
			size, err := brotliSize(data)
			if err != nil {
				return nil, err
			}
			sent[k.kind] += min(size, float64(len(data))/1000)
		}
	}
	return sent, nil
}

// bundleRows makes the rows of what is there.
func bundleRows(sent transfers, empty, loader float64) (rows []Row) {
	const program, page = "an empty Go program, same flags, brotli 11", "Go's own loader, minified, and a ten-line page, brotli 11"
	for _, k := range []struct {
		kind, peer       string
		than, must, goal float64
	}{
		{"core", program, empty, 830, 700}, {"whole", program, empty, 0, 0}, {"page", page, loader, 60, 40},
		{"static-es", page, loader, 0, 0}, {"worker", page, loader, 0, 0}, {"qr", page, loader, 0, 0}, {"typeface", page, loader, 0, 0},
	} {
		if sent[k.kind] == 0 {
			continue // this bundle has none
		}
		r := compare("size/"+k.kind+"-br", "kB", sent[k.kind], k.peer, k.than)
		r.Must, r.Goal = k.must, k.goal
		rows = append(rows, r)
	}
	return rows
}

func emptySize(ctx context.Context) (float64, error) {
	wasm, err := compiled(ctx, emptyProgram)
	if err != nil {
		return 0, err
	}
	return brotliSize(wasm)
}

func loaderSize(ctx context.Context, root string) (float64, error) {
	support, err := tools.WasmSupport(ctx, root)
	if err != nil {
		return 0, err
	}
	source, err := os.ReadFile(filepath.Join(support, "wasm_exec.js"))
	if err != nil {
		return 0, err
	}
	script, err := bundle.MinifyScript(source)
	if err != nil {
		return 0, err
	}
	loader, err := brotliSize(script)
	if err != nil {
		return 0, err
	}
	page, err := brotliSize(loaderPage)
	return loader + page, err
}

func brotliSize(data []byte) (float64, error) {
	packed, err := bundle.Brotli(data)
	return float64(len(packed)) / 1000, err
}
