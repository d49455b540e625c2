package app

import (
	"newel/core/merge"
	"newel/core/page"
	"newel/core/plan"
)

// afresh asks whether a plan is to be started afresh, or does it. What this device has of
// the old one stays beside it. Questions are settled first: the new plan has no history in
// which both answers could stand.
func (s *session) afresh(p plan.Plan) {
	if s.isDemo(p) { // clearing away old examples would take it for one that nobody touched
		s.plan(p)
		return
	}
	problem := ""
	switch {
	case s.isEarlier(p): // the browser's way back, most often
		problem = s.voice.Say("afresh.earlier")
	case len(s.doc.Questions()) > 0:
		problem = s.voice.Say("afresh.questions")
	}
	if problem == "" && s.field("sure") != "" {
		s.startAfresh(p)
		return
	}
	s.screen("/link/afresh", s.voice.Say("afresh.title"), page.AfreshPage(page.AfreshView{
		Voice: s.voice, Fragment: s.fragment(), Phone: page.NewTel(p.Program.Phone), Problem: problem,
	}))
}

// startAfresh gives the plan as it stands a new number, so that no old copy joins it.
func (s *session) startAfresh(p plan.Plan) {
	old := planKey(p.Number)
	me, known := s.kept[keyMe+old]
	fresh := p
	fresh.Number = s.freshNumber()
	if fresh.Number == p.Number { // one chance in four thousand million
		fresh.Number++
	}
	p = s.made(fresh)
	if known {
		s.keep(keyMe+planKey(p.Number), me)
		if me != "" && s.keepDoc(s.doc.WithHand(merge.Maker, me)) {
			s.haveRead()
		}
	}
	s.keep(keyAfresh+old, planKey(p.Number))
	s.in.Fields = nil // they are answered
	s.planLink(s.doc.Plan(), true)
	s.out.Push, s.out.Focus, s.out.Say = true, "notice-fresh", s.voice.Say("afresh.done")
}
