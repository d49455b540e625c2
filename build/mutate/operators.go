package mutate

import (
	"fmt"
	"go/ast"
	"go/token"
	"go/types"
)

// helper is the function of inside.go.txt that stands for an operator, and what
// the operator becomes in it. A comparison becomes its neighbor at equality;
// its opposite is a fault of its own (see negate).
var helper = map[token.Token]struct{ name, becomes string }{
	token.LSS: {"mutantLess", "<="}, token.LEQ: {"mutantLessEqual", "<"},
	token.GTR: {"mutantMore", ">="}, token.GEQ: {"mutantMoreEqual", ">"},
	token.ADD: {"mutantAdd", "-"}, token.SUB: {"mutantSub", "+"},
	token.MUL: {"mutantMul", "/"}, token.QUO: {"mutantDiv", "*"}, token.REM: {"mutantRem", "*"},
	token.AND: {"mutantAnd", "|"}, token.OR: {"mutantOr", "&"}, token.XOR: {"mutantXor", "&"},
	token.SHL: {"mutantLeft", ">>"}, token.SHR: {"mutantRight", "<<"},
}

// expression makes the faults of one expression, and says whether to look inside it.
func (w *writer) expression(e ast.Expr) bool {
	if w.isPanic(e) {
		return false
	}
	if v := w.info.Types[e]; v.Value != nil {
		w.constant(e, v)
		return false
	}
	switch e := e.(type) {
	case *ast.BinaryExpr:
		w.binary(e)
	case *ast.UnaryExpr:
		w.unary(e)
	}
	return true
}

func (w *writer) binary(e *ast.BinaryExpr) {
	switch e.Op {
	case token.LAND, token.LOR:
		other := token.LOR
		if e.Op == token.LOR {
			other = token.LAND
		}
		// De Morgan: with the fault on, a && b is !(!a && !b), which is a || b.
		on := fmt.Sprintf("mutantOn(%d)", w.mutant(e.OpPos, w.becomes(e, other.String())))
		w.wrap(e, "(", " != "+on+")")
		w.wrap(e, "(", ")")
		w.wrap(e.X, "((", ") != "+on+")")
		w.wrap(e.Y, "((", ") != "+on+")")
		return
	case token.EQL, token.NEQ:
		w.negate(e)
		return
	}
	h, known := helper[e.Op]
	if !known || !w.takes(e) {
		return
	}
	if e.Op == token.LSS || e.Op == token.LEQ || e.Op == token.GTR || e.Op == token.GEQ {
		w.negate(e)
	}
	id := w.mutant(e.OpPos, w.becomes(e, h.becomes))
	w.wrap(e, fmt.Sprintf("%s(%d, ", h.name, id), ")")
	w.swap(e.OpPos, e.Op, ",")
}

// takes says whether the helper of an operator takes these operands: numbers, or anything
// ordered for a comparison.
func (w *writer) takes(e *ast.BinaryExpr) bool {
	wanted := types.BasicInfo(types.IsInteger | types.IsFloat)
	of := w.info.Types[e].Type
	switch e.Op {
	case token.LSS, token.LEQ, token.GTR, token.GEQ:
		wanted = types.IsOrdered
		of = w.info.Types[e.X].Type
	case token.REM, token.AND, token.OR, token.XOR:
		wanted = types.IsInteger
	case token.SHL, token.SHR: // a constant on the left has the type of what is around
		if w.info.Types[e.X].Value != nil {
			return false
		}
		wanted = types.IsInteger
	}
	basic, ok := of.Underlying().(*types.Basic)
	return ok && basic.Info()&wanted != 0
}

func (w *writer) becomes(e *ast.BinaryExpr, operator string) string {
	return fmt.Sprintf("in %q, %s becomes %s", w.short(e), e.Op, operator)
}

// negate turns a condition into its opposite, unless it is one that is tried
// as always true and always false anyway.
func (w *writer) negate(e ast.Expr) {
	switch p := w.parent(0).(type) {
	case *ast.IfStmt, *ast.ReturnStmt:
		return
	case *ast.ForStmt:
		if p.Cond == e {
			return
		}
	}
	id := w.mutant(e.Pos(), fmt.Sprintf("%q becomes its opposite", w.short(e)))
	w.wrap(e, "((", fmt.Sprintf(") != mutantOn(%d))", id))
}

func (w *writer) unary(e *ast.UnaryExpr) {
	switch e.Op {
	case token.NOT:
		w.negate(e)
	case token.SUB:
		id := w.mutant(e.OpPos, fmt.Sprintf("%q loses its minus", w.short(e)))
		w.swap(e.OpPos, e.Op, fmt.Sprintf("mutantMinus(%d, ", id))
		w.closes = append(w.closes, edit{at: w.offset(e.End()), text: ")"})
	}
}

// constant makes a number in the source one more and one less. A number that a
// const has, is named where it is used, and not changed there.
func (w *writer) constant(e ast.Expr, v types.TypeAndValue) {
	if w.isKey(e) || w.isRoom(e) || !w.hasNumber(e) {
		return
	}
	basic, ok := v.Type.Underlying().(*types.Basic)
	if !ok || basic.Info()&types.IsInteger == 0 {
		return
	}
	name := w.typeName(v.Type)
	if basic.Info()&types.IsUntyped != 0 { // how far to shift: any whole number will do
		name = "int"
	}
	if name == "" {
		return
	}
	more := w.mutant(e.Pos(), fmt.Sprintf("%s becomes one more", w.short(e)))
	w.mutant(e.Pos(), fmt.Sprintf("%s becomes one less", w.short(e)))
	step := fmt.Sprintf("mutantStep(%d)", more)
	if name != "int" {
		step = name + "(" + step + ")"
	}
	w.wrap(e, "(", " + "+step+")")
}

// hasNumber says whether a whole number is written out in an expression.
func (w *writer) hasNumber(e ast.Expr) bool {
	found := false
	ast.Inspect(e, func(n ast.Node) bool {
		lit, ok := n.(*ast.BasicLit)
		found = found || ok && lit.Kind == token.INT
		return true
	})
	return found
}

// isKey says that an expression is an index in a list that is written out: Go wants a constant there.
func (w *writer) isKey(e ast.Expr) bool {
	pair, ok := w.parent(0).(*ast.KeyValueExpr)
	if !ok || pair.Key != e {
		return false
	}
	_, isMap := w.info.Types[w.parent(1).(*ast.CompositeLit)].Type.Underlying().(*types.Map)
	return !isMap
}

// isRoom says that an expression is the room that make sets aside, which only costs memory.
func (w *writer) isRoom(e ast.Expr) bool {
	call, ok := w.parent(0).(*ast.CallExpr)
	if !ok {
		return false
	}
	name, ok := call.Fun.(*ast.Ident)
	return ok && name.Name == "make" && len(call.Args) == 3 && call.Args[2] == e
}
