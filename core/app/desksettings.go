package app

import (
	"strings"

	"newel/core/desk"
	"newel/core/page"
	"newel/core/plan"
)

// settingsPage answers what is below /desk/settings: the form, and by act the file (file, check,
// use, save) and the device (keep).
func (s *session) settingsPage(settings *desk.Settings, act string) {
	switch act {
	case "file", "check", "use", "save":
		s.settingsFile(settings, act)
	case "keep":
		s.settingsKeep(settings)
	default:
		s.settingsForm(settings)
	}
}

// settingsForm shows the form of the settings, or takes over what was put in.
func (s *session) settingsForm(settings *desk.Settings) {
	values, lines := s.settingsValues(settings)
	if len(s.in.Fields) == 0 {
		s.settingsShown(settings, page.SettingsInput{FormInput: page.FormInput{Values: values}, Lines: lines})
		return
	}
	typed := s.typed()
	if s.field("act") == "add" {
		n := min(s.number("lines"), plan.MaxPerList-1)
		s.settingsShown(settings, page.SettingsInput{FormInput: page.FormInput{Values: typed}, Lines: n + 1})
		s.out.Focus = "field-" + lineName(n, "list")
		s.out.Say = s.voice.Say("settings.line.added")
		return
	}
	next, problems := s.enteredSettings(settings.Program.Number)
	if problems = unanswered(problems, typed, values); len(problems) > 0 {
		s.settingsShown(settings, page.SettingsInput{FormInput: page.FormInput{Values: typed, Problems: problems}, Lines: s.lineCount()})
		s.out.Focus, s.out.Say = "problems", s.voice.Count("form.problems", len(problems))
		return
	}
	s.settingsSaved(&next)
}

// settingsSaved makes settings those of the address, and says what to do next.
func (s *session) settingsSaved(next *desk.Settings) {
	s.in.Fragment = desk.Address(next)
	s.out.Fragment = s.in.Fragment
	if _, kept := s.kept[keyDesk]; kept {
		s.keep(keyDesk, s.in.Fragment) // whoever asked for it wants the ones that hold
	}
	values, lines := s.settingsValues(next)
	s.settingsShown(next, page.SettingsInput{FormInput: page.FormInput{Values: values}, Lines: lines, Saved: true})
	s.out.Push, s.out.Focus, s.out.Say = true, "notice-saved", s.voice.Say("settings.saved")
}

// settingsShown shows the form.
func (s *session) settingsShown(settings *desk.Settings, in page.SettingsInput) {
	title := s.voice.Say("settings.title")
	in.Voice, in.Fragment = s.voice, s.in.Fragment
	in.Frame = s.deskFrame(settings, title, s.voice.Say("settings.lead"))
	in.Frame.Example = "" // this is where the notice of it leads to
	in.Lax = map[string]string{}
	for _, l := range desk.Lax(settings, s.voice) {
		in.Lax["rule."+plan.Rules[l.Rule].Key] = desk.LaxText(s.voice, l)
	}
	in.Rule = func(r plan.Rule) string { return desk.CommonText(s.voice, r) }
	s.screen("/desk/settings", title, page.SettingsPage(page.NewSettingsView(in)))
}

// settingsFile shows the settings as a file; reads another one (check), makes it the settings
// (use), and hands theirs over (save).
func (s *session) settingsFile(settings *desk.Settings, act string) {
	text := s.raw("file")
	if text == "" {
		text = s.raw("text")
	}
	var next desk.Settings
	var faults []desk.Fault
	if act == "check" || act == "use" {
		next, faults = desk.ReadFile(text, s.voice.Today)
		if act == "use" && text != "" && usable(&next) {
			s.settingsUsed(next)
			return
		}
	}
	title := s.voice.Say("settings.file.title")
	own := desk.WriteFile(settings, s.voice)
	view := page.SettingsFile{Frame: s.deskFrame(settings, title, s.voice.Say("settings.file.lead")), Text: own, Name: "newel-settings.toml"}
	view.Frame.Example = ""
	switch {
	case act == "save":
		view.Saved = s.settingsHanded(own, view.Name)
	case act != "file" && strings.TrimSpace(text) == "":
		view.Problem = s.voice.Say("settings.file.nothing")
	case act != "file":
		s.settingsRead(&view, text, &next, faults)
	}
	s.screen("/desk/settings/file", title, page.SettingsFilePage(view))
	s.out.Push = len(s.in.Fields) == 0 && act == "file"
	switch {
	case view.Saved:
		s.out.Focus, s.out.Say = "notice-file", s.voice.Say("settings.file.saved", arg("name", view.Name))
	case view.Problem != "":
		s.out.Focus, s.out.Say = "problem-file", view.Problem
	case view.Title != "":
		s.out.Focus, s.out.Say = "found", view.Title
	}
}

// settingsRead fills the page with what a file says.
func (s *session) settingsRead(view *page.SettingsFile, text string, next *desk.Settings, faults []desk.Fault) {
	for _, f := range faults {
		view.Faults = append(view.Faults, desk.FaultText(s.voice, f))
	}
	for _, l := range desk.Lax(next, s.voice) {
		view.Laxer = append(view.Laxer, s.voice.Say("rule."+plan.Rules[l.Rule].Key)+": "+desk.LaxText(s.voice, l))
	}
	view.Some, view.Named = usable(next), next.Program.Hospital
	if len(text) <= desk.MostFileBytes { // a larger one is not carried on
		view.Typed = plan.CleanLines(text)
	}
	view.Title = s.voice.Say("settings.file.sound")
	if len(faults) > 0 {
		view.Title = s.voice.Count("form.problems", len(faults))
	}
}

// usable tells whether anything was read.
func usable(s *desk.Settings) bool { return desk.Address(s) != desk.Word }

// settingsUsed makes a file's settings those of the desk. A number of a program that this page
// does not have would send links that say nothing here: then the links carry all themselves.
func (s *session) settingsUsed(next desk.Settings) {
	next = numbered(next)
	if next.Zone == "" && s.device != nil {
		next.Zone = s.in.Zone
	}
	s.settingsSaved(&next)
}

// settingsHanded gives the file over, or its text to the clipboard.
func (s *session) settingsHanded(text, name string) (saved bool) {
	if s.field("act") == "copy" {
		s.out.Send = &Send{Title: s.voice.Say("settings.file.title"), Text: text, Copy: true, Alone: true}
		return false
	}
	s.out.File = &File{Name: name, Type: "application/toml", Text: text}
	return true
}

// raw gives a field as it was sent: what cannot be in a file is the reader's to say.
func (s *session) raw(name string) string {
	for _, f := range s.in.Fields {
		if f.Name == name {
			return f.Value
		}
	}
	return ""
}

// settingsKeep keeps the settings on this device, or forgets them; only when asked.
func (s *session) settingsKeep(settings *desk.Settings) {
	notice := ""
	switch own := desk.Address(settings); {
	case s.field("act") == "keep" && own != desk.Word:
		s.keep(keyDesk, own)
		notice = s.voice.Say("settings.keep.done")
	case s.field("act") == "forget":
		s.drop(keyDesk)
		notice = s.voice.Say("settings.keep.gone")
	}
	title := s.voice.Say("settings.keep.title")
	kept, has := s.kept[keyDesk]
	view := page.SettingsKeep{
		Frame: s.deskFrame(settings, title, ""), Kept: has, Same: kept == desk.Address(settings),
		Empty: desk.Address(settings) == desk.Word, Notice: notice,
	}
	view.Frame.Example = ""
	s.screen("/desk/settings/keep", title, page.SettingsKeepPage(view))
	if notice != "" {
		s.out.Focus, s.out.Say = "notice-keep", notice
	}
}
