package page

import (
	"unicode/utf8"

	"newel/core/guide"
)

// What a page holds, for the hint how many pages a sheet takes: a page of Letter within margins
// of 12 mm is 255 mm high, a line of 11 points 5 mm. All measures here are in tenths of a line.
// The browser test holds the hint against what Chromium prints.
const (
	pageLines = 500
	headLines = 80  // of every sheet
	footLines = 90  // when to call, and the caution
	codeLines = 140 // the code with its words
	sideLines = 50  // the telephone numbers beside it
	lineWidth = 86  // letters in a line across the page
	halfWidth = 46  // in a column of the dates
	sideWidth = 60  // beside the code
)

// pages is about how many pages a sheet takes.
func (s *Sheet) pages() int {
	lines := headLines + footLines
	switch s.Kind {
	case PaperPack, PaperCard:
		return 1
	case PaperFridge:
		for _, d := range s.Days {
			lines += max(23, 10*len(d.Entries)+4)
		}
	case PaperGuide:
		lines = headLines
		for i := range s.Chapters {
			lines += chapterLines(&s.Chapters[i])
		}
	default:
		for i := range s.Rows {
			lines += s.Rows[i].lines()
		}
		side := sideLines
		for _, note := range s.Bring {
			side += 14 + linesOf(note.Text, sideWidth)
		}
		if s.Code {
			side = max(side, codeLines)
		}
		lines += side
	}
	return (lines + pageLines - 1) / pageLines
}

// lines is how much room a date takes.
func (r *PaperRow) lines() int {
	all := r.Title + " " + r.Place
	if r.Place != "" {
		all = ""
	}
	for _, f := range r.Facts {
		all += f.Label + " " + f.Value + " · "
	}
	n := 4 + textLines(all, halfWidth) + textLines(r.Note, halfWidth) + textLines(r.Branch, halfWidth)
	if r.Place != "" {
		n += 10
	}
	return n
}

func chapterLines(c *Chapter) int {
	n := 30 + c.Text.lines()
	for _, p := range c.Parts {
		n += 5 + p.Text.lines() + textLines(p.Note, lineWidth)
		for _, r := range p.Rows {
			n += 20 + textLines(r.Note, lineWidth)
		}
		n += 12*len(p.Family) + 12*len(p.Lines)
		if p.List == nil {
			n += 10
			continue
		}
		for _, g := range p.List.Groups {
			n += 12
			for _, r := range g.Rows {
				text := Text{r.How, r.Sides, r.Why}
				n += 6 + textLines(r.Title+r.Due+r.For, lineWidth) + textLines(r.Note, lineWidth) + text.lines()
			}
		}
	}
	return n
}

func (t *Text) lines() int {
	n := linesOf(t.How, lineWidth) + textLines(t.Why, lineWidth)
	for _, f := range t.Sides {
		n += textLines(f.Label+f.Value, lineWidth)
	}
	return n
}

func linesOf(lines []guide.Line, width int) int {
	n := 0
	for _, l := range lines {
		n += textLines(l.Text, width)
	}
	return n
}

// textLines is how many lines a text takes, in tenths; none where there is none.
func textLines(text string, width int) int {
	return 10 * ((utf8.RuneCountInString(text) + width - 1) / width)
}
