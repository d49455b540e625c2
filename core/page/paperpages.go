package page

import (
	"strings"
	"unicode/utf8"

	"newel/core/guide"
)

// What a page holds, for the hint how many pages a sheet takes: a page of Letter within margins
// of 12 mm is 255 mm high, a line of 11 points 5 mm. All measures here are in tenths of a line.
// The browser test holds the hint against what Chromium prints.
const (
	pageLines = 500
	headLines = 80  // of every sheet
	callLines = 100 // when to call, on all but the guide
	footLines = 20  // the caution
	codeLines = 140 // the code with its words
	sideLines = 50  // the telephone numbers beside it
	lineWidth = 86  // letters in a line across the page
	halfWidth = 46  // in a column of the dates, and in one of two columns
	sideWidth = 60  // beside the code
)

// mostAdded is how many lines a hospital can add to a column of the small cards, in tenths,
// before the second one needs a page of its own.
const mostAdded = 80

// addedLines is by how many lines, in tenths, the longer column of when to call is longer for
// what the hospital adds to it: signs of its own, and a second number.
func (s *Sheet) addedLines() int {
	added := func(lines []guide.Line) int {
		n := 0
		for _, l := range lines {
			if l.Typed {
				n += textLines(l.Text, halfWidth)
			}
		}
		return n
	}
	office := added(s.Calls.Signs.Office.How)
	if len(s.Calls.Office) > 1 {
		office += 15
	}
	return max(office, added(s.Calls.Signs.Emergency.How))
}

// pages is about how many pages a sheet takes.
func (s *Sheet) pages() int {
	lines := headLines + footLines
	switch s.Kind {
	case PaperCard:
		if s.Large {
			return 1
		}
		return 1 + s.addedLines()/(mostAdded+1)
	case PaperPack:
		lines += callLines + s.addedLines() + s.packLines()
	case PaperFridge:
		lines += callLines + s.addedLines() + s.fridgeLines()
	case PaperCover:
		lines += callLines + s.addedLines() + s.gridLines()
	case PaperGuide:
		for i := range s.Chapters {
			lines += chapterLines(&s.Chapters[i])
		}
	default:
		lines += callLines + s.addedLines() + s.helperLines()
	}
	return (lines + pageLines - 1) / pageLines
}

// packLines is how much room the packing list takes, whose lines stand in two columns.
func (s *Sheet) packLines() int {
	n := 40 // by when, and the lines to write on
	for _, g := range s.List {
		column := 0
		for i := range g.Rows {
			r := &g.Rows[i]
			column += 3 + textLines(r.Title+r.For, halfWidth) + textLines(r.Note, halfWidth) + linesOf(r.How, halfWidth)
		}
		n += 12 + column/2
	}
	return n * 9 / 10 // its letters are smaller
}

// fridgeLines is the same for the refrigerator, whose letters are larger.
func (s *Sheet) fridgeLines() int {
	n := 30 + 14*len(s.Daily) + 7*len(s.Care)
	for _, d := range s.Days {
		n += max(24, 14*len(d.Entries)+4)
	}
	return n
}

// helperLines is the same for a helper's dates, with the code and the telephone numbers.
func (s *Sheet) helperLines() int {
	side := sideLines
	for _, note := range s.Bring {
		side += 14 + linesOf(note.Text, sideWidth)
	}
	if s.Code {
		side = max(side, codeLines)
	}
	for i := range s.Rows {
		side += s.Rows[i].lines()
	}
	return side
}

// lines is how much room a row takes.
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
	if r.Cannot != "" {
		n += 15 + textLines(r.Cannot, halfWidth)
	}
	return n + textLines(strings.Join(r.Dates, "   "), halfWidth)
}

// homeLines is the drawing of the home, 105 mm high, with its caption.
const homeLines = 205

func chapterLines(c *Chapter) int {
	n := 30 + c.Text.lines()
	for _, p := range c.Parts {
		n += 5 + p.Text.lines() + textLines(p.Note, lineWidth)
		for _, r := range p.Rows {
			n += 20 + textLines(r.Note, lineWidth)
		}
		n += pictureLines(&p)
		n += 12*len(p.Family) + 12*len(p.Lines)
		if p.List == nil {
			n += 10
			continue
		}
		if p.List.Home != nil {
			n += homeLines
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

// pictureLines is how much room the pictures take with their words: 64 mm and more a piece.
func pictureLines(p *ChapterPart) int {
	n := 0
	if p.Rail != nil {
		n += 200 + 10*len(p.Rail.Usual)
	}
	if p.Fast != nil {
		n += 150 * len(p.Fast.Faces)
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
