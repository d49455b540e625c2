//go:build !near

package app

import (
	"slices"
	"strings"

	"newel/core/calendar"
	"newel/core/page"
	"newel/core/plan"
	"newel/core/zone"
)

// importFile reads a calendar file that a clinic sent and shows what is in it; only
// when that was looked at is it taken over.
func (s *session) importFile(p plan.Plan, add bool) {
	in, ok := s.input(p)
	if !ok {
		return
	}
	view := page.ImportView{Voice: s.voice, Fragment: in.Fragment, Calls: page.NewCalls(s.voice, &p, s.fragment())}
	text := s.lines("file")
	if text == "" {
		text = s.lines("text")
	}
	if len(s.in.Fields) > 0 {
		if add && s.takeOver(&view, p, text) {
			return
		}
		s.readFile(&view, p, text)
	}
	s.screen("/import", s.voice.Say("import-page.title"), page.ImportPage(view))
	switch {
	case view.Problem != "":
		s.out.Focus, s.out.Say = "problem-file", view.Problem
	case view.Read:
		s.out.Focus = "found"
	}
}

func (s *session) read(p plan.Plan, text string) (calendar.Found, error) {
	loc, err := zone.Load(p.Zone)
	if err != nil {
		return calendar.Found{}, err
	}
	return calendar.Read(text, &p, loc)
}

// readFile fills the page with what is in a file.
func (s *session) readFile(view *page.ImportView, p plan.Plan, text string) {
	if strings.TrimSpace(text) == "" {
		view.Problem = s.voice.Say("import-page.nothing")
		return
	}
	found, err := s.read(p, text)
	if err != nil {
		view.Problem = calendar.WhyNot(s.voice, err)
		return
	}
	view.Read, view.Text = true, text
	duties := changing(p, found.Duties)
	for i := range duties {
		view.Found = append(view.Found, page.NewImportRow(s.voice, &p, &duties[i]))
	}
	count := func(n int, text string) {
		if n > 0 {
			view.Own = append(view.Own, text)
		}
	}
	same := len(found.Duties) - len(duties)
	count(same, s.voice.Count("import-page.same", same))
	count(found.Own, s.voice.Count("import-page.own", found.Own))
	count(found.Others, s.voice.Count("import-page.others", found.Others))
	for _, left := range found.Left {
		line := s.voice.Say("import-page.line", arg("what", calendar.What(s.voice, left)), arg("why", calendar.Why(s.voice, left)))
		if left.Partly() {
			view.Look = append(view.Look, line)
		} else {
			view.Left = append(view.Left, line)
		}
	}
}

// changing leaves out what the plan has just so already.
func changing(p plan.Plan, duties []plan.Duty) []plan.Duty {
	return slices.DeleteFunc(slices.Clone(duties), func(d plan.Duty) bool {
		have := p.Duty(d.ID)
		return have != nil && d.Equal(*have)
	})
}

// takeOver puts what a file has into the plan. A duty that the plan has already is
// changed and not doubled; who has it stays.
func (s *session) takeOver(view *page.ImportView, p plan.Plan, text string) bool {
	found, err := s.read(p, text)
	if err != nil {
		return false
	}
	duties := changing(p, found.Duties)
	if len(duties) == 0 {
		return false
	}
	next := p
	for _, d := range duties {
		if old := p.Duty(d.ID); old != nil {
			d = d.After(*old)
		} else {
			d.ID, d.Who, d.Revision = s.freshDuty(next), 0, 0
		}
		next = next.WithDuty(withDates(d))
	}
	problems := tooMany(&p, &next)
	if len(problems) == 0 {
		problems = s.fits(next)
	}
	if len(problems) > 0 {
		view.Problem = s.voice.Problem(problems[0], "", "")
		return false
	}
	before, said := s.fragment(), s.voice.Count("import-page.added", len(duties))
	p = s.edited(p, next)
	s.canUndo(before, said)
	s.plan(p)
	s.out.Focus, s.out.Say = "family", said
	return true
}
