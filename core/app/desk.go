package app

import (
	"strings"

	"newel/core/desk"
	"newel/core/plan"
)

// The desk is the navigator's side. Its fragment holds the hospital's settings and nothing of
// a patient (desk.Address); what is put in for patients goes from form to form. Its paths:
//
//	/desk            where it starts: one patient
//	/desk/rows       many patients, from a table
//	/desk/cards      their cards, to be printed
//	/desk/moved      a link that was sent before, corrected
//	/desk/settings…  the hospital's settings
//	/desk/class      a sample patient's days, for the class
//	/desk/said       what a helper's "say it back" showed, see wordSaid
func (s *session) desk(path string) {
	settings := s.deskSettings()
	_, act, _ := strings.Cut(strings.TrimPrefix(path, "/"), "/")
	act, rest, _ := strings.Cut(act, "/")
	switch act {
	case "rows":
		s.deskRows(&settings)
	case "cards":
		s.deskCards(&settings)
	case "moved":
		s.deskMoved(&settings)
	case "settings":
		s.settingsPage(&settings, rest)
	case "class":
		s.class(&settings, rest)
	default:
		s.deskHome(&settings)
	}
}

// deskSettings gives the settings of the desk's address; without any, those of the hospital
// that this page was made for.
func (s *session) deskSettings() desk.Settings {
	settings, err := desk.ReadAddress(s.in.Fragment)
	if err != nil || s.in.Fragment == desk.Word {
		return plan.BaseOf(plan.Home)
	}
	return settings
}
