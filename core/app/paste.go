package app

import (
	"errors"
	"strings"

	"newel/core/link"
	"newel/core/plan"
)

// paste opens the link in a text that was pasted: a link, or a whole message with one in it.
func (s *session) paste() {
	text := s.lines("text")
	fragment := link.Trim(text)
	_, err := link.ReadHead(fragment)
	word := strings.Contains(text, "#") && (fragment == wordDemo || fragment == wordStart)
	if errors.Is(err, link.ErrDamaged) && !word {
		s.notPasted(text, fragment)
		return
	}
	s.in.Fragment, s.in.Path, s.in.Fields = fragment, "/", nil
	s.withPlan("/")
	s.out.Push = true
	if s.out.Focus == "" {
		s.out.Focus = "title"
	}
}

// notPasted shows the front again, with the text and what is wrong with it.
func (s *session) notPasted(text, fragment string) {
	s.in.Fragment = fragment
	f := s.damaged()
	f.Trouble, f.Pasted, f.Problem = "", text, s.voice.Say("paste.none")+" "+f.How
	if plan.Clean(text) == "" {
		f.Problem = s.voice.Say("paste.empty")
	}
	s.out.Fragment = ""
	s.front(f)
	s.out.Focus, s.out.Say = "field-paste", f.Problem
}
