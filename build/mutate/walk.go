package mutate

import (
	"go/ast"
	"go/token"
	"go/types"
)

// declaration looks for faults in a function, or in the numbers that a
// package's variables begin with.
func (w *writer) declaration(d ast.Decl) {
	w.name = ""
	switch d := d.(type) {
	case *ast.FuncDecl:
		w.name = d.Name.Name
		if d.Recv != nil && len(d.Recv.List) > 0 {
			w.name = receiver(d.Recv.List[0].Type) + "." + w.name
		}
	case *ast.GenDecl:
		if d.Tok != token.VAR {
			return
		}
	}
	w.stack = w.stack[:0]
	ast.Inspect(d, func(n ast.Node) bool {
		if n == nil {
			w.stack = w.stack[:len(w.stack)-1]
			return true
		}
		if !w.visit(n) {
			return false
		}
		w.stack = append(w.stack, n)
		return true
	})
}

// receiver is the name of a method's type.
func receiver(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.StarExpr:
		return receiver(e.X)
	case *ast.IndexExpr:
		return receiver(e.X)
	case *ast.Ident:
		return e.Name
	}
	return "?"
}

// visit makes the faults of one node, and says whether to look inside it.
func (w *writer) visit(n ast.Node) bool {
	switch n := n.(type) {
	case *ast.ArrayType, *ast.FuncType, *ast.StructType, *ast.InterfaceType, *ast.MapType:
		return false // types hold no expressions that could be changed
	case *ast.GenDecl:
		return n.Tok == token.VAR
	case ast.Stmt:
		return w.statement(n)
	case ast.Expr:
		return w.expression(n)
	}
	return true
}

// parent is the n-th node around the one that is looked at; 0 is the nearest.
func (w *writer) parent(n int) ast.Node {
	if n >= len(w.stack) {
		return nil
	}
	return w.stack[len(w.stack)-1-n]
}

// inBlock says that the node is a statement of its own, and not the head of a loop or a switch.
func (w *writer) inBlock() bool {
	switch w.parent(0).(type) {
	case *ast.BlockStmt, *ast.CaseClause:
		return true
	}
	return false
}

// results are the types that the function around gives back.
func (w *writer) results() *types.Tuple {
	for i := range w.stack {
		switch f := w.parent(i).(type) {
		case *ast.FuncLit:
			return w.info.Types[f].Type.(*types.Signature).Results()
		case *ast.FuncDecl:
			return w.info.Defs[f.Name].Type().(*types.Signature).Results()
		}
	}
	return nil
}

// isPanic says whether an expression is a call of panic.
func (w *writer) isPanic(e ast.Expr) bool {
	call, ok := e.(*ast.CallExpr)
	if !ok {
		return false
	}
	name, ok := call.Fun.(*ast.Ident)
	return ok && name.Name == "panic" && w.info.Uses[name] == types.Universe.Lookup("panic")
}

// typeName writes a type so that the file understands it; "" when it cannot be named there.
func (w *writer) typeName(t types.Type) string {
	named := true
	text := types.TypeString(t, func(p *types.Package) string {
		if p == w.types {
			return ""
		}
		for _, imported := range w.file.tree.Imports {
			if imported.Name == nil && imported.Path.Value == `"`+p.Path()+`"` {
				return p.Name()
			}
		}
		named = false
		return p.Name()
	})
	if !named {
		return ""
	}
	return text
}
