package desk

import (
	"strings"

	"newel/core/guide"
	"newel/core/plan"
)

// Mend is a cell put right: that of a row, by its number in the spreadsheet.
type Mend struct {
	Row    int
	Column Column
	Value  string
}

// With writes the table as it came, with some cells put right, and with the rows of the numbers
// in leave emptied: so the others keep their places in the spreadsheet. A column that it does
// not have yet comes behind the others.
func (t *Table) With(mends []Mend, leave []int) string {
	w := &tableWriter{t: t, comma: byte(t.Comma), head: map[int]string{}}
	cells := map[int]map[int]string{} // by line and place
	for _, m := range mends {
		line := m.Row - 1
		if line <= t.head || line >= len(t.lines) || m.Column >= columnEnd {
			continue
		}
		if cells[line] == nil {
			cells[line] = map[int]string{}
		}
		cells[line][w.placeOf(m.Column)] = m.Value
	}
	for _, row := range leave {
		if line := row - 1; line > t.head && line < len(t.lines) {
			cells[line] = emptied(&t.lines[line])
		}
	}
	var b strings.Builder
	b.WriteString(t.mark)
	for i := range t.lines {
		if i == t.head {
			w.line(&b, &t.lines[i], w.head)
		} else {
			w.line(&b, &t.lines[i], cells[i])
		}
	}
	return b.String()
}

// emptied are the cells of a line with nothing in them.
func emptied(l *line) map[int]string {
	cells := map[int]string{}
	for at := range l.cells {
		cells[at] = ""
	}
	return cells
}

// placeOf is the place of a column, behind all cells where the table has none.
func (w *tableWriter) placeOf(c Column) int {
	if at := w.t.Known[c]; at >= 0 {
		return at
	}
	width := len(w.t.Head)
	for i := range w.t.Rows {
		width = max(width, len(w.t.Rows[i].Cells))
	}
	name := ColumnName(w.t.voices[0], c)
	for at, head := range w.head {
		if head == name {
			return at
		}
		width = max(width, at+1)
	}
	w.head[width] = name
	return width
}

// Sheet writes patients as a table, which Read reads back: cells divided by tabs, below a head
// in the words of v.
func Sheet(all []Patient, v guide.Voice) string {
	var b strings.Builder
	row := func(cell func(Column) string) {
		for c := range ColumnMessage {
			if c > 0 {
				b.WriteByte('\t')
			}
			b.WriteString(written(cell(c), '\t'))
		}
		b.WriteByte('\n')
	}
	row(func(c Column) string { return ColumnName(v, c) })
	for i := range all {
		row(func(c Column) string { return cellOf(&all[i], c, v) })
	}
	return b.String()
}

// cellOf is what a patient's cell of a column says.
func cellOf(p *Patient, c Column, v guide.Voice) string {
	switch c {
	case ColumnLabel:
		return p.Label
	case ColumnDate:
		return p.Surgery.String()
	case ColumnArrival:
		return p.Arrival.String()
	case ColumnJoint:
		return firstWord(v, jointAnswers[p.Joint])
	case ColumnOperation:
		return firstWord(v, operationAnswers[p.Operation])
	case ColumnStay:
		return firstWord(v, stayAnswers[p.Stay])
	case ColumnLanguage:
		return guide.Name(p.Language)
	case ColumnLink:
		return p.Link
	}
	return yesOrNo(p.Facts, columnFact(c), v)
}

func yesOrNo(facts, fact plan.Facts, v guide.Voice) string {
	if facts.Has(fact) {
		return firstWord(v, yesAnswers[1])
	}
	return firstWord(v, yesAnswers[0])
}

// Cell is what stands in the column of the row that the table calls so; "" where there is none.
func (t *Table) Cell(r *Row, c Column) string {
	if at := t.Known[c]; at >= 0 && at < len(r.Cells) {
		return plan.Clean(r.Cells[at])
	}
	return ""
}
