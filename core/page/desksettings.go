package page

import (
	"strconv"

	"newel/core/guide"
	"newel/core/plan"
	"newel/core/zone"
)

// SettingsInput is what the form of a hospital's settings is made from. Its values are those of
// the form of a plan and, for the own lines, line.N.list, line.N.day and line.N.LANGUAGE, with N
// from 0 below Lines.
type SettingsInput struct {
	FormInput
	Frame DeskFrame
	Lines int               // how many own lines there are places for
	Lax   map[string]string // by field: where a rule is laxer than published guidance
	Rule  func(plan.Rule) string
	Saved bool
	Kept  bool // on this device
}

// SettingsView is the page of the form.
type SettingsView struct {
	Form
	Frame DeskFrame
	Lines int
	Full  bool // there is no place for a further line
	Saved bool
	Kept  bool
	Lax   int // how many rules are laxer than published guidance
}

type settingsFormer struct {
	former
	in SettingsInput
}

// settingsRules are the groups of rules, in the order of a patient's way.
var settingsRules = []struct {
	id    string
	rules []plan.Rule
}{
	{"before", []plan.Rule{plan.EquipmentDays, plan.HomeDays, plan.MealsDays, plan.WashDays, plan.WashMorning, plan.NoShaveHours, plan.FoodStop, plan.LiquidsBefore}},
	{"day", []plan.Rule{plan.DriveSlack, plan.CarMinutes, plan.PrepMinutes, plan.FirstMin, plan.FirstMax, plan.RevisionMin, plan.RevisionMax,
		plan.BothMin, plan.BothMax, plan.RecoveryMin, plan.RecoveryMax}},
	{"going", []plan.Rule{plan.DischargeThere, plan.DischargeLeave}},
	{"after", []plan.Rule{plan.StayWithHours, plan.PresenceHours, plan.HardestDays, plan.ClotDays}},
	{"calls", []plan.Rule{plan.Fever, plan.BowelDays}},
}

// NewSettingsView makes the view of the form.
func NewSettingsView(in SettingsInput) SettingsView {
	m := &settingsFormer{former{in.FormInput, in.Voice}, in}
	v := SettingsView{
		Frame: in.Frame, Lines: in.Lines, Full: in.Lines >= plan.MaxPerList, Saved: in.Saved, Kept: in.Kept, Lax: len(in.Lax),
		Form: Form{
			Voice: in.Voice, Fragment: in.Fragment, Calls: in.Frame.Calls, Action: "/desk/settings", Zones: zone.Names(),
			Submit: m.v.Say("settings.save"),
		},
	}
	v.Groups = []Group{m.place(), m.phones(), m.arriving(), m.boxes("given", plan.Given)}
	for _, g := range settingsRules {
		group := Group{ID: g.id, Title: m.v.Say("settings.group." + g.id)}
		for _, r := range g.rules {
			group.Fields = append(group.Fields, m.rule(r)...)
		}
		v.Groups = append(v.Groups, group)
	}
	v.Groups = append(v.Groups, m.reviews())
	v.Groups = append(v.Groups, m.lines()...)
	v.gatherProblems(m.v, in.Problems)
	return v
}

func (m *settingsFormer) place() Group {
	return Group{ID: "hospital", Title: m.v.Say("settings.group.hospital"), Fields: []Field{
		m.field("hospital", "text", m.v.Say("form.hospital.name"), m.v.Say("settings.needed")),
		m.field("address", "text", m.v.Say("form.hospital.address"), m.v.Say("settings.address.hint")),
		m.zone(),
	}}
}

func (m *settingsFormer) phones() Group {
	g := Group{ID: "phones", Title: m.v.Say("settings.group.phones"), Fields: []Field{
		m.field("phone", "text", m.v.Say("form.hospital.phone"), m.v.Say("settings.needed")),
		m.saying(plan.PhoneHours, "text", m.v.Say("form.phone-hours.hint")),
		m.saying(plan.AfterPhone, "text", ""),
		m.saying(plan.AfterHours, "text", m.v.Say("form.after-hours.hint")),
		m.saying(plan.EmergencyNumber, "text", m.v.Say("form.emergency.hint")),
	}}
	g.Fields[4].List = "emergency-numbers"
	return g
}

func (m *settingsFormer) arriving() Group {
	return Group{ID: "arriving", Title: m.v.Say("settings.group.arriving"), Fields: []Field{
		m.saying(plan.ParkAt, "text", m.v.Say("form.park-at.hint")),
		m.saying(plan.CheckIn, "text", m.v.Say("form.check-in.hint")),
	}}
}

func (m *settingsFormer) reviews() Group {
	return Group{ID: "reviewed", Title: m.v.Say("settings.group.reviewed"), Fields: []Field{
		m.saying(plan.ReviewedBy, "text", m.v.Say("form.reviewed.hint")),
		m.saying(plan.ReviewedOn, "date", ""),
		m.saying(plan.TranslatedBy, "text", m.v.Say("form.translated.hint")),
		m.saying(plan.TranslatedOn, "date", ""),
	}}
}

// rule is the field of a rule, with common practice beside it, and below it where it is laxer
// than what is published.
func (m *settingsFormer) rule(r plan.Rule) []Field {
	info := plan.Rules[r]
	f := m.field("rule."+info.Key, "number", m.v.Say("rule."+info.Key), m.in.Rule(r))
	switch info.Unit {
	case plan.ClockTime, plan.Degrees:
		f.Type = "text" // an HTML time field cannot say 24:00
	case plan.YesNo:
		f.Type = "choice"
		f.Options = []Option{{"", f.Hint, f.Value == ""}, {"1", m.v.Say("yes"), f.Value == "1"}, {"0", m.v.Say("no"), f.Value == "0"}}
		f.Hint = ""
	}
	all := []Field{f}
	if lax := m.in.Lax[f.Name]; lax != "" {
		all = append(all, Field{Name: "lax." + info.Key, Type: "hint", Class: "lax", Hint: lax})
	}
	return all
}

// lines are the hospital's own lines, each a group of its own.
func (m *settingsFormer) lines() []Group {
	all := []Group{{ID: "lines", Title: m.v.Say("settings.group.lines"), Hint: m.v.Say("settings.lines.hint")}}
	for n := range m.in.Lines {
		name := "line." + strconv.Itoa(n) + "."
		count := guide.Number("n", n+1)
		list := m.field(name+"list", "select", m.v.Say("settings.line.list", count), "")
		for _, key := range plan.ListKeys {
			list.Options = append(list.Options, Option{key, m.v.Say("list." + key), list.Value == key})
		}
		g := Group{ID: "line-" + strconv.Itoa(n), Class: "own-line-form", Fields: []Field{list}}
		there := false
		for _, language := range guide.Languages {
			there = there || m.Values[name+language] != ""
			g.Fields = append(g.Fields, m.field(name+language, "text", m.v.Say("settings.line.text", count, arg("language", guide.Name(language))), ""))
		}
		g.Fields = append(g.Fields, m.field(name+"day", "number", m.v.Say("settings.line.day", count), m.v.Say("settings.line.day.hint")))
		if there {
			out := m.field(name+"out", "box", m.v.Say("settings.line.out", count), "")
			out.Checked = out.Value != ""
			g.Fields = append(g.Fields, out)
		}
		all = append(all, g)
	}
	return all
}

// SettingsPage makes the page of the form.
func SettingsPage(v SettingsView) string { return settingsPage(&v) }

// SettingsFile is the page on which the settings are seen as a file, saved and opened.
type SettingsFile struct {
	Frame   DeskFrame
	Text    string // the file of the settings as they are
	Name    string // of the file
	Typed   string // what was pasted, or is in the file that was chosen
	Problem string // nothing was put in
	Faults  []string
	Laxer   []string // what is read and laxer than published guidance
	Title   string   // how many faults, or that there are none
	Some    bool     // something in it is right and can be used
	Saved   bool
	Named   string // whose settings are in the file that was read
}

// SettingsFilePage makes it.
func SettingsFilePage(v SettingsFile) string { return settingsFile(&v) }

// SettingsKeep is the page on which the settings are kept on the device, or forgotten.
type SettingsKeep struct {
	Frame  DeskFrame
	Kept   bool // settings are kept here
	Same   bool // and they are those of this address
	Empty  bool // this address has none
	Notice string
}

// SettingsKeepPage makes it.
func SettingsKeepPage(v SettingsKeep) string { return settingsKeep(&v) }
