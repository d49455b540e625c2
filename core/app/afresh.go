package app

import (
	"newel/core/merge"
	"newel/core/page"
	"newel/core/plan"
)

// afresh asks whether a plan is to be started afresh, or does it. What this device has of
// the old one stays beside it. Questions are settled first: the new plan has no history in
// which both answers could stand. What only a newer page reads does not come along either, and that is said first:
// a link can be made to hold such things until nothing else fits, and then this is the way out.
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
	lost := ""
	if s.doc.Newer() {
		lost = s.voice.Say("afresh.newer")
	}
	if problem == "" && s.field("sure") != "" {
		if s.startAfresh(p) {
			return
		}
		problem = s.voice.Say("afresh.full")
	}
	s.screen("/link/afresh", s.voice.Say("afresh.title"), page.AfreshPage(page.AfreshView{
		Voice: s.voice, Fragment: s.fragment(), Calls: page.NewCalls(s.voice, &p, s.fragment()), Problem: problem, Lost: lost,
	}))
}

// startAfresh gives the plan as it stands a new number, so that no old copy joins it. It is
// false, and nothing is done, where it is more than a plan can hold.
func (s *session) startAfresh(p plan.Plan) bool {
	old := planKey(p.Number)
	me, known := s.kept[keyMe+old]
	p.Number = s.freshNumber()
	if !s.made(p) {
		return false
	}
	if known {
		s.keep(keyMe+planKey(p.Number), me)
		if me != "" && s.keepDoc(s.doc.WithHand(merge.Maker, me)) {
			s.haveRead()
		}
	}
	s.keep(keyAfresh+old, planKey(p.Number))
	s.keep(keyOwn+planKey(p.Number), ownSent+ownChange) // there are others, and they do not have it
	s.in.Fields = nil                                   // they are answered
	s.planLink(planOf(s.doc), true)
	s.out.Push, s.out.Focus, s.out.Say = true, "notice-fresh", s.voice.Say("afresh.done")
	return true
}
