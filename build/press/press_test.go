package press

import (
	"bytes"
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// compiled is a Go program as the build compiles it, and what comes of trimming it.
func compiled(t *testing.T, program string) (wasm, trimmed []byte) {
	t.Helper()
	dir := t.TempDir()
	for name, text := range map[string]string{"go.mod": "module pressed\n\ngo 1.26\n", "main.go": program} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644))
	}
	target := filepath.Join(dir, "out.wasm")
	run := exec.CommandContext(context.Background(), "go", "build", "-trimpath", "-ldflags", "-s -w", "-o", target, ".")
	run.Dir, run.Env = dir, append(os.Environ(), "GOOS=js", "GOARCH=wasm", "GOFLAGS=", "GOWORK=off")
	out, err := run.CombinedOutput()
	require.NoError(t, err, string(out))
	wasm, err = os.ReadFile(target)
	require.NoError(t, err)
	trimmed, err = Trim(wasm)
	require.NoError(t, err)
	return wasm, trimmed
}

// output runs a module in Node with the loader of the Go that compiled it.
func output(t *testing.T, wasm []byte) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "run.wasm")
	require.NoError(t, os.WriteFile(file, wasm, 0o644))
	root, err := exec.Command("go", "env", "GOROOT").Output()
	require.NoError(t, err)
	loader := filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "wasm_exec_node.js")
	out, err := exec.Command("node", loader, file).CombinedOutput()
	require.NoError(t, err, string(out))
	return string(out)
}

// faults panics in every way that a page's core could, and recovers; then it makes the collector
// work on deep stacks, closures, maps and interfaces, for which the runtime reads the tables that
// Trim leaves.
const faults = `package main

import (
	"errors"
	"fmt"
	"runtime"
	"strings"
)

type shape interface{ area(n int) int }
type square struct{ a, b *int }

func (s square) area(n int) int { return *s.a * *s.b / n }

type text struct{ string }

func try(name string, f func()) {
	defer func() { fmt.Println(name, recover()) }()
	f()
}

func nested() (found any) {
	defer func() {
		defer func() { found = recover() }()
		panic("second")
	}()
	panic("first")
}

func helper() any { return recover() }

func deep(n int, keep map[int]*strings.Builder) int {
	var room [40]*int
	for i := range room {
		room[i] = new(int)
		*room[i] = n + i
	}
	if n%50 == 0 {
		runtime.GC()
		b := &strings.Builder{}
		fmt.Fprint(b, n)
		keep[n] = b
	}
	if n > 0 {
		n = deep(n-1, keep)
	}
	sum := n
	for _, r := range room {
		sum = (sum + *r) % 1000003
	}
	return sum
}

func main() {
	var none *text
	var empty []int
	var nobody map[string]int
	var s shape = square{new(int), new(int)}
	zero := len(empty)
	try("nil", func() { fmt.Println(none.string) })
	try("index", func() { empty[zero]++ })
	try("slice", func() { fmt.Println("abc"[zero+2 : zero+1]) })
	try("map", func() { nobody["a"] = 1 })
	try("divide", func() { s.area(zero) })
	try("type", func() { fmt.Println(s.(interface{ missing() })) })
	try("error", func() { panic(errors.New("ours")) })
	try("method", func() { f := (*square).area; f(nil, 1) })
	try("none", func() {})
	try("helped", func() { defer func() { fmt.Println(helper()) }(); panic("seen by the outer one") })
	try("nested", func() { fmt.Println(nested()) })
	keep := map[int]*strings.Builder{}
	fmt.Println(deep(600, keep), len(keep), keep[300].String())
	done := make(chan int)
	for i := range 20 {
		go func() { done <- deep(30*i, map[int]*strings.Builder{}) }()
	}
	sum := 0
	for range 20 {
		sum += <-done
	}
	fmt.Println(sum)
	runtime.GC()
	fmt.Println(len(keep))
}
`

func TestATrimmedProgramDoesTheSame(t *testing.T) {
	wasm, trimmed := compiled(t, faults)
	want := output(t, wasm)
	require.Contains(t, want, "index runtime error: index out of range [0] with length 0")
	require.Contains(t, want, "value method main.square.area called using nil *square pointer", "the runtime asks for a name")
	require.Contains(t, want, "helped seen by the outer one")
	require.Equal(t, want, output(t, trimmed))
	back := roundTrip(t, trimmed)
	require.Equal(t, want, output(t, back))
}

func TestTrimTakesNamesAndLinesAway(t *testing.T) {
	wasm, trimmed := compiled(t, faults)
	require.True(t, bytes.Contains(wasm, []byte("main.nested")))
	require.False(t, bytes.Contains(trimmed, []byte("main.nested")))
	require.False(t, bytes.Contains(trimmed, []byte("runtime/panic.go")))
	require.Less(t, segments(t, trimmed)*20, segments(t, wasm))
}

// segments counts the pieces of a module's data.
func segments(t *testing.T, wasm []byte) int {
	t.Helper()
	all, err := sections(wasm)
	require.NoError(t, err)
	for _, s := range all {
		if s.id == sectionData {
			r := reader{b: s.body}
			return int(r.u32())
		}
	}
	t.Fatal("no data section")
	return 0
}

// roundTrip presses and unpresses, and holds what comes out to the same instructions.
func roundTrip(t *testing.T, wasm []byte) []byte {
	t.Helper()
	pressed, err := Press(wasm)
	require.NoError(t, err)
	require.Less(t, len(pressed)*10, len(wasm)*7)
	back, err := Unpress(pressed)
	require.NoError(t, err)
	again, err := Press(back)
	require.NoError(t, err)
	require.True(t, bytes.Equal(pressed, again), "pressing what came back gives the same")
	sameInstructions(t, wasm, back)
	return back
}

// sameInstructions compares two modules, whose numbers may be written at different lengths
// (a linker that fills addresses in leaves room for the longest).
func sameInstructions(t *testing.T, a, b []byte) {
	t.Helper()
	before, err := sections(a)
	require.NoError(t, err)
	after, err := sections(b)
	require.NoError(t, err)
	require.Len(t, after, len(before))
	for i := range before {
		require.Equal(t, before[i].id, after[i].id)
		if before[i].id != sectionCode {
			require.True(t, bytes.Equal(before[i].body, after[i].body), "section %d", before[i].id)
			continue
		}
		m, err := readModule(before[i].body)
		require.NoError(t, err)
		n, err := readModule(after[i].body)
		require.NoError(t, err)
		require.Len(t, n.functions, len(m.functions))
		require.Equal(t, m.symbols, n.symbols)
		for f := range m.functions {
			require.Equal(t, m.functions[f], n.functions[f], "function %d", f)
		}
	}
}

// The module of WebAssembly's own text format (Core Specification 2.0, chapter 5), by hand: one
// function of every kind of number that Press parts, a table of places, a jump, and what follows a call.
func TestEachKindOfInstruction(t *testing.T) {
	address := int64(firstFunction)<<16 | 2
	body := []byte{0x01, 0x01, 0x7e} // one local of 64 bits
	add := func(b ...byte) { body = append(body, b...) }
	add(0x03, 0x40, 0x02, 0x40, 0x02, 0x40, 0x02, 0x40) // loop, three blocks
	add(0x20, 0x00, 0x0e, 0x03, 0x00, 0x00, 0x01, 0x02, 0x0b)
	body = append(appendSigned(append(body, 0x42), address), 0x1a) // where the next place is
	add(0x41, 0xe4, 0x00, 0x1a, 0x0b)
	add(0x41, 0x01, 0x21, 0x00, 0x0c, 0x01, 0x0b)                                           // a jump
	add(0x44, 0, 0, 0, 0, 0, 0, 0xf0, 0x3f, 0x1a, 0x43, 0, 0, 0x80, 0x3f, 0x1a)             // f64, f32
	add(0x41, 0x00, 0x28, 0x02, 0x90, 0x4e, 0x1a, 0x41, 0x00, 0x28, 0x00, 0x00, 0x1a)       // loads, one out of line
	add(0x41, 0x00, 0x41, 0x00, 0x41, 0x00, 0xfc, 0x0a, 0x00, 0x00, 0x23, 0x00, 0x24, 0x00) // memory.copy, globals
	add(0x10, 0x00, 0x0b, 0x0b)
	code := append([]byte{1}, appendU32(nil, uint32(len(body)))...)
	wasm := join([]section{{1, []byte{1, 0x60, 0, 0}}, {sectionCode, append(code, body...)}, {sectionData, []byte{0}}})
	pressed, err := Press(wasm)
	require.NoError(t, err)
	m, err := readModule(append(code, body...))
	require.NoError(t, err)
	m.resolve(0)
	kinds := map[kind]bool{}
	for _, in := range m.functions[0].code {
		kinds[m.symbols[in.symbol].kind] = true
	}
	for k := literal; k <= wide; k++ {
		require.True(t, kinds[k], "kind %d", k)
	}
	back, err := Unpress(pressed)
	require.NoError(t, err)
	require.Equal(t, wasm, back)
}

func TestWhatIsNoGoProgramIsRefused(t *testing.T) {
	for name, wasm := range map[string][]byte{
		"nothing":             nil,
		"a text":              []byte("not a module at all"),
		"another version":     []byte("\x00asm\x02\x00\x00\x00"),
		"an empty module":     []byte(preamble),
		"a cut section":       append([]byte(preamble), sectionCode, 200, 1, 1),
		"an unknown opcode":   join([]section{{sectionCode, []byte{1, 3, 0, 0xfd, 0x0b}}}),
		"a function too long": join([]section{{sectionCode, []byte{1, 9, 0, 0x0b}}}),
	} {
		t.Run(name, func(t *testing.T) {
			_, err := Press(wasm)
			require.Error(t, err)
			_, err = Trim(wasm)
			require.Error(t, err)
		})
	}
}

func TestDamagedFormsAreRefused(t *testing.T) {
	_, trimmed := compiled(t, "package main\n\nfunc main() { println(\"here\") }\n")
	pressed, err := Press(trimmed)
	require.NoError(t, err)
	for _, cut := range []int{0, 5, len(mark) + 1, len(pressed) / 3, len(pressed) / 2} {
		back, err := Unpress(pressed[:cut])
		if err == nil { // cut in the part that is sent as it is
			_, err = sections(back)
		}
		require.Error(t, err, "cut at %d", cut)
	}
}
