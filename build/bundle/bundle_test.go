package bundle

import (
	"bytes"
	"context"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/build/site"
	"newel/build/tools"
)

func put(t *testing.T, root string, files ...string) string {
	t.Helper()
	for i := 0; i < len(files); i += 2 {
		path := filepath.Join(root, files[i])
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, []byte(files[i+1]), 0o644))
	}
	return root
}

// SHA-256 of "abc" is in FIPS 180-4's example (ba7816bf8f…); its first five
// bytes in base 32 (RFC 4648 section 6) are XJ4BNP4P.
func TestHashedName(t *testing.T) {
	require.Equal(t, "core-XJ4BNP4P.wasm", hashed("core", ".wasm", []byte("abc")))
}

// The names made here are the ones the site lets browsers keep.
func TestHashedNamesAreKeptByTheSite(t *testing.T) {
	name := hashed("page", ".js", []byte("abc"))
	handler, err := site.New(os.DirFS(put(t, t.TempDir(), "index.html", "", name, "abc")))
	require.NoError(t, err)
	w := httptest.NewRecorder()
	handler.ServeHTTP(w, httptest.NewRequest("GET", "/"+name, nil))
	require.Contains(t, w.Header().Get("Cache-Control"), "immutable")
}

// Node's zlib, another implementation of RFC 7932 and RFC 1952, unpacks both.
func TestNodeUnpacksWhatWePack(t *testing.T) {
	text := []byte(strings.Repeat("the same again, ", 5000))
	for name, encode := range map[string]func([]byte) ([]byte, error){"brotliDecompressSync": Brotli, "gunzipSync": Gzip} {
		packed, err := encode(text)
		require.NoError(t, err)
		require.Less(t, len(packed), len(text)/100)
		node := exec.Command("node", "-e", "process.stdout.write(require('zlib')."+name+"(require('fs').readFileSync(0)))")
		node.Stdin = bytes.NewReader(packed)
		out, err := node.Output()
		require.NoError(t, err)
		require.Equal(t, text, out)
	}
}

func TestPack(t *testing.T) {
	cache := filepath.Join(t.TempDir(), "packed")
	files := map[string][]byte{"a.js": bytes.Repeat([]byte("abc "), 100), "tiny.css": []byte("a{}")}
	packed, err := pack(files, cache)
	require.NoError(t, err)
	require.Len(t, packed, 2, "nothing beside a file that does not get smaller")
	require.Contains(t, packed, "a.js.br")
	require.Contains(t, packed, "a.js.gz")

	again, err := pack(files, cache)
	require.NoError(t, err)
	require.Equal(t, packed, again, "from the cache")

	_, err = pack(map[string][]byte{"b.js": []byte("b")}, cache)
	require.NoError(t, err)
	kept, err := os.ReadDir(cache)
	require.NoError(t, err)
	require.Len(t, kept, 2, "only what the last build used")
}

func TestReplaceable(t *testing.T) {
	require.NoError(t, replaceable(filepath.Join(t.TempDir(), "new")))
	require.NoError(t, replaceable(t.TempDir()))
	require.NoError(t, replaceable(put(t, t.TempDir(), "core-ABCDEFGH.wasm", "")))
	require.ErrorContains(t, replaceable(put(t, t.TempDir(), "letter.txt", "")), "left alone")
	require.ErrorContains(t, replaceable(filepath.Join(put(t, t.TempDir(), "file", ""), "file")), "cannot be used")
}

func TestReplaceSwapsTheWholeFolder(t *testing.T) {
	out := put(t, filepath.Join(t.TempDir(), "dist"), "core-ABCDEFGH.wasm", "old")
	require.NoError(t, replace(out, map[string][]byte{"index.html": []byte("new"), "icons/a.png": []byte("p")}))
	names, err := tools.Sources(out)
	require.NoError(t, err)
	require.Equal(t, []string{"icons/a.png", "index.html"}, names)
}

func TestIsInput(t *testing.T) {
	for _, name := range []string{"core/plan/date.go", "core/page/a.qtpl", "wasm/near/main.go", "web/main.ts", "go.mod", "build/bundle/web.go"} {
		require.True(t, isInput(name), name)
	}
	for _, name := range []string{"core/plan/date_test.go", "web/test/unit/a.test.mjs", "README.md", "go.mod.bak", "build/bench/bench.go"} {
		require.False(t, isInput(name), name)
	}
}

func TestCurrentNoticesEveryChange(t *testing.T) {
	ctx := context.Background()
	root := put(t, t.TempDir(), "core/a.go", "package a", ".cache/x", "", "dist/index.html", "page")
	o := Options{Root: root, Out: filepath.Join(root, "dist")}
	require.False(t, current(ctx, o), "never built")
	require.NoError(t, remember(ctx, o))
	require.True(t, current(ctx, o))
	put(t, root, "README.md", "no part of the page")
	require.True(t, current(ctx, o))
	put(t, root, "core/a.go", "package b")
	require.False(t, current(ctx, o), "a source changed")
	require.NoError(t, remember(ctx, o))
	put(t, root, "dist/index.html", "touched")
	require.False(t, current(ctx, o), "the folder changed")
	require.NoError(t, remember(ctx, o))
	put(t, root, "web/new.ts", "")
	require.False(t, current(ctx, o), "a source was added")
}

func TestWeb(t *testing.T) {
	root := put(t, t.TempDir(),
		"web/main.ts", "import 'wasm_exec'; import { x } from './x'; const y: string = x; console.log(y); import('./late'); class A { #z = y; z() { return this.#z } } new A().z()", "web/x.ts", "export const x = 'from x'",
		"web/late.ts", "class B { #z = 1; z() { return this.#z } } console.log('from late', new B().z())",
		"web/style.css", "@import './b.css'; p { background: url(a.png) }", "web/b.css", "b { margin : 0px }",
		"web/a.png", "picture", "loader.js", "globalThis.fromLoader = true")
	script, style, extra, err := web(root, filepath.Join(root, "loader.js"))
	require.NoError(t, err)
	require.Contains(t, string(script), `"from x"`)
	require.Less(t, strings.Index(string(script), "fromLoader"), strings.Index(string(script), "from x"), "the loader comes first")
	require.Contains(t, string(style), "b{margin:0}")
	require.Len(t, extra, 2)
	for name := range extra {
		require.Regexp(t, `^(a-[A-Z2-7]{8}\.png|late-[A-Z2-7]{8}\.js)$`, name)
		require.Contains(t, string(style)+string(script), name)
	}
	require.NotContains(t, string(script), "from late", "what is loaded later is a file of its own")
	put(t, root, "web/late.ts", "import { x } from './x'; console.log(x)")
	_, _, _, err = web(root, filepath.Join(root, "loader.js"))
	require.ErrorContains(t, err, "web/main.ts shares code with a file that is loaded later")
	put(t, root, "web/main.ts", "const = 1")
	_, _, _, err = web(root, filepath.Join(root, "loader.js"))
	require.ErrorContains(t, err, "bundling web/main.ts did not work")
	require.ErrorContains(t, err, "web/main.ts:1:6")
}

func TestStatic(t *testing.T) {
	files, err := static(put(t, t.TempDir(), "web/static/icons/a.png", "p", "web/static/b.txt", "b"))
	require.NoError(t, err)
	require.Equal(t, map[string][]byte{"icons/a.png": []byte("p"), "b.txt": []byte("b")}, files)
	files, err = static(t.TempDir())
	require.NoError(t, err)
	require.Empty(t, files)
}

func TestWasmReportsTheCompilersWords(t *testing.T) {
	root := put(t, t.TempDir(), "go.mod", "module x\n\ngo 1.26\n", "main.go", "package main\n\nfunc main() { nothing() }\n")
	_, err := Wasm(context.Background(), root, ".")
	require.ErrorContains(t, err, "compiling . to WebAssembly did not work")
	require.ErrorContains(t, err, "main.go:3:15: undefined: nothing")
	put(t, root, "main.go", "package main\n\nfunc main() {}\n")
	code, err := Wasm(context.Background(), root, ".")
	require.NoError(t, err)
	// WebAssembly Core Specification section 5.5.16: magic and version.
	require.Equal(t, []byte("\x00asm\x01\x00\x00\x00"), code[:8])
}
