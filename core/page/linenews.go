package page

import (
	"newel/core/merge"
	"newel/core/plan"
)

// lines says which own lines were added, changed or taken out, and by whom. That one is done
// is said with the other ticks.
func (m *newsMaker) lines() []string {
	var lines []string
	for i := range m.p.Lines {
		l := &m.p.Lines[i]
		key := merge.Key{Field: merge.Line, Sub: l.ID}
		switch was := m.before.Line(l.ID); {
		case was == nil:
			lines = m.addedLine(lines, l, key)
		case m.lineWords(*was) != m.lineWords(*l):
			line := m.v.Say("line.changed", arg("before", was.In(m.v.Language)), arg("after", m.lineWords(*l)))
			lines = m.add(lines, line, "news.changed", key, merge.Key{Field: merge.LineWords, Sub: l.ID, Name: m.v.Language})
		}
	}
	for i := range m.before.Lines {
		l := &m.before.Lines[i]
		if m.p.Line(l.ID) == nil {
			line := m.v.Say("line.gone", arg("list", m.listOf(l)), arg("text", l.In(m.v.Language)))
			lines = m.add(lines, line, "news.taken-out", merge.Key{Field: merge.Line, Sub: l.ID})
		}
	}
	return lines
}

func (m *newsMaker) listOf(l *plan.Line) string { return m.v.Say("list." + plan.ListKeys[l.List]) }

// addedLine names who added a line, as far as the plan says.
func (m *newsMaker) addedLine(lines []string, l *plan.Line, key merge.Key) []string {
	names, own := m.by(key)
	list, text := arg("list", m.listOf(l)), arg("text", l.In(m.v.Language))
	switch {
	case own:
		return lines
	case names == "":
		return append(lines, m.v.Say("line.added", list, text))
	}
	return append(lines, m.v.Say("line.added.by", list, text, arg("who", names)))
}

// newDay tells whether somebody gave an own line another day: it has a line of its own then.
func (m *newsMaker) newDay(l *plan.Line) bool {
	if l == nil {
		return false
	}
	was := m.before.Line(l.ID)
	return was == nil || was.Day != l.Day
}
