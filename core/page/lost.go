package page

import (
	"newel/core/schedule"
	"newel/core/split"
)

// LostText says what needs somebody since an earlier state of the plan, and how much still
// has who had it: paragraphs, "" where nothing is lost.
func LostText(in Input, before *schedule.Schedule) string {
	m := newMaker(in)
	lost, kept := split.Lost(split.Look(before, m.Now), m.report())
	if len(lost) == 0 {
		return ""
	}
	var groups []SplitGroup
	for _, f := range lost {
		groups = m.addTo(groups, "lost", &m.s.Duties[f.Duty], "")
	}
	var names []string
	for _, g := range groups {
		dates := m.v.Count("load.dates", len(g.Lines))
		if len(g.Lines) == 1 {
			dates = g.Lines[0].When
		}
		names = append(names, m.v.Say("other.dates", arg("what", g.Title), arg("dates", dates)))
	}
	text := m.v.Say("lost.now", arg("what", m.v.List(names)))
	if len(kept) > 0 {
		text += "\n" + m.v.Count("lost.kept", len(kept))
	}
	return text
}
