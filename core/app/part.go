package app

import (
	"newel/core/link"
	"newel/core/page"
	"newel/core/plan"
)

// part shows one helper's part of a plan, to read and to put in a calendar. It is no copy
// of the plan: nothing of it is stored, and no form that changes a plan reaches it.
func (s *session) part() {
	p, helper, err := link.DecodePart(s.in.Fragment)
	if err != nil {
		s.front(s.damaged())
		return
	}
	if !s.canLayOut(&p) {
		s.tooMuch()
		return
	}
	sched, err := layOut(p)
	if err != nil { // a zone that this page does not know
		s.newer()
		return
	}
	s.isPart = true
	if s.in.Path == "/calendar" {
		s.visit(s.rooms.calendar, p, "", "")
		return
	}
	if s.general(s.in.Path, page.NewCalls(s.voice, &p, s.in.Fragment)) {
		return
	}
	title := page.PartTitle(s.voice, helper)
	s.out.Fragment, s.out.Path, s.out.Refresh = s.in.Fragment, "/", refreshSeconds
	s.out.Title = title + " · " + s.voice.Say("app.name")
	s.out.HTML = page.PartPage(page.NewPartView(page.PartInput{
		Input:  page.Input{Schedule: sched, Voice: s.voice, Now: s.now, Device: s.device, Fragment: s.in.Fragment, Notices: s.notices},
		Helper: helper, Whole: s.fragmentHere(p.Number), Here: s.otherHere(&p),
	}))
}

// fragmentHere is the link of the plan with a number as this device has it; "" where it
// has none.
func (s *session) fragmentHere(number uint32) string {
	if d, ok := s.stored(keyPlan, number); ok {
		return s.encode(d)
	}
	return ""
}

// otherHere says what day and arrival the plan has on this device, where that is not what a
// part of it says; "" where it is, and where the plan is not here.
func (s *session) otherHere(part *plan.Plan) string {
	d, ok := s.stored(keyPlan, part.Number)
	if !ok {
		return ""
	}
	whole := planOf(d)
	if whole.Surgery == part.Surgery && whole.Arrival == part.Arrival {
		return ""
	}
	return s.voice.Say("first.here", arg("what", s.headDay(link.Head{Surgery: whole.Surgery, Arrival: whole.Arrival})))
}
