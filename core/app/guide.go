package app

import (
	"strings"

	"newel/core/guide"
	"newel/core/page"
	"newel/core/plan"
)

// guide answers the paths of the guide in a plan:
//
//	/guide       its chapters, and which of them count now
//	/guide/ID    one chapter, with the plan's dates and boxes
//	/sources     where the text comes from
//	/about       what the page keeps, who can see it, what it is made of
func (s *session) guide(p plan.Plan, name, id string) {
	in, ok := s.input(p)
	if !ok {
		return
	}
	in.Me = s.myPlace(&p)
	chapter := guide.ChapterByID(id)
	switch {
	case name == "sources":
		s.show(s.rooms.sources, page.NewCalls(s.voice, &p, in.Fragment))
	case name == "about":
		s.show(s.rooms.about, page.NewCalls(s.voice, &p, in.Fragment))
	case chapter == nil:
		s.screen("/guide", s.voice.Say("guide.title"), page.GuidePage(page.NewGuideView(in)))
	default:
		in.Notices = s.undoNotice("/guide/" + chapter.ID)
		v := page.NewChapterView(in, chapter)
		s.screen(v.Chapter.Path, v.Chapter.Title, page.ChapterPage(v))
	}
	s.out.Refresh = refreshSeconds // what counts now changes at midnight
}

// general answers the same paths where there is no plan, or one helper's part only, and
// tells whether it was one of them. c says whom to call.
func (s *session) general(path string, c page.Calls) bool {
	name, id, _ := strings.Cut(strings.TrimPrefix(path, "/"), "/")
	chapter := guide.ChapterByID(id)
	switch {
	case name == "sources":
		s.show(s.rooms.sources, c)
	case name == "about":
		s.show(s.rooms.about, c)
	case name != "guide":
		return false
	case chapter == nil:
		s.screen("/guide", s.voice.Say("guide.title"), page.GuidePage(page.NewGeneralGuide(s.voice, c)))
	default:
		v := page.NewGeneralChapter(s.voice, c, chapter)
		s.screen(v.Chapter.Path, v.Chapter.Title, page.ChapterPage(v))
	}
	s.out.Fragment = c.Fragment
	return true
}

// show has a room without a plan of its own answer, or the whole core where this one has not that room.
func (s *session) show(r func(*session, page.Calls), c page.Calls) {
	if r == nil {
		s.out.Elsewhere = true
		return
	}
	r(s, c)
}

func (s *session) about(c page.Calls) {
	s.screen("/about", s.voice.Say("about.title"), page.AboutPage(page.AboutView{Voice: s.voice, Fragment: c.Fragment, Calls: c}))
}

func (s *session) sources(c page.Calls) {
	s.screen("/sources", s.voice.Say("sources.title"), page.SourcesPage(page.NewSourcesView(s.voice, c)))
}

// backToList shows the page again on which a line of a list was ticked or changed: a
// chapter of the guide, or the plan's own. The focus stays where it is.
func (s *session) backToList(p plan.Plan) {
	id, ok := strings.CutPrefix(s.field("from"), "/guide/")
	if !ok || guide.ChapterByID(id) == nil {
		s.plan(p)
		return
	}
	s.guide(p, "guide", id)
	s.out.Push, s.out.Focus = false, ""
}
