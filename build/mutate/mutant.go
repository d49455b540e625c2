package mutate

import (
	"fmt"
	"go/ast"
	"go/token"
	"sort"
	"strings"
)

// Mutant is one small fault. Its number is its place in the package, from 1.
type Mutant struct {
	ID     int
	File   string // folder and file
	Func   string // the function it is in, or "" for a package's variable
	Line   string // the line of source on which it begins
	Change string // what becomes of what, as in "< becomes <="
	Twin   int    // 2 for the second that reads the same, and so on
}

// Name tells a fault from all others without a line's number, which moves.
func (m Mutant) Name() string {
	name := fmt.Sprintf("%s %s | %s | %s", m.File, m.Func, m.Line, m.Change)
	if m.Twin > 1 {
		name += fmt.Sprintf(" (%d)", m.Twin)
	}
	return name
}

// edit is a text to put at a place of a file, and how many bytes it replaces.
type edit struct {
	at, cut int
	text    string
}

// writer walks one file, notes its faults, and gathers the edits that put them in.
type writer struct {
	*pkg
	file    file
	name    string // of the function it is in
	mutants []Mutant
	opens   []edit     // in front of something: what is outside comes first
	closes  []edit     // behind something: what is outside comes last
	swaps   []edit     // in place of an operator
	next    int        // the last number given
	stack   []ast.Node // what is around the node that is looked at, outermost first
}

// mutate puts all faults of the package into its files.
func (p *pkg) mutate() ([]Mutant, map[string]string) {
	var all []Mutant
	files := map[string]string{}
	twins := map[string]int{}
	for _, f := range p.files {
		if ast.IsGenerated(f.tree) {
			continue
		}
		w := &writer{pkg: p, file: f, next: len(all)}
		for _, d := range f.tree.Decls {
			w.declaration(d)
		}
		for i := range w.mutants {
			m := &w.mutants[i]
			twins[m.Name()]++ // Twin is 0 here
			m.Twin = twins[m.Name()]
		}
		all = append(all, w.mutants...)
		files[f.name] = w.text()
	}
	return all, files
}

// mutant notes a fault and gives its number.
func (w *writer) mutant(at token.Pos, change string) int {
	w.next++
	w.mutants = append(w.mutants, Mutant{
		ID: w.next, File: w.folder + "/" + w.file.name, Func: w.name, Line: w.line(at), Change: change,
	})
	return w.next
}

func (w *writer) offset(at token.Pos) int { return w.set.Position(at).Offset }

// source is a node as it was written.
func (w *writer) source(n ast.Node) string {
	return string(w.file.source[w.offset(n.Pos()):w.offset(n.End())])
}

// short is a node for a name: on one line, and not long.
func (w *writer) short(n ast.Node) string {
	text := strings.Join(strings.Fields(w.source(n)), " ")
	if runes := []rune(text); len(runes) > 60 {
		text = string(runes[:57]) + "..."
	}
	return text
}

// line is the line of a place, without what stands around it.
func (w *writer) line(at token.Pos) string {
	from := w.offset(at)
	start := strings.LastIndexByte(string(w.file.source[:from]), '\n') + 1
	line, _, _ := strings.Cut(string(w.file.source[start:]), "\n")
	return strings.Join(strings.Fields(line), " ")
}

// wrap puts a text in front of a node and one behind it.
func (w *writer) wrap(n ast.Node, before, after string) {
	w.opens = append(w.opens, edit{at: w.offset(n.Pos()), text: before})
	w.closes = append(w.closes, edit{at: w.offset(n.End()), text: after})
}

// swap replaces an operator.
func (w *writer) swap(at token.Pos, operator token.Token, text string) {
	w.swaps = append(w.swaps, edit{at: w.offset(at), cut: len(operator.String()), text: text})
}

// text is the file with its faults. At one place, what ends there is closed
// before what begins there is opened. No line is added: positions stay.
func (w *writer) text() string {
	var edits []edit
	for i := len(w.closes) - 1; i >= 0; i-- { // the last opened is innermost
		edits = append(edits, w.closes[i])
	}
	edits = append(append(edits, w.opens...), w.swaps...)
	sort.SliceStable(edits, func(i, j int) bool { return edits[i].at < edits[j].at })
	var b strings.Builder
	done := 0
	for _, e := range edits {
		b.Write(w.file.source[done:e.at])
		b.WriteString(e.text)
		done = e.at + e.cut
	}
	b.Write(w.file.source[done:])
	return b.String()
}
