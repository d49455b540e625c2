package app

import (
	"slices"
	"strings"

	"newel/core/guide"
	"newel/core/page"
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
	if shows(at) {
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

// shows tells whether a path, asked for without fields, only shows a screen: those of the
// links of the page and of its screens (Response.Path). Others act without fields too, such
// as /forget; a field of a form that anybody can write may not name those.
func shows(path string) bool {
	parts := strings.Split(path, "/")
	if len(parts) < 2 || parts[0] != "" {
		return false
	}
	name, rest := parts[1], append(parts[2:], "", "")
	switch name {
	case "", "start", "facts", "me", "sources", "about", "say-back", "import":
		return len(parts) == 2
	case "device": // without the field "sure", "/device/wipe" only asks
		return len(parts) == 2 || len(parts) == 3 && rest[0] == "wipe"
	case "desk":
		return len(parts) < 4 || rest[0] == "class" || rest[0] == "settings" && slices.Contains([]string{"file", "keep"}, rest[1])
	case "link":
		return len(parts) < 4 && slices.Contains([]string{"", "part", "lock", "afresh"}, rest[0])
	case "split":
		return len(parts) < 4 && slices.Contains([]string{"", "suggest", "anew"}, rest[0]) || len(parts) == 4 && rest[0] == "from"
	case "calendar":
		return true
	case "guide", "print", "who", "helper":
		return len(parts) < 4
	case "line":
		return len(parts) < 4 || "/"+rest[1] == page.InGuide
	case "duty":
		return len(parts) < 4 || len(parts) == 4 && (rest[0] == "new" || rest[1] == "change")
	}
	return false
}
