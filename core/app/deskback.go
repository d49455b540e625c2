package app

import (
	"strings"

	"newel/core/page"
)

// saidBack shows at the desk what a helper's "say it back" page held up. It reads the address
// and nothing else, and stores nothing. It is false where the fragment is another one.
func (s *session) saidBack(path string) bool {
	if !strings.HasPrefix(s.in.Fragment, page.SaidWord) {
		return false
	}
	view := page.NewSaidBack(s.voice, s.in.Fragment)
	if s.general(path, view.Calls) {
		return true
	}
	s.screen("/", s.voice.Say("shown-back.title"), page.SaidBackPage(&view))
	s.out.Fragment = s.in.Fragment
	return true
}
