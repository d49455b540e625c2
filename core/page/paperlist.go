package page

import (
	"slices"

	"newel/core/guide"
	"newel/core/plan"
	"newel/core/wall"
)

// newPackSheet makes the packing list: all its lines with boxes, those of the family and of the
// hospital among them.
func newPackSheet(in PaperInput) Sheet {
	m := newPaperMaker(in)
	s := m.sheet(PaperPack, m.v.Say("paper.pack"))
	s.List = m.list("pack").Groups
	s.Due = m.v.Say("label.due", arg("day", m.v.Day(m.p.Surgery-1)))
	return s
}

// newCardSheet makes the card of the warning signs: two small ones to carry, or one that fills
// the page.
func newCardSheet(in PaperInput, large bool) Sheet {
	m := newPaperMaker(in)
	title := "paper." + PaperCard
	if large {
		title = "paper." + PaperLarge
	}
	s := m.sheet(PaperCard, m.v.Say(title))
	until := m.p.Surgery + wall.Date(m.p.Program.Get(plan.ClotDays))
	s.Dense = !large && s.addedLines() > 0
	s.Large, s.Clots = large, m.v.Say("paper.clots", arg("day", m.v.ShortDay(until)))
	return s
}

// newGuideSheet makes the whole guide with the plan's dates, chapter by chapter.
func newGuideSheet(in PaperInput) Sheet {
	m := newPaperMaker(in)
	s := m.sheet(PaperGuide, m.v.Say("paper.guide"))
	for i := range guide.Chapters {
		c := m.chapter(&guide.Chapters[i])
		c.Parts = slices.DeleteFunc(c.Parts, nothingOnPaper)
		for _, part := range c.Parts {
			if part.List != nil {
				sayOnce(part.List)
			}
			part.Rail.still()
			part.Fast.still()
		}
		s.Chapters = append(s.Chapters, c)
	}
	return s
}

// nothingOnPaper tells whether a part says no more than that something else can be put in.
func nothingOnPaper(p ChapterPart) bool {
	return p.New != "" && (p.ID == "guide-ride" || p.ID == "guide-other")
}

// sayOnce leaves the words of a line away where they are those of a line above: five washes
// are one page otherwise.
func sayOnce(l *List) {
	said := map[string]bool{}
	for g := range l.Groups {
		for i := range l.Groups[g].Rows {
			r := &l.Groups[g].Rows[i]
			words := r.Why
			for _, line := range r.How {
				words += "\n" + line.Text
			}
			if words != "" && said[words] {
				r.How, r.Sides, r.Why = nil, nil, ""
			}
			said[words] = true
		}
	}
}
