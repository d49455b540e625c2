package bundle

import (
	"context"
	"os"
	"path/filepath"
	"strconv"

	"newel/build/tools"
)

// The linker drops what a browser cannot use: the symbol table with the functions' names, and debug data.
const (
	stripped = "-s -w"
	named    = "-w" // but leaves the names
)

// roomy are the packages in which functions are compiled as they stand instead of being
// copied into their callers: they run once for a tap, and the copies were 47 kB (brotli)
// of download. The rooms that loop over dates, times and words are not among them.
var roomy = []string{
	"newel/core/app", "newel/core/calendar", "newel/core/desk", "newel/core/page", "newel/core/picture", "newel/core/link", "newel/core/merge", "newel/core/message", "newel/core/plan",
	"github.com/emersion/go-ical", "net/url", "net/netip", "fmt", "strconv",
}

// compileFlags are the arguments of go build, without target and program. They leave out what would
// differ between two machines (folder names, version control state).
func compileFlags(linking string) []string {
	flags := []string{"build", "-trimpath", "-buildvcs=false", "-ldflags", linking}
	for _, name := range roomy {
		flags = append(flags, "-gcflags="+name+"=-l")
	}
	return flags
}

// tagOf is the build tag of a program: "near" for wasm/near, see core/app/rooms.go.
func tagOf(program string) string {
	if program == "./wasm/near" {
		return "near"
	}
	return ""
}

// Wasm compiles one program of the module in root, as in "./wasm/near".
func Wasm(ctx context.Context, root, program string) ([]byte, error) {
	return compileWasm(ctx, root, program, "", stripped)
}

// NamedWasm does, but leaves the functions' names in it, for whoever asks what its bytes are for.
func NamedWasm(ctx context.Context, root, program string) ([]byte, error) {
	return compileWasm(ctx, root, program, "", named)
}

// compileCore compiles one of the two cores and presses it.
func compileCore(ctx context.Context, o Options, program string) ([]byte, error) {
	wasm, err := compileWasm(ctx, o.Root, program, o.Overlay, stripped)
	if err != nil {
		return nil, err
	}
	return pressed(wasm, o.Log), nil
}

// compileWasm does, with the files that overlay names (see Options) in place of those in root.
func compileWasm(ctx context.Context, root, program, overlay, linking string) ([]byte, error) {
	dir, err := os.MkdirTemp("", "newel-wasm-")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	target := filepath.Join(dir, "out.wasm")
	args := append(compileFlags(linking), "-overlay="+overlay, "-tags="+tagOf(program))
	_, err = tools.Command{
		Step: "compiling " + program + " to WebAssembly", Dir: root, Env: tools.WasmEnv(),
		Name: "go", Args: append(args, "-o", target, program),
		Advice: "mend the Go code at the place named above",
	}.Run(ctx)
	if err != nil {
		return nil, err
	}
	return os.ReadFile(target)
}

// frames runs build/frame from the sources in root, see there for why, and gives the static
// page in every language by its file name: index.html, es.html.
func frames(ctx context.Context, root, overlay string, n Names) (map[string][]byte, error) {
	dir, err := os.MkdirTemp("", "newel-frames-")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	_, err = tools.Command{
		Step: "writing the static pages", Dir: root, Env: tools.CleanEnv(), Name: "go",
		Args:   []string{"run", "-trimpath", "-buildvcs=false", "-overlay=" + overlay, "./build/frame", n.Style, n.Begin, n.Script, n.Core, strconv.Itoa(n.CoreSize), n.Whole, strconv.Itoa(n.WholeSize), n.Ahead, n.Font, dir},
		Advice: "mend core/page or core/guide/text at the place named above",
	}.Run(ctx)
	if err != nil {
		return nil, err
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil, err
	}
	pages := map[string][]byte{}
	for _, e := range entries {
		if pages[e.Name()], err = os.ReadFile(filepath.Join(dir, e.Name())); err != nil {
			return nil, err
		}
	}
	return pages, nil
}
