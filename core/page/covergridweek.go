package page

import (
	"newel/core/split"
	"newel/core/wall"
)

// gridOfWeek lays seven days out: a row for each duty that has a date on one of them, in the
// order of their first dates.
func (m *maker) gridOfWeek(from wall.Date) GridWeek {
	w := GridWeek{
		ID:    "week-" + from.String(),
		Title: m.v.Say("span.days", arg("from", m.v.ShortDay(from)), arg("to", m.v.ShortDay(from+gridWeek-1))),
	}
	for i := range w.Days {
		w.Days[i] = m.gridHead(from+wall.Date(i), i == 0)
	}
	for i := range m.report().Findings {
		f := &m.report().Findings[i]
		if at := m.gridDay(&m.s.Duties[f.Duty]) - from; at >= 0 && at < gridWeek {
			m.addCell(m.gridRow(&w, f), int(at), f)
		}
	}
	tellRowsApart(w.Rows)
	return w
}

// gridRow is the row of a date's duty; it is added where there is none.
func (m *maker) gridRow(w *GridWeek, f *split.Finding) *GridRow {
	d := &m.s.Duties[f.Duty]
	key := seriesKey(d)
	for i := range w.Rows {
		if w.Rows[i].key == key {
			return &w.Rows[i]
		}
	}
	title, rule := m.seriesName(d)
	w.Rows = append(w.Rows, GridRow{Title: title, Rule: rule, Path: m.whoPath(d), key: key})
	return &w.Rows[len(w.Rows)-1]
}

// addCell puts a date into a row. Where there is one already the worse one is shown, and all
// are said.
func (m *maker) addCell(r *GridRow, at int, f *split.Finding) {
	c := &r.Cells[at]
	kind, had := m.gridKind(f), c.Kind != GridNone
	text := m.gridWords(kind, f)
	if had {
		c.More++
		text = c.Text + "; " + text
	}
	c.Text = text
	if kind <= c.Kind {
		return
	}
	c.Kind, c.Path, c.Mark = kind, m.gridPath(&m.s.Duties[f.Duty]), ""
	if f.Who != 0 {
		c.Mark = markID(f.Who)
	}
	c.Who = m.gridName(kind, f)
}

// tellRowsApart leaves the rule only where two duties have one name.
func tellRowsApart(rows []GridRow) {
	count := map[string]int{}
	for i := range rows {
		count[rows[i].Title]++
	}
	for i := range rows {
		if count[rows[i].Title] == 1 {
			rows[i].Rule = ""
		}
	}
}

// gridName is what stands below a mark on paper.
func (m *maker) gridName(kind GridKind, f *split.Finding) string {
	name := m.holder(&m.s.Duties[f.Duty])
	switch kind {
	case GridGap:
		return "" // whoever takes it is written in
	case GridCannot:
		return joined(name, m.v.Say("paper.cannot"))
	}
	return name
}

// newCoverSheet is the two weeks of cover on paper, beginning as the screen does.
func newCoverSheet(in PaperInput) Sheet {
	m := newPaperMaker(in)
	s := m.sheet(PaperCover, m.v.Say("paper.cover"))
	s.Grid = m.grid(0)
	return s
}

// gridLines is how much room two weeks take, in tenths of a line: a row has a mark and a name.
func (s *Sheet) gridLines() int {
	if s.Grid == nil {
		return 10
	}
	n := 15 + 10*(len(s.Grid.Key)+3)/4
	for i := range s.Grid.Weeks {
		n += 50 + 32*len(s.Grid.Weeks[i].Rows)
	}
	return n
}
