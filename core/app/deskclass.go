package app

import (
	"newel/core/desk"
	"newel/core/page"
	"newel/core/schedule"
)

// class shows one day of a sample, for the class: rest is what stands behind /desk/class/.
func (s *session) class(settings *desk.Settings, rest string) {
	sample, day := page.ReadClassPath(rest)
	sched, err := schedule.Build(page.ClassPlan(settings, sample, s.voice.Today))
	if err != nil { // an address that was made by hand; the settings say what is wrong
		s.settingsPage(settings, "")
		return
	}
	view := page.NewClass(page.Input{Schedule: sched, Voice: s.voice, Now: s.now, Fragment: s.in.Fragment}, sample, day)
	s.screen(view.Path, view.Title, page.ClassPage(&view))
	s.out.Fragment, s.out.Push, s.out.Focus = s.in.Fragment, true, "class-day"
	s.out.Say = view.Title
}
