package desk

import (
	"slices"
	"strings"

	"newel/core/guide"
	"newel/core/wall"
)

// byteOrderMark begins text files of some spreadsheets.
const byteOrderMark = "\ufeff"

// Read reads a pasted table. Of the settings it needs the zone, for nights on which the clocks
// are changed, and what every patient is handed. today serves to ask about dates that have
// passed, and to complete a date without a year; voices are the languages whose names of
// columns and answers are understood, the desk's own first; there is at least one.
func Read(text string, s *Settings, today wall.Date, voices []guide.Voice) Table {
	t := Table{voices: voices, Known: make([]int, columnEnd), more: map[Column][]int{}}
	for c := range t.Known {
		t.Known[c] = -1
	}
	if len(text) > MostBytes {
		return t.refuse(RowFault{Code: "table-big", Low: len(text) >> 10, High: MostBytes >> 10})
	}
	if strings.Count(text, "\n")+strings.Count(text, "\r") > mostEnds {
		return t.refuse(RowFault{Code: "rows-many", High: MostRows})
	}
	if rest, found := strings.CutPrefix(text, byteOrderMark); found {
		t.mark, text = byteOrderMark, rest
	}
	comma := separatorOf(text)
	t.Comma, t.lines = rune(comma), readLines(text, comma)
	for t.head < len(t.lines) && t.lines[t.head].empty() {
		t.head++
	}
	if t.head == len(t.lines) {
		return t.refuse(RowFault{Code: "table-empty"})
	}
	r := newReader(voices)
	t.readHead(r)
	if !usable(t.Faults) {
		return t
	}
	t.readRows(&rowReader{reader: r, settings: s, today: today})
	return t
}

// refuse gives a table back that holds nothing but what is wrong with it.
func (t *Table) refuse(f RowFault) Table {
	t.Faults, t.Rows = append(t.Faults, f), nil
	return *t
}

// readHead finds the columns.
func (t *Table) readHead(r *reader) {
	cells := t.lines[t.head].cells
	if len(cells) > MostCells {
		t.refuse(RowFault{Code: "columns-many", Low: len(cells), High: MostCells})
		return
	}
	found := false
	for i, c := range cells {
		t.Head = append(t.Head, c.value)
		name, _, _ := r.columnName(c.value)
		column, ok := r.columns.find(name)
		switch {
		case !ok:
			t.Extra = append(t.Extra, i)
		case t.Known[column] >= 0:
			if t.second(r, Column(column), i) {
				continue
			}
			t.refuse(RowFault{Code: "column-twice", Column: Column(column), Value: shown(c.value), Low: t.Known[column] + 1, High: i + 1})
		default:
			t.Known[column], found = i, true
		}
	}
	switch {
	case !found:
		t.refuse(RowFault{Code: "table-head", Value: shown(cells[0].value), Row: t.head + 1})
	case t.Known[ColumnDate] < 0:
		t.refuse(RowFault{Code: "column-missing", Column: ColumnDate})
	}
}

// readRows reads what is below the head.
func (t *Table) readRows(r *rowReader) {
	below := t.lines[t.head+1:]
	r.order = r.orderOf(t)
	for i := range below {
		if below[i].empty() {
			continue
		}
		if len(t.Rows) == MostRows {
			t.refuse(RowFault{Code: "rows-many", High: MostRows})
			return
		}
		t.Rows = append(t.Rows, r.row(t, t.head+1+i))
	}
	if len(t.Rows) == 0 {
		t.refuse(RowFault{Code: "rows-none"})
		return
	}
	slices.Sort(t.Extra)
	t.unread(r.reader)
	t.orderSaid(r)
	t.findTwins()
}

// findTwins looks for rows that are about one patient. Two rows without a label may be alike:
// nobody can tell.
func (t *Table) findTwins() {
	labels, links := map[string]int{}, map[uint32]int{}
	for i := range t.Rows {
		r := &t.Rows[i]
		if r.Patient.Link != "" {
			if first, known := links[r.number]; known {
				r.Faults = append(r.Faults, RowFault{Column: ColumnLink, Code: "link-twice", Row: t.Rows[first].Number})
			} else {
				links[r.number] = i
			}
		}
		label := strings.Join(words(r.Patient.Label), " ") // 1-23 is not 12-3
		if label == "" {
			label = strings.TrimSpace(r.Patient.Label)
		}
		if label == "" {
			continue
		}
		first, known := labels[label]
		if !known {
			labels[label] = i
			continue
		}
		f := RowFault{Column: ColumnLabel, Code: "label-twice", Ask: true, Value: shown(r.Patient.Label), Row: t.Rows[first].Number}
		if samePatient(&t.Rows[first], r) {
			f.Code, f.Ask = "row-twice", false
		}
		r.Faults = append(r.Faults, f)
	}
}

// samePatient tells whether two rows say the same of a patient.
func samePatient(a, b *Row) bool {
	p, q := a.Patient, b.Patient
	p.Label, q.Label = "", ""
	return p == q
}
