package mutate

import (
	"context"
	"encoding/json"
	"fmt"
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"newel/build/tools"
)

// pkg is a package as it stands, with the types of all its expressions: "+" is
// a fault to be made between numbers and not between words.
type pkg struct {
	root, folder string // the repository; the package's folder in it
	dir          string // the same folder, whole
	set          *token.FileSet
	files        []file
	info         *types.Info
	types        *types.Package
	rapid        bool // its tests draw at random with pgregory.net/rapid
}

type file struct {
	name   string // without its folder
	source []byte
	tree   *ast.File
}

// listed is what we need of `go list -json`.
type listed struct {
	Dir, ImportPath, Export   string
	GoFiles                   []string
	TestImports, XTestImports []string
}

// load reads a package with the build tags of the machine, which are those of its tests.
func load(ctx context.Context, root, folder string) (*pkg, error) {
	found, exports, err := list(ctx, root, folder)
	if err != nil {
		return nil, err
	}
	p := &pkg{root: root, folder: folder, dir: found.Dir, set: token.NewFileSet(), info: &types.Info{
		Types: map[ast.Expr]types.TypeAndValue{}, Defs: map[*ast.Ident]types.Object{}, Uses: map[*ast.Ident]types.Object{},
	}}
	p.rapid = slices.Contains(append(found.TestImports, found.XTestImports...), "pgregory.net/rapid")
	var trees []*ast.File
	for _, name := range found.GoFiles {
		source, err := os.ReadFile(filepath.Join(p.dir, name))
		if err != nil {
			return nil, err
		}
		tree, err := parser.ParseFile(p.set, name, source, parser.ParseComments)
		if err != nil {
			return nil, fmt.Errorf("%s cannot be read as Go: %w", filepath.Join(folder, name), err)
		}
		p.files = append(p.files, file{name, source, tree})
		trees = append(trees, tree)
	}
	config := types.Config{Importer: importer.ForCompiler(p.set, "gc", func(path string) (io.ReadCloser, error) {
		return os.Open(exports[path])
	})}
	p.types, err = config.Check(found.ImportPath, p.set, trees, p.info)
	if err != nil {
		return nil, fmt.Errorf("%s does not compile: %w", folder, err)
	}
	return p, nil
}

// list asks the go command for the package, and where the compiled form of each it imports is.
func list(ctx context.Context, root, folder string) (listed, map[string]string, error) {
	out, err := tools.Command{
		Step: "go list " + folder, Dir: root, Env: tools.CleanEnv(), Name: "go",
		Args: []string{"list", "-export", "-deps", "-json=Dir,ImportPath,Export,GoFiles,TestImports,XTestImports", "./" + folder},
	}.Stdout(ctx)
	if err != nil {
		return listed{}, nil, err
	}
	var last listed // -deps lists what is imported before what imports it
	exports := map[string]string{}
	for decoder := json.NewDecoder(strings.NewReader(out)); decoder.More(); {
		last = listed{}
		if err := decoder.Decode(&last); err != nil {
			return listed{}, nil, fmt.Errorf("what go list says of %s cannot be read: %w", folder, err)
		}
		exports[last.ImportPath] = last.Export
	}
	return last, exports, nil
}
