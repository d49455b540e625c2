package page

import (
	"strings"

	"newel/core/guide"
	"newel/core/plan"
	"newel/core/zone"
)

// Form is the view of the form that starts or changes a plan.
type Form struct {
	Voice    guide.Voice
	New      bool
	Fragment string // of the plan that is changed
	Action   string // the path it is sent to
	Back     string // the path of the page that it was opened from; empty: the start
	Calls    Calls
	Title    string
	Lead     string
	Submit   string
	Problems []Trouble
	Concerns []string
	Groups   []Group
	Zones    []string
	Helpers  []string // names that a field for one may suggest
}

// draft names what is typed into the form for this state of the plan: the end of a
// link is its checksum. The path tells the forms of one plan apart.
func (f *Form) draft() string {
	if len(f.Fragment) < 6 {
		return f.Action
	}
	return f.Action + " " + f.Fragment[len(f.Fragment)-6:]
}

// Trouble is one problem in the list at the head of the form; Field is empty where it
// belongs to none.
type Trouble struct{ Field, Text string }

// Group is a fieldset. A folded one can be opened.
type Group struct {
	ID, Title, Hint string
	Folded          bool
	Class           string // for which answer it is there, and how it looks
	Fields          []Field
}

// Field is one control with its label.
type Field struct {
	Name, Label, Hint string
	Type              string // text, number, date, time, choice, select, box, days, zone or lines; hint: no control
	List              string // the id of a list of suggestions
	Class             string // for which answer it is there, see web/style/family.css
	Value             string
	Checked           bool
	Options           []Option
	Told              []string // what stands above the control, in the hospital's words
	Problem           string
	Confirm           string // where a question is asked: the value of the box that says yes
}

// described lists the ids of what explains the field, as aria-describedby wants it.
func (f *Field) described() string {
	var ids []string
	if f.Hint != "" {
		ids = append(ids, "hint-"+f.Name)
	}
	if len(f.Told) > 0 {
		ids = append(ids, "told-"+f.Name)
	}
	if f.Problem != "" {
		ids = append(ids, "problem-"+f.Name)
	}
	return strings.Join(ids, " ")
}

// Option is one answer of a choice.
type Option struct {
	Value, Label string
	Chosen       bool
}

// FormInput is what a form is made from. Values are as they were typed, so that
// nothing is lost when something is wrong.
type FormInput struct {
	Voice    guide.Voice
	New      bool
	Fragment string
	Plan     *plan.Plan // whose numbers to call stand below; nil: there is none yet
	Values   map[string]string
	Problems []plan.Problem
	Concerns []string
}

type former struct {
	FormInput
	v guide.Voice
}

// NewForm makes the view of the form.
func NewForm(in FormInput) Form {
	m := &former{in, in.Voice}
	f := Form{
		Voice: in.Voice, New: in.New, Fragment: in.Fragment, Concerns: in.Concerns, Zones: zone.Names(),
		Calls: NewCalls(in.Voice, in.Plan, in.Fragment), Action: "/facts", Back: "/", Title: m.v.Say("form.change"), Submit: m.v.Say("form.submit.change"), Lead: m.v.Say("form.lead"),
	}
	if in.New {
		f.Action, f.Back, f.Title, f.Submit = "/start", "", m.v.Say("form.new"), m.v.Say("form.submit.new")
	}
	f.Groups = []Group{m.surgery(), m.way(), m.given(), m.patient(), m.home(), m.hospital(), m.settings(), m.rules()}
	f.gatherProblems(m.v, in.Problems)
	return f
}

// gatherProblems lists the problems of all fields and opens the groups they are in.
func (f *Form) gatherProblems(v guide.Voice, all []plan.Problem) {
	shown := map[string]bool{}
	for i := range f.Groups {
		for _, field := range f.Groups[i].Fields {
			if field.Problem != "" {
				f.Problems = append(f.Problems, Trouble{field.Name, field.Problem})
				f.Groups[i].Folded = false
			}
			shown[field.Name] = true
		}
	}
	for _, p := range all { // none may be dropped because no field has its name
		if !shown[p.Field] {
			f.Problems = append(f.Problems, Trouble{Text: v.Problem(p, "", "")})
		}
	}
}

func (m *former) surgery() Group {
	v := m.v
	return Group{ID: "surgery", Title: v.Say("form.surgery"), Fields: []Field{
		m.field("patient", "text", v.Say("form.patient"), v.Say("form.patient.hint")),
		m.field("surgery", "date", v.Say("form.date"), ""),
		m.field("arrival", "time", v.Say("form.arrival"), v.Say("form.arrival.hint")),
		m.choice("joint", "form.joint", "knee", "hip"),
		m.choice("operation", "form.operation", "first", "revision", "both"),
		m.choice("stay", "form.stay", "one-night", "same-day", "undecided"),
	}}
}

func (m *former) way() Group {
	v := m.v
	return Group{ID: "way", Title: v.Say("form.way"), Fields: []Field{
		m.field("drive", "number", v.Say("form.drive"), v.Say("form.drive.hint")),
		m.field("parking", "number", v.Say("form.parking"), ""),
	}}
}

// given is what the hospital handed out, patient what changes washing and fasting,
// home what only trims the lists.
func (m *former) given() Group {
	return m.boxes("given", plan.Given)
}

func (m *former) patient() Group {
	return m.boxes("patient", plan.NoSurgicalSoap|plan.TeamTimes)
}

func (m *former) home() Group {
	g := m.boxes("home", plan.HomeFacts)
	g.Hint = m.v.Say("form.home.hint")
	g.Fields = append(g.Fields, m.box("home-none"))
	return g
}

// boxes is a group with a box for each of the facts.
func (m *former) boxes(id string, facts plan.Facts) Group {
	g := Group{ID: id, Title: m.v.Say("form.group." + id)}
	for _, f := range plan.FactKeys {
		if facts.Has(f.Fact) {
			g.Fields = append(g.Fields, m.box("fact."+f.Key))
		}
	}
	return g
}

func (m *former) hospital() Group {
	v := m.v
	return Group{ID: "hospital", Title: v.Say("form.hospital"), Folded: true, Fields: []Field{
		m.field("hospital", "text", v.Say("form.hospital.name"), ""),
		m.field("address", "text", v.Say("form.hospital.address"), ""),
		m.field("phone", "text", v.Say("form.hospital.phone"), ""),
		m.saying(plan.PhoneHours, "text", v.Say("form.phone-hours.hint")),
		m.saying(plan.AfterPhone, "text", ""),
		m.saying(plan.AfterHours, "text", v.Say("form.after-hours.hint")),
		m.saying(plan.ParkAt, "text", v.Say("form.park-at.hint")),
		m.saying(plan.CheckIn, "text", v.Say("form.check-in.hint")),
		m.zone(),
	}}
}

func (m *former) zone() Field {
	f := m.field("zone", "zone", m.v.Say("form.zone"), m.v.Say("form.zone.hint"))
	f.List = "zones"
	return f
}

func (m *former) rules() Group {
	v := m.v
	g := Group{ID: "rules", Title: v.Say("form.rules"), Hint: v.Say("form.rules.hint"), Folded: true}
	for r, info := range plan.Rules {
		if r == int(plan.Fever) || r == int(plan.BowelDays) { // they stand with when to call
			continue
		}
		hint := v.Say("form.rules.common", arg("value", v.Amount(info.Unit, info.Common)))
		f := m.field("rule."+info.Key, "number", v.Say("rule."+info.Key), hint)
		switch info.Unit {
		case plan.ClockTime:
			f.Type = "text" // an HTML time field cannot say 24:00
			if info.Max == 24*60 && info.Min > 0 {
				f.Hint = v.Say("form.rules.midnight", arg("value", v.Amount(info.Unit, info.Common)))
			}
		case plan.YesNo:
			f.Type = "choice"
			f.Options = []Option{{"", hint, f.Value == ""}, {"1", v.Say("yes"), f.Value == "1"}, {"0", v.Say("no"), f.Value == "0"}}
			f.Hint = ""
		}
		g.Fields = append(g.Fields, f)
	}
	return g
}

func (m *former) field(name, kind, label, hint string) Field {
	f := Field{Name: name, Type: kind, Label: label, Hint: hint, Value: m.Values[name]}
	for _, p := range m.Problems {
		if p.Field != name || f.Problem != "" {
			continue
		}
		f.Problem = m.v.Problem(p, label, f.Value)
		if p.Ask {
			f.Confirm = f.Value
		}
	}
	return f
}

func (m *former) box(name string) Field {
	f := m.field(name, "box", m.v.Say(name), "")
	f.Checked = f.Value != ""
	return f
}

func (m *former) choice(name, key string, values ...string) Field {
	f := m.field(name, "choice", m.v.Say(key), "")
	for _, value := range values {
		f.Options = append(f.Options, Option{value, m.v.Say(key + "." + value), f.Value == value})
	}
	return f
}

// FormPage makes the page of the form.
func FormPage(f Form) string { return formPage(&f) }
