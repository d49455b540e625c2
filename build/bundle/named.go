package bundle

import (
	"context"
	"os"
	"path/filepath"
	"slices"

	"newel/build/tools"
)

// NamedWasm compiles a program of the module in root as Wasm does, but leaves the functions'
// names in it, for whoever asks what its bytes are for.
func NamedWasm(ctx context.Context, root, program string) ([]byte, error) {
	dir, err := os.MkdirTemp("", "newel-wasm-")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	target := filepath.Join(dir, "out.wasm")
	args := compileFlags()
	args[slices.Index(args, "-ldflags")+1] = "-w"
	_, err = tools.Command{
		Step: "compiling " + program + " to WebAssembly with names", Dir: root, Env: tools.WasmEnv(),
		Name: "go", Args: append(args, "-o", target, program),
		Advice: "mend the Go code at the place named above",
	}.Run(ctx)
	if err != nil {
		return nil, err
	}
	return os.ReadFile(target)
}
