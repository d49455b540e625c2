package mutate

import (
	"fmt"
	"go/ast"
	"go/token"
	"go/types"
)

// statement makes the faults of one statement, and says whether to look inside it.
func (w *writer) statement(s ast.Stmt) bool {
	switch s := s.(type) {
	case *ast.IfStmt:
		w.condition(s.Cond, true)
	case *ast.ForStmt:
		if s.Cond != nil {
			w.condition(s.Cond, false) // always true only ever runs forever
		}
	case *ast.ExprStmt:
		if w.isPanic(s.X) {
			return false
		}
		w.leaveOut(s)
	case *ast.AssignStmt:
		w.assignment(s)
	case *ast.IncDecStmt:
		return w.step(s)
	case *ast.BranchStmt:
		w.branch(s)
	case *ast.ReturnStmt:
		w.giveBack(s)
	}
	return true
}

// condition makes a condition always true and always false. What the tests
// come past is noted only where that makes a difference.
func (w *writer) condition(cond ast.Expr, both bool) {
	if w.info.Types[cond].Value != nil {
		return
	}
	before, after := "", ""
	if both {
		id := w.mutant(cond.Pos(), fmt.Sprintf("condition %q becomes true", w.short(cond)))
		before, after = "(", fmt.Sprintf(" || mutantOn(%d))", id)
	}
	id := w.mutant(cond.Pos(), fmt.Sprintf("condition %q becomes false", w.short(cond)))
	w.wrap(cond, before+"(", ")"+after+fmt.Sprintf(" && !mutantOn(%d)", id))
}

// leaveOut leaves a statement out.
func (w *writer) leaveOut(s ast.Stmt) {
	if !w.inBlock() {
		return
	}
	id := w.mutant(s.Pos(), fmt.Sprintf("%q is left out", w.short(s)))
	w.wrap(s, fmt.Sprintf("if !mutantOn(%d) { ", id), " }")
}

// opposite is what an assignment that works on its left side becomes.
var opposite = map[token.Token]string{
	token.ADD_ASSIGN: "-=", token.SUB_ASSIGN: "+=", token.MUL_ASSIGN: "/=", token.QUO_ASSIGN: "*=",
	token.OR_ASSIGN: "&=", token.AND_ASSIGN: "|=", token.SHL_ASSIGN: ">>=", token.SHR_ASSIGN: "<<=",
}

func (w *writer) assignment(s *ast.AssignStmt) {
	if s.Tok == token.DEFINE || !w.inBlock() || blank(s.Lhs) {
		return
	}
	w.leaveOut(s)
	other := opposite[s.Tok]
	if other == "" {
		return
	}
	basic, ok := w.info.Types[s.Lhs[0]].Type.Underlying().(*types.Basic)
	if !ok || basic.Info()&types.IsNumeric == 0 {
		return
	}
	id := w.mutant(s.TokPos, fmt.Sprintf("in %q, %s becomes %s", w.short(s), s.Tok, other))
	w.wrap(s, fmt.Sprintf("if mutantOn(%d) { %s %s %s } else { ", id, w.source(s.Lhs[0]), other, w.source(s.Rhs[0])), " }")
}

// blank says that nothing is kept of an assignment.
func blank(left []ast.Expr) bool {
	for _, e := range left {
		if name, ok := e.(*ast.Ident); !ok || name.Name != "_" {
			return false
		}
	}
	return true
}

// step turns ++ into -- and leaves it out, but not as the step of a loop.
func (w *writer) step(s *ast.IncDecStmt) bool {
	if !w.inBlock() {
		return true
	}
	other := "--"
	if s.Tok == token.DEC {
		other = "++"
	}
	w.leaveOut(s)
	id := w.mutant(s.TokPos, fmt.Sprintf("%q becomes %s", w.short(s), other))
	w.wrap(s, fmt.Sprintf("if mutantOn(%d) { %s%s } else { ", id, w.source(s.X), other), " }")
	return true
}

// branch swaps break and continue of a loop that has an end of its own: one
// without is the last statement of its function, and Go holds a break in it against that.
func (w *writer) branch(s *ast.BranchStmt) {
	if s.Tok != token.BREAK && s.Tok != token.CONTINUE || s.Label != nil || !w.inBlock() || !w.inLoop() {
		return
	}
	other := "continue"
	if s.Tok == token.CONTINUE {
		other = "break"
	}
	id := w.mutant(s.Pos(), fmt.Sprintf("%s becomes %s", s.Tok, other))
	w.wrap(s, fmt.Sprintf("if mutantOn(%d) { %s } else { ", id, other), " }")
}

// inLoop says that the nearest thing that a break would end is a loop that has a head.
func (w *writer) inLoop() bool {
	for i := range w.stack {
		switch p := w.parent(i).(type) {
		case *ast.ForStmt:
			return p.Cond != nil
		case *ast.RangeStmt:
			return true
		case *ast.SwitchStmt, *ast.TypeSwitchStmt, *ast.SelectStmt, *ast.FuncLit:
			return false
		}
	}
	return false
}

// giveBack has a function give back true, false, or nothing (0, "", an empty value).
func (w *writer) giveBack(s *ast.ReturnStmt) {
	wanted := w.results()
	if wanted == nil || wanted.Len() != len(s.Results) {
		return
	}
	for i, e := range s.Results {
		v, t := w.info.Types[e], wanted.At(i).Type()
		switch {
		case types.Identical(t, types.Typ[types.Bool]):
			w.giveBool(e, v)
		case v.Value == nil && types.Identical(v.Type, t) && !w.isEmptyStruct(e):
			id := w.mutant(e.Pos(), fmt.Sprintf("an empty value is given back for %q", w.short(e)))
			w.wrap(e, fmt.Sprintf("mutantZero(%d, ", id), ")")
		}
	}
}

// isEmptyStruct tells whether an expression is an empty value as it stands.
func (w *writer) isEmptyStruct(e ast.Expr) bool {
	literal, is := e.(*ast.CompositeLit)
	if !is || len(literal.Elts) > 0 {
		return false
	}
	_, is = w.info.Types[e].Type.Underlying().(*types.Struct) // an empty map or slice is not nil
	return is
}

func (w *writer) giveBool(e ast.Expr, v types.TypeAndValue) {
	if v.Value != nil {
		id := w.mutant(e.Pos(), fmt.Sprintf("%s is given back as its opposite", w.short(e)))
		w.wrap(e, "((", fmt.Sprintf(") != mutantOn(%d))", id))
		return
	}
	always := w.mutant(e.Pos(), fmt.Sprintf("true is given back for %q", w.short(e)))
	never := w.mutant(e.Pos(), fmt.Sprintf("false is given back for %q", w.short(e)))
	w.wrap(e, "(((", fmt.Sprintf(") || mutantOn(%d)) && !mutantOn(%d))", always, never))
}
