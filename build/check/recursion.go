package check

import (
	"fmt"
	"go/ast"
	"go/build"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"maps"
	"path"
	"path/filepath"
	"slices"
	"strings"
)

// A stack that has no more room ends the core's program; recover does not catch that, and the page would have to
// load itself anew. So a function of the core calls itself only where something bounds how deep, and says so here, as "folder:
// function", with what bounds it. Functions that call each other are one entry, with a plus between their names.
//
// Calls through an interface or a function that was handed over are not seen; the core has few.
var allowedRecursion = map[string]string{
	"core/app: (*session).answer + (*session).setLanguage":   "twice: shows lets no path through that sets the language",
	"core/assign: (*branch).run":                             "once for each series that has a choice; assign.MaxItems",
	"core/assign: (*hand).aside + (*hand).makeRoom":          "so often as the caller says, a small constant",
	"core/assign: (*leaf).run + (*leaf).try":                 "once for each item that has a choice; assign.MaxItems, and maxLeaf bounds it further",
	"core/assign: (*task).match":                             "once for each helper; assign.MaxHelpers, and seen grows each time",
	"core/calendar: (*writer).beside + (*writer).besideSpan": "twice: a moment is on one day",
	"core/desk: (*tomlDoc).seal":                             "mostParts, twice: of a table's head and of the keys in it",
	"core/merge: (*Doc).shownOf + (*Doc).value":              "twice: an arrival asks for the day of surgery, which asks for nothing",
	"core/pack: (*alphabet).lay":                             "the depth of a tree that is a constant of the package",
	"core/page: (*List).add":                                 "twice: the part of own lines has a title",
	"core/picture: heads":                                    "twice: the last word is one word",
}

// Recursion lists the functions of the core that may call themselves without a bound, and the
// entries that nothing needs any more.
func Recursion(root string) ([]string, error) {
	sources, err := goSources(root, "core/")
	if err != nil {
		return nil, err
	}
	found, err := recursive(root, sources)
	return judgeRecursion(found, allowedRecursion), err
}

func judgeRecursion(found []string, allowed map[string]string) []string {
	var problems []string
	for _, key := range found {
		if allowed[key] == "" {
			problems = append(problems, fmt.Sprintf("%s may call itself: write a loop, or say in build/check/recursion.go what bounds how deep it goes", key))
		}
	}
	for _, key := range slices.Sorted(maps.Keys(allowed)) {
		if !slices.Contains(found, key) {
			problems = append(problems, fmt.Sprintf("build/check/recursion.go allows %q, which calls itself no more: take it out", key))
		}
	}
	return problems
}

// recursive lists the circles of calls, package by package. No circle goes through two, since imports have none.
func recursive(root string, sources []source) ([]string, error) {
	folder, err := filepath.Abs(root)
	if err != nil {
		return nil, err
	}
	t := &typed{root: folder, set: token.NewFileSet(), packages: map[string]*types.Package{}, files: map[string][]string{}, calls: map[string]map[string]map[string]bool{}}
	t.others = importer.ForCompiler(t.set, "source", nil).(types.ImporterFrom)
	for _, s := range sources {
		// What is compiled here by default; files for the near core leave functions out and add none.
		if ok, err := build.Default.MatchFile(filepath.Join(folder, s.dir), path.Base(s.name)); ok && err == nil {
			t.files[s.dir] = append(t.files[s.dir], s.name)
		}
	}
	var found []string
	for _, dir := range slices.Sorted(maps.Keys(t.files)) {
		if _, err := t.Import(module + dir); err != nil {
			return nil, err
		}
		for _, names := range circles(t.calls[dir]) {
			found = append(found, dir+": "+strings.Join(names, " + "))
		}
	}
	return found, nil
}

// typed reads packages with their types, so that a name is known for what it is.
type typed struct {
	root     string
	set      *token.FileSet
	packages map[string]*types.Package             // of ours, by folder
	files    map[string][]string                   // by folder
	calls    map[string]map[string]map[string]bool // by folder: which function names which
	others   types.ImporterFrom
}

// Import reads a package, ours or another.
func (t *typed) Import(name string) (*types.Package, error) {
	dir, ours := strings.CutPrefix(name, module)
	if !ours {
		return t.others.ImportFrom(name, t.root, 0)
	}
	if t.packages[dir] != nil {
		return t.packages[dir], nil
	}
	var trees []*ast.File
	for _, file := range t.files[dir] {
		tree, err := parser.ParseFile(t.set, filepath.Join(t.root, file), nil, parser.SkipObjectResolution)
		if err != nil {
			return nil, err
		}
		trees = append(trees, tree)
	}
	info := &types.Info{Uses: map[*ast.Ident]types.Object{}, Defs: map[*ast.Ident]types.Object{}}
	config := types.Config{Importer: t}
	pkg, err := config.Check(name, t.set, trees, info)
	if err != nil {
		return nil, err
	}
	t.packages[dir], t.calls[dir] = pkg, callsOf(pkg, trees, info)
	return pkg, nil
}

// callsOf says for each function of a package, and each in a variable of a function, which others it names.
func callsOf(pkg *types.Package, trees []*ast.File, info *types.Info) map[string]map[string]bool {
	calls := map[string]map[string]bool{}
	add := func(from types.Object, body ast.Node) {
		name := funcName(pkg, from)
		if calls[name] == nil {
			calls[name] = map[string]bool{}
		}
		ast.Inspect(body, func(n ast.Node) bool {
			if id, ok := n.(*ast.Ident); ok {
				if to := info.Uses[id]; to != nil && to.Pkg() == pkg {
					calls[name][funcName(pkg, to)] = true
				}
			}
			return true
		})
	}
	for _, tree := range trees {
		ast.Inspect(tree, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.FuncDecl:
				if n.Body != nil {
					add(info.Defs[n.Name], n.Body)
				}
			case *ast.AssignStmt:
				for i, right := range n.Rhs {
					left, isName := n.Lhs[min(i, len(n.Lhs)-1)].(*ast.Ident)
					if literal, isFunc := right.(*ast.FuncLit); isFunc && isName && info.Uses[left] != nil {
						add(info.Uses[left], literal.Body)
					}
				}
			}
			return true
		})
	}
	return calls
}

// funcName is a function's name, with its type's before it where it is a method; of a variable, its own behind "func".
func funcName(pkg *types.Package, o types.Object) string {
	switch o := o.(type) {
	case *types.Func:
		return strings.ReplaceAll(o.FullName(), pkg.Path()+".", "")
	case *types.Var:
		return "func " + o.Name()
	}
	return o.Name() + " "
}

// circles groups the functions that reach themselves.
func circles(calls map[string]map[string]bool) [][]string {
	reach := map[string]map[string]bool{}
	for from := range calls {
		seen, left := map[string]bool{}, slices.Collect(maps.Keys(calls[from]))
		for len(left) > 0 {
			name := left[len(left)-1]
			left = left[:len(left)-1]
			if !seen[name] {
				seen[name] = true
				left = slices.AppendSeq(left, maps.Keys(calls[name]))
			}
		}
		reach[from] = seen
	}
	var found [][]string
	done := map[string]bool{}
	for _, from := range slices.Sorted(maps.Keys(calls)) {
		if done[from] || !reach[from][from] {
			continue
		}
		var circle []string
		for _, other := range slices.Sorted(maps.Keys(reach[from])) {
			if reach[other][from] {
				circle, done[other] = append(circle, other), true
			}
		}
		found = append(found, circle)
	}
	return found
}
