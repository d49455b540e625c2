package budget

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/build/bundle"
)

// A module by hand, after the WebAssembly Core Specification 2.0, 5.5 and 7.4.1: one imported
// function, two of its own, two segments of data.
var small = []byte("\x00asm\x01\x00\x00\x00" +
	"\x02\x09\x01\x01a\x03fun\x00\x00" + // imports a.fun, a function of type 0
	"\x0a\x08\x02\x02\x00\x0b\x03\x00\x01\x0b" + // bodies of two and three bytes
	"\x0b\x10\x02\x00\x41\x00\x0b\x03one\x00\x41\x08\x0b\x02tw" + // data at 0 and 8
	"\x00\x13\x04name\x01\x0c\x02\x01\x03a.F\x02\x04b.G_") // of the functions 1 and 2

func TestReadsFunctionsAndData(t *testing.T) {
	m, err := read(small)
	require.NoError(t, err)
	require.Equal(t, []function{{"a.F", []byte{0x00, 0x0b}}, {"b.G_", []byte{0x00, 0x01, 0x0b}}}, m.functions)
	require.Equal(t, "onetw", string(m.data))
	require.Equal(t, "\x00\x41\x00\x0b\x03\x00\x41\x08\x0b\x02", string(m.headers))
}

func TestWhatIsCutOffCannotBeRead(t *testing.T) {
	for n := range len(small) {
		_, err := read(small[:n])
		require.ErrorContains(t, err, "the module", "after %d bytes", n)
	}
}

// The names are as Go's linker writes them (cmd/link/internal/wasm): what is neither a letter, a
// digit, an underscore nor a dot has become an underscore.
func TestNamesFindTheirPackage(t *testing.T) {
	module := func(path string) *struct{ Path string } { return &struct{ Path string }{path} }
	find := finder([]pkg{
		{ImportPath: "runtime", Standard: true}, {ImportPath: "internal/runtime/maps", Standard: true},
		{ImportPath: "github.com/x/rule-go/v2/in", Module: module("github.com/x/rule-go/v2")},
		{ImportPath: "newel/core/page"}, {ImportPath: "newel/wasm"},
	})
	for name, want := range map[string]string{
		"newel_core_page.__View_.Row": "core/page", "newel_core_page.NewView.func1": "core/page",
		"runtime.mallocgc": "runtime", "internal_runtime_maps.__Iter_.Next": "internal/runtime/maps",
		"github.com_x_rule_go_v2_in.All": "github.com/x/rule-go/v2", "main.handle": "wasm",
		"type_.eq.newel_core_page.View": Compiler, "_rt0_wasm_js": "runtime",
	} {
		require.Equal(t, want, find(name), name)
	}
}

// The near core itself: nothing of its code is lost, the packages that must be in it are, the texts
// are counted for core/guide, and each of the ten largest has a reason.
func TestTheTenLargestHaveAReason(t *testing.T) {
	root, err := filepath.Abs(filepath.Join("..", "..", ".."))
	require.NoError(t, err)
	parts, err := Of(t.Context(), root, Near, bundle.Gzip) // brotli takes minutes, and the order is nearly the same
	require.NoError(t, err)
	ten := Largest(parts, 10)
	require.Len(t, ten, 10)
	for _, p := range ten {
		require.NotEmpty(t, Reasons[p.Name], "%s is one of the ten largest (%d bytes compressed): say in reasons.go why it earns them", p.Name, p.Packed)
		require.Positive(t, p.Functions)
	}
	for _, p := range parts {
		if p.Name == "core/guide" {
			require.Positive(t, p.Files)
			return
		}
	}
	t.Fatal("core/guide is in no part")
}

func TestNothingIsLost(t *testing.T) {
	dir := t.TempDir()
	for name, text := range map[string]string{"go.mod": "module newel\n\ngo 1.26\n", "main.go": "package main\n\nfunc main() { println(\"here\") }\n"} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644))
	}
	wasm, err := bundle.NamedWasm(t.Context(), dir, ".")
	require.NoError(t, err)
	m, err := read(wasm)
	require.NoError(t, err)
	packages, err := list(t.Context(), dir, ".")
	require.NoError(t, err)
	functions, code := 0, 0
	for _, f := range m.functions {
		require.NotEmpty(t, f.name)
		code += len(f.body)
	}
	for _, c := range shares(m, packages) {
		functions += c.Functions
		code -= c.Code
	}
	require.Equal(t, len(m.functions), functions)
	require.Zero(t, code)
}
