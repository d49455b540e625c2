package page

import (
	"newel/core/schedule"
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
	for _, f := range m.gridFindings() {
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

// addCell puts a date into a row. Where there are several the worst says how the cell stands, and
// everybody who has one is shown and said.
func (m *maker) addCell(r *GridRow, at int, f *split.Finding) {
	c := &r.Cells[at]
	kind := m.gridKind(f)
	text := m.gridWords(kind, f)
	if c.Kind != GridNone {
		text = c.Text + "; " + text
	}
	c.Text = text
	c.addPost(GridPost{Kind: kind, Mark: gridMarkID(kind, f), Who: m.gridName(kind, f), Dates: 1})
	if kind > c.Kind {
		c.Kind, c.Path = kind, m.gridPath(&m.s.Duties[f.Duty])
	}
}

// addPost adds a date to whoever stands in the cell already, or puts them beside the others.
func (c *GridCell) addPost(p GridPost) {
	for i := range c.Posts {
		if have := &c.Posts[i]; have.Kind == p.Kind && have.Mark == p.Mark && have.Who == p.Who {
			have.Dates++
			return
		}
	}
	c.Posts = append(c.Posts, p)
}

// gridMarkID is the mark of whoever has a date; a gap and a question have signs of their own.
func gridMarkID(kind GridKind, f *split.Finding) string {
	if f.Who == 0 || kind == GridGap || kind == GridAsked {
		return ""
	}
	return markID(f.Who)
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
	d := &m.s.Duties[f.Duty]
	name := m.holder(d)
	switch kind {
	case GridGap:
		return "" // whoever takes it is written in
	case GridCannot:
		name = joined(name, m.v.Say("paper.cannot"))
	}
	return m.gridSince(d, name)
}

// gridSince adds to whoever has a date that it has gone on since an earlier day than the column's.
func (m *maker) gridSince(d *schedule.Duty, text string) string {
	if d.Day >= m.today {
		return text
	}
	return m.v.Say("covergrid.since", arg("who", text), arg("day", m.v.Weekday(d.Day)))
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
