// Package templates turns the templates (*.qtpl in the Folders) into Go: with the same
// compiler that `go tool qtc -dir=core/page -skipLineComments` runs, and then by ownWriter into
// code that needs no runtime but core/markup. It works in memory, so that a check can compare
// without writing.
package templates

import (
	"bytes"
	"fmt"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"github.com/valyala/quicktemplate/parser"
)

// Folders are where the templates live, relative to the repository.
var Folders = []string{"core/page", "core/picture"}

// Generate compiles every template in the Folders. The result maps the slash
// path of each generated file, relative to root, to its text.
func Generate(root string) (map[string][]byte, error) {
	names, err := list(root, ".qtpl")
	if err != nil {
		return nil, err
	}
	out := map[string][]byte{}
	for _, name := range names {
		if out[name+".go"], err = compile(root, name); err != nil {
			return nil, fmt.Errorf("the template %s cannot be compiled: %w\n  what to do: mend the template at that place", name, err)
		}
	}
	return out, nil
}

// compile does what qtc's compileFile does, and then has the code write as ours does; the template's path goes into the
// first line of the generated file, so it must be the relative one.
func compile(root, name string) ([]byte, error) {
	source, err := os.ReadFile(filepath.Join(root, name))
	if err != nil {
		return nil, err
	}
	return compileText(source, name)
}

func compileText(source []byte, name string) ([]byte, error) {
	var code bytes.Buffer
	pkg := path.Base(path.Dir(name))
	if err := parser.ParseNoLineComments(&code, bytes.NewReader(source), name, pkg); err != nil {
		return nil, err
	}
	return ownWriter(code.Bytes())
}

// Write brings the generated files up to date and returns those it changed.
func Write(root string) ([]string, error) {
	files, err := Generate(root)
	if err != nil {
		return nil, err
	}
	var changed []string
	for name, code := range files {
		target := filepath.Join(root, name)
		if old, err := os.ReadFile(target); err == nil && bytes.Equal(old, code) {
			continue
		}
		if err := os.WriteFile(target, code, 0o644); err != nil {
			return changed, err
		}
		changed = append(changed, name)
	}
	slices.Sort(changed)
	return changed, nil
}

// Stale names every generated file that is not what its template gives, and
// every one whose template is gone.
func Stale(root string) ([]string, error) {
	want, err := Generate(root)
	if err != nil {
		return nil, err
	}
	have, err := list(root, ".qtpl.go")
	if err != nil {
		return nil, err
	}
	var problems []string
	for name, code := range want {
		if old, err := os.ReadFile(filepath.Join(root, name)); err != nil || !bytes.Equal(old, code) {
			problems = append(problems, name+" is not what its template gives: run go run ./build bundle and keep the changed file")
		}
	}
	for _, name := range have {
		if want[name] == nil {
			problems = append(problems, name+" has no template any more: delete it")
		}
	}
	slices.Sort(problems)
	return problems, nil
}

func list(root, suffix string) ([]string, error) {
	var names []string
	for _, folder := range Folders {
		entries, err := os.ReadDir(filepath.Join(root, folder))
		if err != nil && !os.IsNotExist(err) {
			return nil, err
		}
		for _, entry := range entries {
			if strings.HasSuffix(entry.Name(), suffix) {
				names = append(names, folder+"/"+entry.Name())
			}
		}
	}
	return names, nil
}
