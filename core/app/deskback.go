package app

import "newel/core/page"

// saidBack shows at the desk what a helper's "say it back" page held up. It reads the address
// and nothing else, and stores nothing.
func (s *session) saidBack(path string) {
	view := page.NewSaidBack(s.voice, s.in.Fragment)
	if s.general(path, view.Calls) {
		return
	}
	s.screen("/", s.voice.Say("shown-back.title"), page.SaidBackPage(&view))
	s.out.Fragment = s.in.Fragment
}
