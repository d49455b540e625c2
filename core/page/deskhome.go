package page

import (
	"newel/core/guide"
	"newel/core/plan"
)

// DeskHome is the desk's first screen, for one patient after the other.
type DeskHome struct {
	DeskFrame
	Made    *DeskMade // of the patient before; nil: there is none
	Full    bool      // the link with all that the settings say is too long
	Form    Form
	Rows    string   // the patients so far, as a table
	Old     string   // the fragment of the link that is put right; empty: the form makes the first link of somebody
	Cleared []Hidden // what was cleared just now, to be put back
	Count   string   // how many, in a sentence; empty: none
}

// DeskForm makes the form for one patient. values and problems are as for NewForm; values
// has a "language" and a "label" beside what the plan's form has.
func DeskForm(in FormInput, action, submit string, first bool) Form {
	m := &former{in, in.Voice}
	f := Form{Voice: in.Voice, New: true, Fragment: in.Fragment, Action: action, Submit: submit, Groups: []Group{m.deskWhen(), m.deskWhat(), m.deskGiven()}}
	if first {
		f.Groups = append(f.Groups, m.deskMessage(true))
	} else {
		f.Groups = append(f.Groups, m.deskMessage(false))
	}
	f.gatherProblems(m.v, in.Problems)
	return f
}

func (m *former) deskWhen() Group {
	v := m.v
	return Group{ID: "when", Class: "when-group", Fields: []Field{
		m.field("surgery", "date", v.Say("form.date"), ""),
		m.field("arrival", "time", v.Say("form.arrival"), v.Say("desk-home.arrival.hint")),
	}}
}

func (m *former) deskWhat() Group {
	return Group{ID: "operation", Class: "what-group", Fields: []Field{
		m.choice("joint", "form.joint", "knee", "hip"),
		m.choice("operation", "form.operation", "first", "revision", "both"),
		m.choice("stay", "form.stay", "one-night", "same-day", "undecided"),
	}}
}

func (m *former) deskGiven() Group {
	g := m.boxes("given", plan.Given)
	return Group{ID: g.ID, Title: g.Title, Fields: append(g.Fields, m.boxes("patient", plan.NoSurgicalSoap|plan.TeamTimes).Fields...)}
}

// deskMessage asks for the language of the message and, for a first link, for the desk's own
// mark, which goes into no link.
func (m *former) deskMessage(first bool) Group {
	v := m.v
	language := m.field("language", "select", v.Say("desk-home.language"), "")
	for _, tag := range guide.Languages {
		language.Options = append(language.Options, Option{tag, guide.Name(tag), tag == m.Values["language"]})
	}
	g := Group{ID: "message", Fields: []Field{language}}
	if first {
		g.Fields = append(g.Fields, m.field("label", "text", v.Say("desk-home.label"), v.Say("desk-home.label.hint")))
	}
	return g
}

// DeskHomePage makes the page.
func DeskHomePage(v DeskHome) string { return deskHome(&v) }
