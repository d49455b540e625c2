package page

import (
	"strconv"

	"newel/core/plan"
)

// DutyFormInput is what the form of one of the family's duties is made from.
type DutyFormInput struct {
	FormInput
	Kind    plan.DutyKind
	Path    string   // where the form goes
	Back    string   // the path of the page before
	Helpers []string // who is in the plan already
	Shared  bool     // single days or dates were given to somebody
}

// NewDutyForm makes the view of the form. A ride asks for its way; what happens at
// home may come twice a day.
func NewDutyForm(in DutyFormInput) Form {
	m := &former{in.FormInput, in.Voice}
	kind := plan.DutyKeys[in.Kind]
	f := Form{
		Voice: in.Voice, New: in.New, Fragment: in.Fragment, Calls: NewCalls(in.Voice, in.Plan, in.Fragment), Action: in.Path, Back: in.Back, Helpers: in.Helpers,
		Title: m.v.Entry(kind, "").Title, Lead: m.v.Say("duty-form.lead"), Submit: m.v.Say("duty-form.submit"),
	}
	f.Groups = []Group{m.dutyWhat(in.Kind, in.Shared), m.dutyOften()}
	if in.Kind.IsRide() {
		f.Groups = append(f.Groups, m.rideWay())
	}
	f.Groups = append(f.Groups, m.dutyMore(in.Kind), m.dutyNeed(in.Kind))
	f.gatherProblems(m.v, in.Problems)
	return f
}

func (m *former) dutyWhat(kind plan.DutyKind, shared bool) Group {
	v := m.v
	length, at := "duty-form.length", "duty-form.at"
	if kind.IsRide() {
		length, at = "duty-form.session", "duty-form.appointment"
	}
	g := Group{ID: "what", Title: v.Say("duty-form.when"), Fields: []Field{
		m.field("first", "date", v.Say("duty-form.first"), v.Say("duty-form.first.hint")),
		m.field("at", "time", v.Say(at), ""),
		m.field("length", "number", v.Say(length), ""),
	}}
	if m.New && !kind.IsRide() && kind != plan.Nights {
		g.Fields = append(g.Fields, m.field("again", "time", v.Say("duty-form.again"), v.Say("duty-form.again.hint")))
	}
	who := m.field("who", "text", v.Say("duty-form.who"), v.Say("duty-form.who.hint"))
	if shared {
		who.Hint = v.Say("duty-form.who.shared")
	}
	who.List = "helpers"
	g.Fields = append(g.Fields, who)
	return g
}

// dutyOften is how often: only what belongs to the chosen answer is shown, where the
// browser can do that by itself (web/style/family.css); otherwise all of it.
func (m *former) dutyOften() Group {
	v := m.v
	answers := []string{"once", "daily", "weekly", "monthly", "text"}
	g := Group{ID: "often", Title: v.Say("duty-form.repeats")}
	often := m.choice("often", "duty-form.often", answers...)
	days := m.field("days", "days", v.Say("duty-form.days"), "")
	for i := range 7 {
		n := (i + 1) % 7 // Monday first, as people plan their weeks
		name := "day-" + strconv.Itoa(n)
		days.Options = append(days.Options, Option{name, v.Say("weekday." + strconv.Itoa(n)), m.Values[name] != ""})
	}
	days.Class = "if-weekly"
	month := m.choice("month", "duty-form.month", "day", "end", "nth", "last")
	month.Class = "if-monthly"
	every := m.field("every", "number", v.Say("duty-form.every"), v.Say("duty-form.every.hint"))
	every.Class = "if-daily if-weekly if-monthly"
	text := m.field("rule", "text", v.Say("duty-form.rule"), v.Say("duty-form.rule.hint", arg("example", "RRULE:FREQ=WEEKLY;COUNT=6")))
	text.Class = "if-text"
	ends := m.choice("ends", "duty-form.ends", "weeks", "times", "day", "never")
	ends.Class = "if-daily if-weekly if-monthly"
	g.Fields = []Field{often, days, month, every, text, ends}
	for _, end := range []struct{ name, kind string }{{"weeks", "number"}, {"times", "number"}, {"last", "date"}} {
		field := m.field(end.name, end.kind, v.Say("duty-form."+end.name), "")
		field.Class = "ends-" + end.name
		g.Fields = append(g.Fields, field)
	}
	return g
}

func (m *former) rideWay() Group {
	v := m.v
	return Group{ID: "way", Title: v.Say("duty-form.way"), Hint: v.Say("duty-form.way.hint"), Fields: []Field{
		m.field("place", "text", v.Say("duty-form.place"), ""),
		m.field("drive", "number", v.Say("duty-form.drive"), v.Say("duty-form.drive.hint")),
		m.field("parking", "number", v.Say("duty-form.parking"), ""),
		m.field("early", "number", v.Say("duty-form.early"), ""),
		m.field("own", "number", v.Say("duty-form.own"), v.Say("duty-form.own.hint")),
		m.choice("leaves", "duty-form.leaves", "wait", "back"),
	}}
}

// NeedKeys names how much a duty is needed as forms and words do, by plan.Need.
var NeedKeys = []string{"kind", "must", "should", "nice"}

// dutyNeed asks what decides which duties get somebody first, and who can do them.
func (m *former) dutyNeed(kind plan.DutyKind) Group {
	usual := m.v.Say("duty-form.need." + NeedKeys[(&plan.Duty{Kind: kind}).NeedOf()])
	need := m.field("need", "choice", m.v.Say("duty-form.need"), "")
	for i, key := range NeedKeys {
		label := m.v.Say("duty-form.need.kind", arg("usual", usual))
		if i > 0 {
			label = m.v.Say("duty-form.need." + key)
		}
		need.Options = append(need.Options, Option{key, label, need.Value == key})
	}
	steady := m.field("steady", "box", m.v.Say("duty-form.steady"), "")
	steady.Checked = steady.Value != ""
	return Group{ID: "need", Title: m.v.Say("duty-form.needed"), Folded: true, Fields: []Field{need, steady}}
}

func (m *former) dutyMore(kind plan.DutyKind) Group {
	v := m.v
	g := Group{ID: "more", Title: v.Say("duty-form.more"), Folded: true, Fields: []Field{
		m.field("title", "text", v.Say("duty-form.title"), v.Say("duty-form.title.hint", arg("title", v.Entry(plan.DutyKeys[kind], "").Title))),
		m.field("note", "text", v.Say("duty-form.note"), v.Say("duty-form.note.hint")),
	}}
	if !kind.IsRide() {
		g.Fields = append(g.Fields, m.field("place", "text", v.Say("duty-form.place"), ""),
			m.field("own", "number", v.Say("duty-form.own"), v.Say("duty-form.own.hint")))
	}
	if kind == plan.OtherDuty { // only the family knows what this one is
		g.Folded = false
	}
	return g
}
