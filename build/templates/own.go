package templates

import (
	"fmt"
	"go/ast"
	"go/format"
	"go/parser"
	"go/token"
	"slices"
	"strings"
)

// The names that the compiler of templates gives to what it makes.
const (
	writerName = "qw422016"
	outName    = "qq422016"
	runtime    = "qt422016"
)

// ownWriter has compiled templates write with core/markup in place of the runtime of their
// language: a call for a literal, a call for a literal with the value behind it, and only the
// functions that our own code calls (no io.Writer). What core/markup cannot write is an error.
func ownWriter(code []byte) ([]byte, error) {
	files := token.NewFileSet()
	file, err := parser.ParseFile(files, "", code, parser.ParseComments)
	if err != nil {
		return nil, err
	}
	e := &edits{code: string(code), files: files}
	for _, d := range file.Decls {
		switch d := d.(type) {
		case *ast.GenDecl:
			e.declaration(d)
		case *ast.FuncDecl:
			e.function(d)
		}
	}
	if e.fault != nil {
		return nil, e.fault
	}
	return format.Source([]byte(e.apply()))
}

// edits are pieces of a text with what is to stand in their place.
type edits struct {
	code  string
	files *token.FileSet
	all   []edit
	space tightener
	fault error
}

type edit struct {
	from, to int
	text     string
}

func (e *edits) at(p token.Pos) int     { return e.files.Position(p).Offset }
func (e *edits) text(n ast.Node) string { return e.code[e.at(n.Pos()):e.at(n.End())] }
func (e *edits) put(n ast.Node, text string) {
	e.all = append(e.all, edit{e.at(n.Pos()), e.at(n.End()), text})
}

func (e *edits) apply() string {
	slices.SortFunc(e.all, func(a, b edit) int { return a.from - b.from })
	var out strings.Builder
	at := 0
	for _, x := range e.all {
		out.WriteString(e.code[at:x.from] + x.text)
		at = x.to
	}
	return out.String() + e.code[at:]
}

// declaration puts our writer in the place of the runtime's imports, and drops what only keeps
// those from being unused.
func (e *edits) declaration(d *ast.GenDecl) {
	switch text := e.text(d); {
	case d.Tok == token.IMPORT && strings.Contains(text, runtime):
		e.put(d, "import \"newel/core/markup\"")
	case d.Tok == token.VAR && strings.Contains(text, "_ = "+runtime):
		e.put(d, "")
	}
}

// function keeps what streams, has what gives a string stream into a writer of its own, and drops
// what writes to an io.Writer.
func (e *edits) function(d *ast.FuncDecl) {
	for _, p := range d.Type.Params.List {
		switch {
		case p.Names[0].Name == outName:
			if d.Doc != nil {
				e.put(d.Doc, "")
			}
			e.put(d, "")
			return
		case p.Names[0].Name == writerName:
			e.put(p.Type, "*markup.Writer")
			e.tighten(d.Body)
			ast.Inspect(d.Body, e.statements)
			return
		}
	}
	if len(d.Body.List) == 5 && strings.Contains(e.text(d.Body.List[0]), runtime+".AcquireByteBuffer") {
		call := d.Body.List[1].(*ast.ExprStmt).X.(*ast.CallExpr)
		args := []string{"&" + writerName}
		for _, a := range call.Args[1:] {
			args = append(args, e.text(a))
		}
		name := streams(e.text(call.Fun))
		e.put(d.Body, "{\n\tvar "+writerName+" markup.Writer\n\t"+name+"("+strings.Join(args, ", ")+")\n\treturn "+writerName+".String()\n}")
	}
}

// streams gives the name of the function that streams, for that of the one that writes.
func streams(name string) string {
	at := strings.LastIndexByte(name, '.') + 1 // behind the receiver, if any
	if rest, exported := strings.CutPrefix(name[at:], "Write"); exported {
		return name[:at] + "Stream" + rest
	}
	return name[:at] + "stream" + strings.TrimPrefix(name[at:], "write")
}

// statements rewrites the calls of one list of statements.
func (e *edits) statements(n ast.Node) bool {
	list := listOf(n)
	for i := 0; i < len(list); i++ {
		kind, value := e.written(list[i])
		if kind == "S" {
			value = e.space.literals[list[i]]
		}
		if value == `""` {
			e.put(list[i], "")
			continue
		}
		if kind == "S" && i+1 < len(list) {
			if then, other := e.written(list[i+1]); then == "E" || then == "D" {
				both := edit{e.at(list[i].Pos()), e.at(list[i+1].End()), writerName + ".S" + then + "(" + value + ", " + other + ")"}
				e.all = append(e.all, both)
				i++
				continue
			}
		}
		if kind != "" {
			e.put(list[i], writerName+"."+kind+"("+value+")")
		}
	}
	return true
}

// listOf gives the statements of a block or of a case.
func listOf(n ast.Node) []ast.Stmt {
	switch n := n.(type) {
	case *ast.BlockStmt:
		return n.List
	case *ast.CaseClause:
		return n.Body
	}
	return nil
}

// written tells what a statement writes, by the name of our writer's method, and of which value;
// "" where it is no call of the runtime's writer.
func (e *edits) written(s ast.Stmt) (kind, value string) {
	x, ok := s.(*ast.ExprStmt)
	if !ok {
		return "", ""
	}
	call, ok := x.X.(*ast.CallExpr)
	if !ok || !strings.HasPrefix(e.text(call.Fun), writerName+".") {
		return "", ""
	}
	value = e.text(call.Args[0])
	switch name := strings.TrimPrefix(e.text(call.Fun), writerName+"."); {
	case name == "N().S":
		return "S", value
	case name == "E().S":
		return "E", value
	case name == "N().D":
		return "D", value
	case name == "N().FPrec" && e.text(call.Args[1]) == "1":
		return "F1", value
	default:
		e.fault = fmt.Errorf("a tag becomes %s, which core/markup does not write: use {%%s %%}, {%%d %%} or {%%f.1 %%}", e.text(call))
		return "", ""
	}
}
