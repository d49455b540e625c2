package page

import (
	"strconv"

	"newel/core/guide"
	"newel/core/plan"
)

// HelperFormInput is what the form of a helper is made from: what they can do and when.
type HelperFormInput struct {
	FormInput
	Path    string
	Name    string   // "" for a new one, whose name the form asks for
	Patient string   // what the patient is called in a sentence
	Other   []Option // times that the controls cannot say, in words; Value is the name of the box that keeps each
}

// TaskKeys names what helpers have likings about, in the order of the bits of plan.Tasks.
var TaskKeys = []string{"ride", "hospital", "pets", "meals", "night", "company", "other"}

// AbilityKeys names what helpers can do, in the order of the bits of plan.Abilities.
var AbilityKeys = []string{"drive", "night", "steady", "pets"}

// TimesRows are the prefixes of the fields of the times that the form has room for.
var TimesRows = []string{"a", "b"}

// newHelperForm makes the fields of the form. Much is asked at once, so it begins with what
// takes a tap each; what few people need is folded.
func newHelperForm(in HelperFormInput) Form {
	m := &former{in.FormInput, in.Voice}
	f := Form{
		Voice: in.Voice, New: in.New, Fragment: in.Fragment, Calls: NewCalls(in.Voice, in.Plan, in.Fragment), Action: in.Path, Back: "/split",
		Title: in.Name, Lead: m.v.Say("helper.lead.of", arg("who", in.Name)), Submit: m.v.Say("save"),
	}
	if in.Name == "" {
		f.Title, f.Lead = m.v.Say("helper.new"), m.v.Say("helper.lead")
		f.Groups = []Group{{ID: "name", Fields: []Field{m.field("name", "text", m.v.Say("helper.name"), "")}}}
	}
	f.Groups = append(f.Groups, m.abilities(in.Patient), m.howMuch(), m.when(), m.fortnight(), m.secondTime())
	f.Groups = append(f.Groups, m.daysAway()...)
	if len(in.Other) > 0 {
		f.Groups = append(f.Groups, m.otherTimes(in.Other))
	}
	f.Groups = append(f.Groups, m.likings())
	f.gatherProblems(m.v, in.Problems)
	return f
}

func (m *former) abilities(patient string) Group {
	g := Group{ID: "can", Title: m.v.Say("helper.can")}
	for _, key := range AbilityKeys {
		f := m.field("can-"+key, "box", m.v.Say("helper.can."+key, arg("name", patient)), "")
		f.Checked = f.Value != ""
		g.Fields = append(g.Fields, f)
	}
	return g
}

func (m *former) howMuch() Group {
	offer := m.field("offer", "choice", m.v.Say("helper.offer"), "")
	for i, key := range []string{"light", "usual", "lot"} {
		hours := plan.OfferHours[[]plan.Offer{plan.Light, plan.Usual, plan.ALot}[i]]
		offer.Options = append(offer.Options, Option{key, m.v.Say("helper.offer."+key, guide.Number("hours", hours)), offer.Value == key})
	}
	return Group{ID: "much", Fields: []Field{
		m.field("away", "number", m.v.Say("helper.away"), m.v.Say("helper.away.hint")), offer,
	}}
}

// when asks for the times in which somebody can help or cannot: most people say all they
// need with one row.
func (m *former) when() Group {
	choice := m.choice("when", "helper.when", "any", "work", "only")
	return Group{ID: "when", Fields: append([]Field{choice}, m.timesRow("a", "if-times")...)}
}

func (m *former) fortnight() Group {
	return Group{
		ID: "fortnight", Title: m.v.Say("helper.fortnight"), Folded: m.Values["a-since"] == "", Class: "if-times sub-fold",
		Fields: []Field{m.since("a")},
	}
}

func (m *former) secondTime() Group {
	filled := m.Values["b-from"]+m.Values["b-to"]+m.Values["b-since"] != ""
	for n := range 7 {
		filled = filled || m.Values["b-day-"+strconv.Itoa(n)] != ""
	}
	return Group{
		ID: "second", Title: m.v.Say("helper.second"), Folded: !filled, Class: "if-times sub-fold",
		Fields: append(m.timesRow("b", ""), m.since("b")),
	}
}

// timesRow asks for weekdays with a time from and until.
func (m *former) timesRow(row, class string) []Field {
	days := m.field(row+"-days", "days", m.v.Say("helper.days"), "")
	days.Class = class
	for i := range 7 {
		n := strconv.Itoa((i + 1) % 7) // Monday first, as people plan their weeks
		name := row + "-day-" + n
		days.Options = append(days.Options, Option{name, m.v.Say("weekday.short." + n), m.Values[name] != ""})
	}
	from := m.field(row+"-from", "time", m.v.Say("helper.from"), "")
	to := m.field(row+"-to", "time", m.v.Say("helper.to"), "")
	from.Class, to.Class = class+" half", class+" half"
	hint := Field{Name: row + "-hint", Type: "hint", Hint: m.v.Say("helper.times.hint"), Class: class}
	return []Field{days, from, to, hint}
}

func (m *former) since(row string) Field {
	return m.field(row+"-since", "date", m.v.Say("helper.since"), m.v.Say("helper.since.hint"))
}

// daysAway asks for whole days, as "from day to day".
func (m *former) daysAway() []Group {
	row := func(id, title, prefix, class string, folded bool) Group {
		from := m.field(prefix+"-from", "date", m.v.Say("helper.gone.from"), "")
		to := m.field(prefix+"-to", "date", m.v.Say("helper.gone.to"), "")
		from.Class, to.Class = "half-date", "half-date"
		return Group{ID: id, Title: title, Folded: folded, Class: class, Fields: []Field{from, to}}
	}
	return []Group{
		row("gone", m.v.Say("helper.gone"), "gone-a", "", false),
		row("gone-more", m.v.Say("helper.gone.more"), "gone-b", "sub-fold", m.Values["gone-b-from"]+m.Values["gone-b-to"] == ""),
	}
}

// otherTimes lists what the controls cannot say; whoever takes the tick away drops it.
func (m *former) otherTimes(other []Option) Group {
	g := Group{ID: "other", Title: m.v.Say("helper.other"), Hint: m.v.Say("helper.other.hint")}
	for _, o := range other {
		g.Fields = append(g.Fields, Field{Name: o.Value, Type: "box", Label: o.Label, Checked: o.Chosen})
	}
	return g
}

func (m *former) likings() Group {
	g := Group{ID: "likings", Title: m.v.Say("helper.rather"), Hint: m.v.Say("helper.rather.hint"), Folded: true}
	for _, key := range TaskKeys {
		f := m.field("rather-"+key, "select", m.v.Say("task."+key), "")
		for _, value := range []string{"", "yes", "no"} {
			label := "helper.rather.none"
			if value != "" {
				label = "helper.rather." + value
			}
			f.Options = append(f.Options, Option{value, m.v.Say(label), f.Value == value})
		}
		if f.Value != "" {
			g.Folded = false
		}
		g.Fields = append(g.Fields, f)
	}
	return g
}
