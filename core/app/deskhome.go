package app

import (
	"newel/core/desk"
	"newel/core/link"
	"newel/core/page"
	"newel/core/plan"
)

// deskHome takes what is put in for one patient and shows the link of it above a form for the
// next, in which what hardly differs from patient to patient stands already.
func (s *session) deskHome(settings *desk.Settings) {
	v := page.DeskHome{Rows: s.tab(tabRows)}
	in := page.FormInput{Values: s.deskValues(settings)}
	focus, said := homeFocus(settings), ""
	switch act := s.field("act"); {
	case len(s.in.Fields) == 0:
	case act == "clear":
		v.Cleared = s.clearTab()
		v.Rows, said = "", s.voice.Say("desk-page.cleared")
		if len(v.Cleared) > 0 {
			focus = "notice-cleared"
		}
	case act == "put-back":
		s.putBackTab()
		v.Rows, focus, said = plan.CleanLines(s.kept[keyTab+tabRows]), "title", s.voice.Say("desk-page.back")
	case act == "next":
		in.Values, focus = s.nextValues(settings), fieldDate
	case act == "mend":
		in.Values, v.Old = s.mended(settings, v.Rows)
		focus = fieldDate
	case s.field("made") != "":
		v.Made = s.madeAgain()
		in.Values, focus = s.nextValues(settings), ""
	default:
		var p desk.Patient
		if p, in.Problems = s.patientOf(settings); len(in.Problems) > 0 {
			in.Values, focus, v.Old = s.typed(), "problems", s.field("old")
			said = s.voice.Count("form.problems", len(in.Problems))
			break
		}
		if p.Link == "" { // with all that the settings say it is too long
			in.Values, focus, v.Full, v.Old = s.typed(), "notice-full", true, s.field("old")
			said = s.voice.Say("desk-home.full")
			break
		}
		if v.Rows == "" {
			s.keepTab(tabRowsFor, s.in.Fragment)
		}
		v.Rows = s.withPatient(settings, v.Rows, &p, link.Trim(s.field("old")))
		v.Made = s.madeOf(p.Link, p.Language, v.Rows)
		in.Values, focus = valuesOfPatient(&p), "made"
		said = s.voice.Say("desk-home.made", arg("day", s.voice.Day(p.Surgery)))
	}
	s.showHome(settings, v, in)
	s.out.Focus, s.out.Say = focus, said
	if v.Made != nil {
		s.handsOverMade(v.Made)
	}
}

// fieldDate is the id of the field that comes first.
const fieldDate = "field-surgery"

// homeFocus is where somebody begins who comes to the first screen: in the form. Where no
// hospital is put in the notice about that stands in front of it, and must be met first.
func homeFocus(settings *desk.Settings) string {
	if nobodys(settings) {
		return "title"
	}
	return fieldDate
}

func (s *session) showHome(settings *desk.Settings, v page.DeskHome, in page.FormInput) {
	title := s.voice.Say("desk-page.title")
	v.DeskFrame = s.deskFrame(settings, title, s.voice.Say("desk-home.lead"))
	in.Voice, in.New = s.voice, true
	v.Form = page.DeskForm(in, "/desk", s.voice.Say("desk-home.make"), true)
	s.keepTab(tabRows, v.Rows)
	if n := len(s.readRows(settings, v.Rows).Rows); n > 0 {
		v.Count = s.voice.Count("desk-home.count", n)
	}
	s.screen("/desk", title, page.DeskHomePage(v))
}

// deskValues are what the form begins with.
func (s *session) deskValues(settings *desk.Settings) map[string]string {
	return valuesOfPatient(&desk.Patient{Facts: settings.Given, Language: s.voice.Language})
}

// nextValues are those of the patient before as far as patients are alike.
func (s *session) nextValues(settings *desk.Settings) map[string]string {
	d, err := s.decode(s.field("made"))
	if err != nil {
		return s.deskValues(settings)
	}
	p := d.Plan()
	before := desk.PatientOf(&p)
	before.Language = s.voiceIn(s.field("language")).Language
	return valuesOfPatient(&before)
}

// valuesOfPatient writes what hardly differs between patients as the fields of the form. What
// is about one of them alone, the caution with soap and the team's own times, is no part of it.
func valuesOfPatient(p *desk.Patient) map[string]string {
	v := map[string]string{
		"joint": joints[p.Joint], "operation": operations[p.Operation], "stay": stays[p.Stay], "language": p.Language,
	}
	for _, f := range plan.FactKeys {
		if plan.Given.Has(f.Fact) && p.Facts.Has(f.Fact) {
			v["fact."+f.Key] = "1"
		}
	}
	return v
}

// patientValues writes all of a patient.
func patientValues(p *desk.Patient) map[string]string {
	v := valuesOfPatient(p)
	v["surgery"], v["arrival"], v["label"] = p.Surgery.String(), p.Arrival.String(), p.Label
	for _, f := range plan.FactKeys {
		if desk.DeskFacts.Has(f.Fact) && p.Facts.Has(f.Fact) {
			v["fact."+f.Key] = "1"
		}
	}
	return v
}

// mended gives what was put in for the patient that was made last, and their link.
func (s *session) mended(settings *desk.Settings, rows string) (values map[string]string, old string) {
	all := s.patients(settings, rows)
	if len(all) == 0 {
		return s.nextValues(settings), ""
	}
	last := all[len(all)-1]
	return patientValues(&last), last.Link
}

// patientOf reads the form, and makes the link where nothing is wrong in it.
func (s *session) patientOf(settings *desk.Settings) (desk.Patient, []plan.Problem) {
	p, problems := s.patientEntered(settings)
	if len(problems) == 0 {
		p.Link = s.linkOf(settings, p)
	}
	return p, problems
}

// linkOf makes a patient's link. One that is put right keeps the number of the plan, since it may
// have been sent: then the family's copy takes the correction over.
func (s *session) linkOf(settings *desk.Settings, p desk.Patient) string {
	d, err := s.decode(link.Trim(s.field("old")))
	if err != nil {
		return desk.Starter(s.placed(settings), p, s.freshNumber())
	}
	s.doc = d
	next := desk.Corrected(d, p, s.freshHand())
	s.doc = nil // it is nobody's plan on this device
	return s.encode(next)
}

// patientEntered reads the fields of the form for a patient, and checks the plan of it.
func (s *session) patientEntered(settings *desk.Settings) (desk.Patient, []plan.Problem) {
	e := &entry{values: s.typed()}
	p := s.patientRead(e)
	made := desk.PlanOf(s.placed(settings), p, 0)
	s.checkPatient(e, &made)
	if len([]rune(p.Label)) > plan.MaxName {
		e.problems = append(e.problems, plan.Problem{Field: "label", Code: plan.TextLong, High: plan.MaxName})
	}
	return p, e.problems
}

func (s *session) patientRead(e *entry) desk.Patient {
	return desk.Patient{
		Label: e.values["label"], Surgery: e.date("surgery"), Arrival: e.clock("arrival"),
		Joint: plan.Joint(e.choice("joint", joints)), Operation: plan.Operation(e.choice("operation", operations)),
		Stay: plan.Stay(e.choice("stay", stays)), Facts: e.facts() & desk.DeskFacts,
		Language: s.voiceIn(e.values["language"]).Language,
	}
}

// checkPatient adds what is wrong with the plan of a patient, as far as the desk's form asks it.
func (s *session) checkPatient(e *entry, made *plan.Plan) {
	for _, problem := range plan.Check(made, s.voice.Today) {
		if !e.has(problem.Field) && !(problem.Ask && (s.confirmed(e.values[problem.Field]) || !deskAsks(problem.Field))) {
			e.problems = append(e.problems, problem)
		}
	}
}

// deskAsks tells whether a question is about what the desk's form asks; the settings have a form
// of their own.
func deskAsks(field string) bool { return field == "surgery" || field == "arrival" }

// madeOf is a link that was made, with its message. rows is the table that the patient is in.
func (s *session) madeOf(fragment, language, rows string) *page.DeskMade {
	d, err := s.decode(fragment)
	if err != nil {
		return nil
	}
	p := d.Plan()
	m := s.madeBy(nil, &p, fragment, language, "/desk")
	m.First = true
	m.Ways.Fields = append(m.Ways.Fields, page.Hidden{Name: "rows", Value: rows})
	return m
}

// madeBy is the link of a plan with its message. before is what the link before said; nil: this
// is the first.
func (s *session) madeBy(before, p *plan.Plan, fragment, language, action string) *page.DeskMade {
	v := s.voiceIn(language)
	address := s.in.Page + "#" + fragment
	m := &page.DeskMade{
		Title: s.voice.Say("desk-page.link-for", arg("day", s.voice.Day(p.Surgery))), Said: page.DeskSaid(s.voice, p),
		Message: desk.Message(v, address, before, p), Language: v.Language, Notes: s.concerns(*p),
	}
	m.Ways = page.NewDeskWays(s.voice, action, address, fragment, m.Message)
	m.Ways.Fields = []page.Hidden{{Name: "made", Value: fragment}, {Name: "language", Value: v.Language}}
	return m
}

// madeAgain is the link that the fields hold.
func (s *session) madeAgain() *page.DeskMade {
	return s.madeOf(link.Trim(s.field("made")), s.field("language"), s.lines("rows"))
}

// handsOverMade has the shell hand over what was asked for.
func (s *session) handsOverMade(m *page.DeskMade) {
	out := &Send{Title: m.Title, Text: m.Message, Fragment: m.Ways.Fragment, Alone: true}
	switch s.field("act") {
	case "copy-text":
		out.Copy = true
	case "copy":
		out.Text, out.Copy, out.Alone = "", true, false
	case "send":
	default:
		return
	}
	s.out.Send = out
	s.out.Focus, s.out.Say = "", "" // what came of it is said once it is known
}
