package page

import (
	"slices"

	"newel/core/guide"
)

// Chapter is a chapter of the guide: what it is about, and what it holds.
type Chapter struct {
	ID, Path, Title string
	Now             bool // it is what counts now
	Text            Text
	Parts           []ChapterPart
}

// Text is the words of an entry without its title.
type Text struct {
	How   []guide.Line
	Sides []Fact // what is the helper's part of it and what the patient's, where that differs
	Why   string
}

// ChapterPart is one thing that a chapter holds. What it has not is empty.
type ChapterPart struct {
	ID, Title string // of the element
	Text      Text
	List      *List        // with or without dates
	Rows      []Row        // dates of a duty, or times of the day in the hospital
	Family    []FamilyDuty // the family's duties of a kind
	New       string       // the path on which one is put in
	Lines     []string     // in the hospital's own words
	Clots     *Clots
	Rail      *DayRail   // of the times of the day of surgery
	Fast      *FastClock // of the list of eating and drinking
	Note      string
	More      string // how many more dates there are
}

// ChapterView is the page of a chapter.
type ChapterView struct {
	View
	Chapter       Chapter
	Before, After *ChapterLink
}

// ChapterPage makes the page.
func ChapterPage(v ChapterView) string { return chapterPage(&v) }

// NewChapterView makes the page of a chapter of a plan's guide.
func NewChapterView(in Input, c *guide.Chapter) ChapterView {
	m := newMaker(in)
	v := ChapterView{View: m.viewOfDay(), Chapter: m.chapter(c)}
	v.Notices = in.Notices
	v.From = v.Chapter.Path
	for i := range v.Chapter.Parts {
		m.foldDates(&v.Chapter.Parts[i])
	}
	before, after := besides(c)
	if before != nil {
		link := m.chapterLink(before)
		v.Before = &link
	}
	if after != nil {
		link := m.chapterLink(after)
		v.After = &link
	}
	return v
}

// chapter makes a chapter with the plan's dates.
func (m *maker) chapter(c *guide.Chapter) Chapter {
	e := chapterEntry(m.v, c, m.v.Fills(m.p, 0, 0)...)
	out := Chapter{ID: c.ID, Path: chapterPath(c), Title: e.Title, Now: m.counts(c), Text: m.text(e)}
	for _, held := range c.Holds {
		if part, ok := m.chapterPart(held); ok {
			out.Parts = append(out.Parts, part)
		}
	}
	return out
}

// foldDates leaves the next few of many dates: all of them stand in the days and on paper.
func (m *maker) foldDates(part *ChapterPart) {
	if part.ID == "times" || part.ID == "stages" || len(part.Rows) <= datesMost {
		return
	}
	coming := slices.DeleteFunc(slices.Clone(part.Rows), func(r Row) bool { return r.State == "past" })
	if len(coming) == 0 {
		coming = part.Rows
	}
	if more := len(coming) - datesMost; more > 0 {
		part.Rows, part.More = coming[:datesMost], m.v.Count("guide.more-dates", more)
	}
}

// text is what an entry says below its title.
func (m *maker) text(e guide.Entry) Text { return textOf(m.v, e, m.v.Patient(m.p)) }

func textOf(v guide.Voice, e guide.Entry, patient string) Text {
	return Text{How: e.How, Sides: sides(v, e, patient), Why: e.Why}
}

// sides says who does what, where an entry tells the helper and the patient apart.
func sides(v guide.Voice, e guide.Entry, patient string) []Fact {
	var both []Fact
	if e.Coach != "" {
		both = append(both, Fact{Label: v.Say("guide.coach"), Value: e.Coach})
	}
	if e.Patient != "" {
		both = append(both, Fact{Label: capital(v.Say("guide.patient", arg("name", patient))), Value: e.Patient})
	}
	return both
}
