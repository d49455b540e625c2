package guide

import (
	_ "embed"
	"strconv"
	"strings"

	"newel/core/plan"
)

//go:embed chapters.txt
var chaptersText string

// Chapter is a line of chapters.txt.
type Chapter struct {
	ID       string
	From, To Bound
	Holds    []Part
}

// Bound is the first or the last day of a chapter, counted from surgery.
type Bound struct {
	None bool // there is no such bound
	Days int  // where Rule is 0; else it is Rule's number of days, times Sign
	Sign int
	Rule plan.Rule
	Is   bool // it goes by Rule
}

// Part is one thing that a chapter holds.
type Part struct{ Kind, Name string }

// Chapters holds chapters.txt, in its order.
var Chapters = readChapters(chaptersText)

// ChapterByID finds a chapter; nil where there is none, since ids come from addresses.
func ChapterByID(id string) *Chapter {
	for i := range Chapters {
		if Chapters[i].ID == id {
			return &Chapters[i]
		}
	}
	return nil
}

// Now tells whether a chapter is what counts so many days after surgery (before it, where
// negative) under a hospital's rules.
func (c *Chapter) Now(day int, p *plan.Program) bool {
	return (c.From.None || day >= c.From.day(p)) && (c.To.None || day <= c.To.day(p))
}

// Length is on how many days a chapter counts; where it has no end, more than any that has.
func (c *Chapter) Length(p *plan.Program) int {
	if c.From.None || c.To.None {
		return 1 << 20
	}
	return c.To.day(p) - c.From.day(p) + 1
}

func (b Bound) day(p *plan.Program) int {
	if b.Is {
		return b.Sign * p.Get(b.Rule)
	}
	return b.Days
}

// readChapters reads the table. The file is part of the program, so a fault in it is a
// mistake that must stop the first test that runs.
func readChapters(text string) []Chapter {
	var all []Chapter
	for _, line := range strings.Split(text, "\n") {
		if line == "" || line[0] == '#' {
			continue
		}
		col := strings.Fields(line)
		if len(col) < 4 {
			panic("chapters.txt: id, from, to and what it holds are needed: " + line)
		}
		c := Chapter{ID: col[0], From: readBound(col[1]), To: readBound(col[2])}
		for _, part := range col[3:] {
			kind, name, _ := strings.Cut(part, ":")
			c.Holds = append(c.Holds, Part{kind, name})
		}
		all = append(all, c)
	}
	return all
}

func readBound(text string) Bound {
	if text == ".." {
		return Bound{None: true}
	}
	if n, err := strconv.Atoi(text); err == nil {
		return Bound{Days: n}
	}
	b := Bound{Sign: 1, Is: true}
	key, minus := strings.CutPrefix(text, "-")
	if minus {
		b.Sign = -1
	}
	r, ok := plan.RuleByKey(key)
	if !ok || plan.Rules[r].Unit != plan.Days {
		panic("chapters.txt: " + text + " is neither a number nor a rule that counts days")
	}
	b.Rule = r
	return b
}
