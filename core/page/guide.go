package page

import (
	"newel/core/guide"
)

// GuideView is the contents of the guide: what counts now, and all chapters.
type GuideView struct {
	View
	Now []ChapterLink
	All []ChapterLink
}

// ChapterLink leads to a chapter.
type ChapterLink struct {
	Path, Title string
	Progress    string // how much of its lists is done
	Now         bool   // it is what counts now
}

// GuidePage makes the page of the contents.
func GuidePage(v GuideView) string { return guidePage(&v) }

// NewGuideView makes the contents of a plan's guide.
func NewGuideView(in Input) GuideView {
	m := newMaker(in)
	v := GuideView{View: m.viewOfDay()}
	for i := range guide.Chapters {
		v.add(m.chapterLink(&guide.Chapters[i]))
	}
	return v
}

// NewGeneralGuide makes the contents without a plan. c says whom to call; its fragment is
// that of the page.
func NewGeneralGuide(v guide.Voice, c Calls) GuideView {
	view := GuideView{View: View{Voice: v, Fragment: c.Fragment, Calls: c, ReadOnly: true}}
	for i := range guide.Chapters {
		view.add(ChapterLink{Path: chapterPath(&guide.Chapters[i]), Title: chapterEntry(v, &guide.Chapters[i]).Title})
	}
	return view
}

func (v *GuideView) add(link ChapterLink) {
	v.All = append(v.All, link)
	if link.Now {
		v.Now = append(v.Now, link)
	}
}

func (m *maker) chapterLink(c *guide.Chapter) ChapterLink {
	link := ChapterLink{Path: chapterPath(c), Title: chapterEntry(m.v, c, m.v.Fills(m.p, 0, 0)...).Title, Now: m.counts(c)}
	for _, part := range c.Holds {
		if part.Kind == "list" {
			link.Progress = m.list(part.Name).Progress
		}
	}
	return link
}

// counts tells whether a chapter is what counts today. One that always holds, such as when
// to call, is on every page and not marked.
func (m *maker) counts(c *guide.Chapter) bool {
	return c.Now(int(m.today-m.p.Surgery), &m.p.Program) && !(c.From.None && c.To.None)
}

func chapterEntry(v guide.Voice, c *guide.Chapter, args ...guide.Arg) guide.Entry {
	id := "chapter-" + c.ID
	return v.Entry(id, "", args...)
}

// chapterPath is the path of a chapter's page, or of the contents where there is none.
func chapterPath(c *guide.Chapter) string {
	if c == nil {
		return "/guide"
	}
	return "/guide/" + c.ID
}

// chapterOf finds the chapter that holds a list or a duty; nil: none does.
func chapterOf(kind, name string) *guide.Chapter {
	for i := range guide.Chapters {
		for _, part := range guide.Chapters[i].Holds {
			if part.Kind == kind && part.Name == name {
				return &guide.Chapters[i]
			}
		}
	}
	return nil
}

// besides gives the chapters before and after one; nil where there is none.
func besides(c *guide.Chapter) (before, after *guide.Chapter) {
	for i := range guide.Chapters {
		if guide.Chapters[i].ID != c.ID {
			continue
		}
		if i > 0 {
			before = &guide.Chapters[i-1]
		}
		if i+1 < len(guide.Chapters) {
			after = &guide.Chapters[i+1]
		}
	}
	return before, after
}

// addChapter leads from a day to the chapter that is about it, on the first day of each.
func (m *maker) addChapter(v *View, day *Day) {
	if m.reads {
		return
	}
	c := m.chapterOn(int(day.date - m.p.Surgery))
	for i := range v.Days {
		if link := v.Days[i].Guide; link != nil && link.Path == chapterPath(c) {
			return
		}
	}
	day.Guide = &ChapterLink{Path: chapterPath(c), Title: chapterEntry(m.v, c, m.v.Fills(m.p, 0, 0)...).Title}
}

// chapterOn is the chapter that is about a day: of those that count on it the one that
// counts for the fewest days.
func (m *maker) chapterOn(day int) *guide.Chapter {
	var best *guide.Chapter
	for i := range guide.Chapters {
		c := &guide.Chapters[i]
		if c.Now(day, &m.p.Program) && (best == nil || c.Length(&m.p.Program) < best.Length(&m.p.Program)) {
			best = c
		}
	}
	return best
}

// guideBack names the way back: to the plan, or to whatever the guide was opened from.
func guideBack(v *View) string {
	if v.ReadOnly {
		return v.Voice.Say("guide.leave")
	}
	return v.Voice.Say("back")
}
