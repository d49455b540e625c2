package check

import (
	"fmt"
	"go/ast"
	"slices"
	"strings"
)

// The core is told everything it needs (clock, zone, language, storage, random
// bytes) in the request, so that the same request gives the same bytes. These
// are the ways in which it could find out by itself, and the packages that are
// too heavy for the download.

// closedImports may not be imported by the core; neither may packages below
// them (os/exec, log/slog, math/rand/v2).
var closedImports = []string{
	"syscall", "os", "net/http", "encoding/json", "regexp", "html/template", "math/rand", "crypto/rand", "log",
}

// closedExactly is closed itself, while packages below it are not: net/url
// only handles text.
const closedExactly = "net"

// closedTime are the names of package time that read the machine's clock or
// its zone.
var closedTime = []string{
	"Now", "Since", "Until", "Sleep", "After", "AfterFunc", "Tick", "NewTimer", "NewTicker",
	"Local", "LoadLocation",
}

// Purity checks the core's non-test files, and those of our own packages that
// the core imports from elsewhere.
func Purity(root string) ([]string, error) {
	all, err := goSources(root, "")
	if err != nil {
		return nil, err
	}
	byFolder := map[string][]source{}
	var queue []string
	for _, s := range all {
		if byFolder[s.dir] == nil && strings.HasPrefix(s.dir+"/", "core/") {
			queue = append(queue, s.dir)
		}
		byFolder[s.dir] = append(byFolder[s.dir], s)
	}
	var problems []string
	for i := 0; i < len(queue); i++ {
		for _, s := range byFolder[queue[i]] {
			problems = append(problems, impure(s)...)
			for _, p := range s.imports() {
				if dir, ours := strings.CutPrefix(p, module); ours && !slices.Contains(queue, dir) {
					queue = append(queue, dir)
				}
			}
		}
	}
	return problems, nil
}

// impure lists what one file does that the core may not.
func impure(s source) []string {
	var problems []string
	for _, p := range s.imports() {
		if closedToCore(p) {
			problems = append(problems, fmt.Sprintf("%s imports %s, which the core does without", s.name, p))
		}
	}
	clock := s.localName("time")
	if clock == "." {
		problems = append(problems, s.name+" imports time under no name, which hides what it uses: import it plainly")
	}
	ast.Inspect(s.tree, func(node ast.Node) bool {
		switch n := node.(type) {
		case *ast.GoStmt:
			problems = append(problems, s.at(n)+" starts a goroutine: the core is called and answers, nothing runs on")
		case *ast.SelectorExpr:
			if x, ok := n.X.(*ast.Ident); ok && clock != "" && x.Name == clock && slices.Contains(closedTime, n.Sel.Name) {
				problems = append(problems, fmt.Sprintf("%s uses time.%s: clock and zone come in with the request", s.at(n), n.Sel.Name))
			}
		case *ast.CallExpr:
			if sel, ok := n.Fun.(*ast.SelectorExpr); ok && clock != "" && sel.Sel.Name == "Local" && len(n.Args) == 0 {
				problems = append(problems, s.at(n)+" calls Local(), the machine's zone: use the plan's zone")
			}
		}
		return true
	})
	return problems
}

func closedToCore(importPath string) bool {
	if importPath == closedExactly {
		return true
	}
	for _, closed := range closedImports {
		if importPath == closed || strings.HasPrefix(importPath, closed+"/") {
			return true
		}
	}
	return false
}
