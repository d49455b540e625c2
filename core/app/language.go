package app

import (
	"slices"
	"strings"

	"newel/core/guide"
)

// language is the tag of the language to answer in: the one that somebody chose on this
// device, else the device's own. What was chosen and is no longer spoken counts as none.
func (s *session) language() string {
	if chosen := s.kept[keyLanguage]; slices.Contains(guide.Languages, chosen) {
		return chosen
	}
	return s.in.Language
}

// setLanguage changes the language of the page on this device and shows the screen again
// on which it was asked for: the field "at" is its path. As after a reload, what was typed
// there and not sent is the shell's to keep.
func (s *session) setLanguage() {
	before, tag, at := s.voice.Language, s.field("language"), s.field("at")
	if slices.Contains(guide.Languages, tag) {
		s.keep(keyLanguage, tag)
		s.voice.Book = guide.Open(tag)
	}
	s.in.Path, s.in.Fields = "/", nil
	if strings.HasPrefix(at, "/") && at != "/language" {
		s.in.Path = at
	}
	s.answer()
	s.out.Push = false // another language is no other screen to come back from
	s.out.Say = s.voice.Say("language.set")
	// The way back stands where the button was that brought us here.
	s.out.Focus = "language-" + before
	if before == s.voice.Language {
		s.out.Focus = ""
	}
}
