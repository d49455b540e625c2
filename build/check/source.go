package check

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"path"
	"path/filepath"
	"strconv"
	"strings"

	"newel/build/tools"
)

// module is the prefix of our own import paths.
const module = "newel/"

// source is one Go file of ours that is not a test.
type source struct {
	name string // slash path relative to the repository
	dir  string // its folder
	tree *ast.File
	set  *token.FileSet
}

// goSources parses every non-test Go file under the given folder ("" for all).
// Build tags are ignored: a rule holds on every platform.
func goSources(root, under string) ([]source, error) {
	files, err := tools.Sources(root)
	if err != nil {
		return nil, err
	}
	var sources []source
	for _, name := range files {
		if !strings.HasPrefix(name, under) || !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
			continue
		}
		set := token.NewFileSet()
		tree, err := parser.ParseFile(set, filepath.Join(root, name), nil, parser.SkipObjectResolution)
		if err != nil {
			return nil, fmt.Errorf("%s cannot be read as Go: %w", name, err)
		}
		sources = append(sources, source{name, path.Dir(name), tree, set})
	}
	return sources, nil
}

// imports are the paths a file imports.
func (s source) imports() []string {
	var paths []string
	for _, spec := range s.tree.Imports {
		p, _ := strconv.Unquote(spec.Path.Value)
		paths = append(paths, p)
	}
	return paths
}

// localName is the name under which a file knows an imported package, or ""
// when it does not import it.
func (s source) localName(importPath string) string {
	for _, spec := range s.tree.Imports {
		if p, _ := strconv.Unquote(spec.Path.Value); p != importPath {
			continue
		}
		if spec.Name != nil {
			return spec.Name.Name
		}
		return path.Base(importPath)
	}
	return ""
}

// at gives "core/plan/date.go:12".
func (s source) at(node ast.Node) string {
	return fmt.Sprintf("%s:%d", s.name, s.set.Position(node.Pos()).Line)
}
