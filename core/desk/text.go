package desk

import (
	"strings"

	"newel/core/guide"
	"newel/core/link"
)

// Text writes the table with the links, messages and notes in it, in its own columns where it
// has them and else behind the others, in the form that it came in. done has one entry for
// each row, in their order; where there are fewer, the rows behind stay as they are. Of a row
// without a fault the note is empty. A table that was refused for its size was not kept: its
// text is "".
//
// No cell of it is a formula to a spreadsheet (see harmless). All else that stood in the table is
// given back letter for letter.
func (t *Table) Text(done []Done, v guide.Voice) string {
	var b strings.Builder
	b.WriteString(t.mark)
	w := newTableWriter(t, v)
	row := 0
	for i := range t.lines {
		l := &t.lines[i]
		switch {
		case i == t.head && len(t.Rows) > 0:
			w.line(&b, l, w.head)
		case row < len(t.Rows) && t.Rows[row].line == i:
			r := &t.Rows[row]
			if row < len(done) {
				w.line(&b, l, w.filled(r, done[row]))
			} else {
				w.line(&b, l, nil)
			}
			row++
		default:
			w.line(&b, l, nil)
		}
	}
	return b.String()
}

// The columns that are written.
var writtenColumns = [...]Column{ColumnLink, ColumnMessage, ColumnNote}

// tableWriter writes lines with the written columns in their places.
type tableWriter struct {
	t     *Table
	v     guide.Voice
	comma byte
	place [columnEnd]int // of a written column
	rows  bool           // it is a table; what is none is given back as it is
	head  map[int]string // the names of columns that the table did not have, by place
}

func newTableWriter(t *Table, v guide.Voice) *tableWriter {
	w := &tableWriter{t: t, v: v, comma: byte(t.Comma), head: map[int]string{}}
	if len(t.Rows) == 0 {
		return w
	}
	w.rows = true
	width := len(t.Head)
	for i := range t.Rows {
		if n := len(t.lines[t.Rows[i].line].cells); n <= MostCells {
			width = max(width, n)
		}
	}
	for _, c := range writtenColumns {
		if w.place[c] = t.Known[c]; w.place[c] < 0 {
			w.place[c] = width
			w.head[width] = ColumnName(v, c)
			width++
		}
	}
	return w
}

// filled are the cells that come into a row, by place.
func (w *tableWriter) filled(r *Row, d Done) map[int]string {
	note := w.note(r, d)
	cells := map[int]string{w.place[ColumnNote]: note}
	if d.Fragment != "" {
		cells[w.place[ColumnLink]] = d.Address
		cells[w.place[ColumnMessage]] = w.message(r, d)
	}
	return cells
}

// message is the text of a row. That of a link that was there before and says all of this is
// kept: it may be waiting to be sent.
func (w *tableWriter) message(r *Row, d Done) string {
	at := w.t.Known[ColumnMessage]
	if d.State == SameLink && at >= 0 && at < len(r.Cells) && strings.Contains(r.Cells[at], "#"+d.Fragment) {
		return r.Cells[at]
	}
	return d.Text
}

// note says what is to be looked at in a row.
func (w *tableWriter) note(r *Row, d Done) string {
	var said []string
	for _, f := range r.Faults {
		said = append(said, Sentence(w.v, r, f))
	}
	if d.Fault != "" {
		said = append(said, DoneSentence(w.v, r, d))
	}
	return strings.Join(said, " ")
}

// line writes a line with some cells put in, padded up to them. What is longer than any row
// may be stays as it is.
func (w *tableWriter) line(b *strings.Builder, l *line, put map[int]string) {
	if len(l.cells) > MostCells {
		put = nil
	}
	last := len(l.cells) - 1
	for at := range put {
		last = max(last, at)
	}
	for i := 0; i <= last; i++ {
		if i > 0 {
			b.WriteByte(w.comma)
		}
		was, there := cell{}, i < len(l.cells)
		if there {
			was = l.cells[i]
		}
		value, ours := put[i]
		if !ours {
			value = was.value
		}
		if w.rows {
			value = harmless(value)
		}
		if there && value == was.value {
			b.WriteString(was.raw)
		} else {
			b.WriteString(written(value, w.comma))
		}
	}
	b.WriteString(l.end)
}

// PackDone writes what was made as one text, for the way from one request to the next.
func PackDone(done []Done) string {
	var b strings.Builder
	for _, d := range done {
		b.WriteByte('0' + byte(d.State))
		text := d.Text
		if d.Address != "" {
			text = strings.ReplaceAll(text, d.Address, "#")
		}
		b.WriteString("\t" + d.Fragment + "\t" + d.Fault + "\t" + text + "\n")
	}
	return b.String()
}

// UnpackDone reads what PackDone wrote. What is not sound is left out from there on, so that
// the rows are done again.
func UnpackDone(text, page string) []Done {
	var done []Done
	for l := range strings.Lines(text) {
		p := strings.Split(strings.TrimRight(l, "\r\n"), "\t")
		if len(p) != 4 || len(p[0]) != 1 || p[0][0] < '0' || p[0][0] >= '0'+byte(stateEnd) || len(done) == MostRows {
			break
		}
		d := Done{State: State(p[0][0] - '0'), Fragment: p[1], Fault: p[2], Text: p[3]}
		if d.Fragment != "" {
			if _, err := link.ReadHead(d.Fragment); err != nil {
				break
			}
			d.Address = page + "#" + d.Fragment
			d.Text = strings.ReplaceAll(d.Text, "#", d.Address)
		}
		done = append(done, d)
	}
	return done
}
