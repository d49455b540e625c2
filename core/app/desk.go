package app

import (
	"errors"
	"slices"
	"strings"

	"newel/core/desk"
	"newel/core/guide"
	"newel/core/link"
	"newel/core/page"
	"newel/core/plan"
	"newel/core/wall"
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
//
// What a helper's "say it back" showed at the desk has a fragment of its own (deskback.go).
//
// The table of patients travels in the fields "text" and "made" (deskrows.go); on the first
// page, where patients are put in one by one, it is the field "rows".
func (s *session) desk(path string) {
	settings, err := s.deskSettings()
	if err != nil {
		s.in.Fragment = desk.Word // what cannot be read stands in no link of the page
	}
	if s.general(path, s.deskCalls(&settings)) {
		return
	}
	_, act, _ := strings.Cut(strings.TrimPrefix(path, "/"), "/")
	act, rest, _ := strings.Cut(act, "/")
	if err != nil && act != "settings" && act != "class" {
		s.deskDamaged(err)
		return
	}
	switch act {
	case "rows":
		s.deskRows(&settings)
	case "cards":
		s.putRight(&settings)
		s.deskCards(&settings)
		act := s.field("act")
		s.out.Push = s.out.Push || act == "cards" || act == "card" // from another screen: the way back leads there
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
// that this page was made for. With an error, these too.
func (s *session) deskSettings() (desk.Settings, error) {
	if kept := s.kept[keyDesk]; s.in.Fragment == desk.Word && desk.IsAddress(kept) {
		s.in.Fragment, s.out.Fragment = kept, kept
	}
	if s.in.Fragment == desk.Word {
		return plan.BaseOf(plan.Home), nil
	}
	settings, err := desk.ReadAddress(s.in.Fragment)
	if err == nil && settings.Program.Lacks() {
		err = errLacks
	}
	if err != nil {
		return plan.BaseOf(plan.Home), err
	}
	return settings, nil
}

// errLacks says that an address names a program that did not come with this page: links made here
// would say nothing of the hospital.
var errLacks = errors.New("desk: the address is of another hospital's copy of the page; open the settings file here, or the address in that copy")

// placed are settings with the device's zone where they name none: patients come to the
// hospital where the navigator is.
func (s *session) placed(settings *desk.Settings) *desk.Settings {
	placed := *settings
	if placed.Zone == "" && s.device != nil {
		placed.Zone = s.in.Zone
	}
	return &placed
}

// deskDamaged says that the address holds no settings that can be read, and how to go on.
func (s *session) deskDamaged(err error) {
	how := s.voice.Say("desk-page.damaged.how")
	if errors.Is(err, link.ErrNewer) {
		how = s.voice.Say("desk-page.damaged.newer")
	}
	if errors.Is(err, errLacks) {
		how = s.voice.Say("desk-page.damaged.lacks")
	}
	title := s.voice.Say("desk-page.damaged")
	s.screen("/desk", title, page.DeskDamagedPage(page.DeskFrame{
		Voice: s.voice, Fragment: s.in.Fragment, Calls: page.NewCalls(s.voice, nil, s.in.Fragment), Title: title, Lead: how,
	}))
	s.out.Say = title
}

// deskCalls are the numbers to call by the settings. They are for no patient, so they name no day.
func (s *session) deskCalls(settings *desk.Settings) page.Calls {
	p := desk.PlanOf(settings, desk.Patient{Arrival: wall.NoClock}, 0)
	return page.NewCalls(s.voice, &p, s.in.Fragment)
}

// deskFrame is what all screens of the desk have.
func (s *session) deskFrame(settings *desk.Settings, title, lead string) page.DeskFrame {
	f := page.DeskFrame{
		Voice: s.voice, Fragment: s.in.Fragment, Calls: s.deskCalls(settings), Title: title, Lead: lead,
		Hospital: settings.Program.Hospital,
	}
	if n := settings.Program.Number; plan.Home != 0 && n != 0 && n != plan.Home {
		home := plan.BaseOf(plan.Home)
		f.Home, f.HomeName = desk.Address(&home), home.Program.Hospital
	}
	if field, other := s.otherSettings(); other {
		f.Renew = &page.Hidden{Name: field, Value: s.tab(field)}
	}
	if nobodys(settings) {
		example := plan.BaseOf(demoProgram)
		f.Example = desk.Address(&example)
	}
	return f
}

// nobodys tells whether no hospital is put in.
func nobodys(settings *desk.Settings) bool {
	return settings.Program.Hospital == "" && settings.Program.Number == 0
}

// voiceIn gives a voice in a language that the page speaks, else in the desk's own.
func (s *session) voiceIn(tag string) guide.Voice {
	v := s.voice
	if tag != v.Language && slices.Contains(guide.Languages, tag) {
		v.Book = guide.Open(tag)
	}
	return v
}
