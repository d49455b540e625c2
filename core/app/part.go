package app

import (
	"newel/core/link"
	"newel/core/page"
	"newel/core/schedule"
)

// part shows one helper's part of a plan, to read and to put in a calendar. It is no copy
// of the plan: nothing of it is stored, and no form that changes a plan reaches it.
func (s *session) part() {
	p, helper, err := link.DecodePart(s.in.Fragment)
	if err != nil {
		s.broken(err)
		return
	}
	sched, err := schedule.Build(p)
	if err != nil { // a zone that this page does not know
		s.broken(link.ErrNewer)
		return
	}
	s.isPart = true
	if s.in.Path == "/calendar" {
		s.calendar(p, "")
		return
	}
	title := page.PartTitle(s.voice, helper)
	s.out.Fragment, s.out.Path, s.out.Refresh = s.in.Fragment, "/", refreshSeconds
	s.out.Title = title + " · " + s.voice.Say("app.name")
	s.out.HTML = page.PartPage(page.NewPartView(page.PartInput{
		Input:  page.Input{Schedule: sched, Voice: s.voice, Now: s.now, Device: s.device, Fragment: s.in.Fragment},
		Helper: helper, Whole: s.fragmentHere(p.Number),
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
