package app

import (
	"newel/core/page"
	"newel/core/plan"
	"newel/core/wall"
)

// paper answers /print, where a sheet is chosen, and /print/SHEET, which shows one as it will
// be on paper. The printing itself is the shell's (web/paper.ts). The field "from" is the first
// day of the refrigerator sheet, as YYYY-MM-DD.
func (s *session) paper(p plan.Plan, sheet string) {
	in, ok := s.input(p)
	if !ok {
		return
	}
	in.Demo = s.isDemo(p)
	from, _ := wall.ParseDate(s.field("from")) // what is no date stands for the usual day
	view, ok := page.NewPaper(page.PaperInput{Input: in, Sheet: sheet, From: from, Address: s.in.Page + "#" + s.out.Fragment})
	if !ok {
		s.screen("/print", s.voice.Say("paper.title"), page.PaperChoicePage(page.NewPaperChoice(in)))
		return
	}
	s.screen(view.Path, view.Title, page.PaperPage(view))
}
