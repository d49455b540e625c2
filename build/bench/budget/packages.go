package budget

import (
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"io"
	"regexp"
	"slices"
	"strings"

	"newel/build/tools"
)

// pkg is a package as "go list -json" tells of it.
type pkg struct {
	ImportPath string
	Dir        string
	EmbedFiles []string
	Standard   bool
	Module     *struct{ Path string }
}

// own is the name of this module, which all packages of ours begin with.
const own = "newel/"

// part is the name under which the package is counted.
func (p *pkg) part() string {
	if path, ours := strings.CutPrefix(p.ImportPath, own); ours {
		return path
	}
	if p.Standard || p.Module == nil {
		return p.ImportPath
	}
	return p.Module.Path
}

// list are the packages that a program consists of.
func list(ctx context.Context, root, program string) (all []pkg, err error) {
	out, err := tools.Command{
		Step: "listing the packages of " + program, Dir: root, Env: tools.WasmEnv(), Name: "go",
		Args: []string{"list", "-deps", "-json=ImportPath,Dir,EmbedFiles,Standard,Module", program},
	}.Stdout(ctx)
	if err != nil {
		return nil, err
	}
	decoder := json.NewDecoder(strings.NewReader(out))
	for {
		var p pkg
		switch err := decoder.Decode(&p); {
		case errors.Is(err, io.EOF):
			return all, nil
		case err != nil:
			return nil, err
		}
		all = append(all, p)
	}
}

// unnameable is what Go's linker writes an underscore for in a name (cmd/link/internal/wasm,
// nameRegexp).
var unnameable = regexp.MustCompile(`[^\w.]`)

// finder tells the part of a function by its name in the module. The longest path of a package
// that the name begins with is its own; "main" is the program.
func finder(packages []pkg) func(name string) string {
	type known struct{ prefix, part string }
	var all []known
	for i := range packages {
		p := &packages[i]
		all = append(all, known{unnameable.ReplaceAllString(p.ImportPath, "_") + ".", p.part()})
	}
	program := packages[len(packages)-1] // go list -deps ends with what was asked for
	all = append(all, known{"main.", program.part()})
	slices.SortFunc(all, func(a, b known) int { return cmp.Compare(len(b.prefix), len(a.prefix)) })
	return func(name string) string {
		if strings.HasPrefix(name, "type_.") {
			return Compiler
		}
		for _, k := range all {
			if strings.HasPrefix(name, k.prefix) {
				return k.part
			}
		}
		return "runtime" // written in assembly, without a package: rt0, the switch of stacks
	}
}
