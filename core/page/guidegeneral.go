package page

import (
	"strings"

	"newel/core/guide"
	"newel/core/schedule"
)

// NewGeneralChapter makes the page of a chapter without a plan: no dates, but when each
// line is due counted from surgery. c says whom to call; its fragment is that of the page.
func NewGeneralChapter(v guide.Voice, c Calls, chapter *guide.Chapter) ChapterView {
	view := ChapterView{
		View:    View{Voice: v, Fragment: c.Fragment, Calls: c, ReadOnly: true},
		Chapter: generalChapter(v, c, chapter),
	}
	link := func(to *guide.Chapter) *ChapterLink {
		if to == nil {
			return nil
		}
		return &ChapterLink{Path: chapterPath(to), Title: chapterEntry(v, to).Title}
	}
	before, after := besides(chapter)
	view.Before, view.After = link(before), link(after)
	return view
}

// guideFolds are the chapters as folds of the front page. When to call stands above them.
func guideFolds(v guide.Voice, c Calls) []Chapter {
	var all []Chapter
	for i := range guide.Chapters {
		if chapter := generalChapter(v, c, &guide.Chapters[i]); chapter.ID != "signs" {
			all = append(all, chapter)
		}
	}
	return all
}

func generalChapter(v guide.Voice, c Calls, chapter *guide.Chapter) Chapter {
	e := chapterEntry(v, chapter, v.Fills(guide.Nobody(), 0, 0)...)
	out := Chapter{ID: chapter.ID, Path: chapterPath(chapter), Title: e.Title, Text: generalText(v, e)}
	for _, held := range chapter.Holds {
		if held.Kind == "times" {
			continue // without a plan there are none
		}
		out.Parts = append(out.Parts, generalPart(v, c, held))
	}
	return out
}

func generalText(v guide.Voice, e guide.Entry) Text { return textOf(v, e, v.Say("patient.default")) }

func generalPart(v guide.Voice, c Calls, held guide.Part) ChapterPart {
	switch held.Kind {
	case "list":
		return ChapterPart{ID: "list-" + held.Name, Title: v.Say("guide.list"), List: generalList(v, held.Name)}
	case "duty":
		e := v.GeneralDuty(held.Name)
		part := ChapterPart{ID: "guide-" + held.Name, Title: e.Title, Text: generalText(v, e)}
		if held.Name == "drive-there" {
			part.Note = strings.Join(v.There(guide.Nobody()), " · ")
		}
		return part
	case "stages":
		return ChapterPart{ID: "stages", Title: v.Say("guide.stages"), Note: v.Durations(guide.Nobody())}
	case "limits":
		return limitsPart(v, guide.Nobody())
	}
	clots := newClots(c)
	return ChapterPart{ID: "clots", Title: clots.Title, Clots: &clots}
}

// generalList is a list with all its lines, by common practice.
func generalList(v guide.Voice, name string) *List {
	l := &List{ID: "list-" + name, Name: name, Title: v.Say("list." + name)}
	for i := range schedule.Kinds {
		k := &schedule.Kinds[i]
		if k.List != name || !k.General(guide.Nobody().Facts) {
			continue
		}
		e := v.General(k)
		r := Row{
			ID: "item-" + number(int(k.Code)), Title: e.Title, Due: v.Relative(k),
			How: e.How, Sides: sides(v, e, v.Say("patient.default")), Why: e.Why, spot: HomePlace(k.ID),
		}
		if name == "eat" {
			r.Note = v.Say("team-first")
		}
		if k.Who == schedule.Patient {
			r.For = v.Say("who.patient", arg("name", v.Say("patient.default")))
		}
		l.add(v, k.Part, r)
	}
	l.draw(v)
	return l
}
