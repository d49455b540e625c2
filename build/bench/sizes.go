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

// sizes are what a browser downloads, in kB (1000 bytes) after brotli 11.
func sizes(ctx context.Context, root string) ([]Row, error) {
	files, err := bundle.Files(ctx, root, func(string) {})
	if err != nil {
		return nil, err
	}
	core, page, err := measureBundle(files)
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
	return []Row{
		compare("size/core-br", "kB", core, "an empty Go program, same flags, brotli 11", empty),
		compare("size/page-br", "kB", page, "Go's own loader, minified, and a ten-line page, brotli 11", loader),
	}, nil
}

// measureBundle adds up the core, and the page's HTML, script and style.
func measureBundle(files map[string][]byte) (core, page float64, err error) {
	for name, data := range files {
		size, err := brotliSize(data)
		if err != nil {
			return 0, 0, err
		}
		switch {
		case strings.HasPrefix(name, "core-"):
			core += size
		case name == "index.html" || strings.HasPrefix(name, "page-"):
			page += size
		}
	}
	return core, page, nil
}

func emptySize(ctx context.Context) (float64, error) {
	dir, remove, err := scratch()
	if err != nil {
		return 0, err
	}
	defer remove()
	for name, text := range map[string]string{"go.mod": "module empty\n\ngo 1.26\n", "main.go": emptyProgram} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			return 0, err
		}
	}
	wasm, err := bundle.Wasm(ctx, dir, ".")
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
