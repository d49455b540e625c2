package app

import (
	"slices"
	"strconv"

	"newel/core/page"
	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/wall"
)

// start shows the empty form, or makes a plan of what was put in.
func (s *session) start() {
	in := page.FormInput{New: true, Fragment: ""}
	if len(s.in.Fields) == 0 {
		in.Values = s.emptyValues()
		s.form(in)
		return
	}
	p, problems := s.entered(plan.Plan{Number: s.freshNumber()})
	if len(problems) > 0 {
		in.Values, in.Problems = s.typed(), problems
		s.form(in)
		return
	}
	if !s.made(p) {
		in.Values, in.Problems = s.typed(), []plan.Problem{{Field: "surgery", Code: plan.DutiesMany}}
		s.form(in)
		return
	}
	s.changed(planOf(s.doc))
}

// facts shows the form of a plan, or takes over what was changed in it.
func (s *session) facts(p plan.Plan) {
	in := page.FormInput{Fragment: s.fragment(), Plan: &p}
	if len(s.in.Fields) == 0 {
		in.Values, in.Concerns = s.valuesOf(p), s.concerns(p)
		s.form(in)
		return
	}
	next, problems := s.entered(p) // what the form does not ask for stays
	problems = unanswered(problems, s.typed(), s.valuesOf(p))
	if len(problems) > 0 {
		in.Values, in.Problems = s.typed(), problems
		s.form(in)
		return
	}
	if next = s.onto(p, next); !next.SameFacts(p) {
		p = s.editedFacts(p, next)
	}
	s.changed(p)
}

// revised counts a change of the facts that moves times: of what every plan has, and of
// the rides whose way or zone it changes. Calendars have to be told (RFC 5546 2.1.4).
func revised(p, next plan.Plan) plan.Plan {
	before, err := layOut(p)
	after, err2 := layOut(next)
	if err != nil || err2 != nil {
		return next
	}
	next.Revision = max(next.Revision, p.Revision)
	if next.Revision == p.Revision && p.Revision < 1<<16-1 && !schedule.SameTimes(before, after) {
		next.Revision++
	}
	for i := range after.Series {
		d := *after.Series[i].Duty
		if was := p.Duty(d.ID); was != nil && d.Revision == was.Revision && d.Revision < 1<<16-1 && !schedule.SameDates(before, after, d.ID) {
			d.Revision++
			next = next.WithDuty(d)
		}
	}
	return next
}

// inline takes over a few fields that stand on the plan's page itself. With a
// problem the whole form opens, with everything in it.
func (s *session) inline(p plan.Plan, names ...string) {
	values := s.valuesOf(p)
	sent := s.typed()
	for _, name := range names {
		if value, ok := sent[name]; ok {
			values[name] = value
		}
	}
	s.in.Fields = nil
	for name, value := range values {
		s.in.Fields = append(s.in.Fields, Field{name, value})
	}
	s.facts(p)
}

// unanswered leaves out the questions about what stood in the plan before: somebody
// has said yes to it, and whoever only puts in the drive need not say it again.
//
// Nor has anybody who puts in the arrival time to say on which day somebody reviewed the page:
// a name without a day can come of two copies, and stands in the way of nothing.
func unanswered(problems []plan.Problem, typed, before map[string]string) []plan.Problem {
	same := func(field string) bool { return typed[field] == before[field] }
	return slices.DeleteFunc(problems, func(p plan.Problem) bool {
		if p.Code == plan.ReviewNoDay || p.Code == plan.ReviewNobody {
			day := slices.Index(plan.ProgramTextKeys[:], p.Field) // the name stands before it
			return same(p.Field) && same(plan.ProgramTextKeys[day-1])
		}
		return p.Ask && same(p.Field)
	})
}

// changed shows a plan whose facts were put in.
func (s *session) changed(p plan.Plan) {
	s.plan(p)
	s.out.Push, s.out.Focus = true, "title"
	s.out.Say = s.voice.Say("saved") + " " + s.movedSay
	concerns := s.concerns(p)
	if len(concerns) > 0 && (s.asked || s.in.Path == "/start") {
		// The navigator must see it before the link goes out: the form stays. A helper
		// who only puts in the arrival time is not shown it.
		s.form(page.FormInput{Values: s.valuesOf(p), Concerns: concerns, Fragment: s.out.Fragment, Plan: &p})
		s.out.Focus = "concerns"
	}
}

// repairForm shows the form of a plan that cannot be laid out here, with what is wrong beside its
// field and everything else as it was.
func (s *session) repairForm(p plan.Plan) {
	problems := plan.Check(&p, s.voice.Today)
	s.form(page.FormInput{Values: s.valuesOf(p), Problems: problems, Fragment: s.fragment(), Plan: &p})
}

func (s *session) form(in page.FormInput) {
	in.Voice = s.voice
	s.out.HTML = page.FormPage(page.NewForm(in))
	s.out.Path, s.out.Refresh, s.out.Fragment = "/facts", 0, s.fragment()
	key := "form.change"
	if in.New {
		s.out.Path, s.out.Fragment, key = "/start", wordStart, "form.new"
	}
	s.out.Title = s.voice.Say(key) + " · " + s.voice.Say("app.name")
	// A new entry of the history only where the person went there by a link of the
	// page: the address #start is an entry already, and back must lead away from it.
	s.out.Push, s.out.Focus = s.asked && len(s.in.Fields) == 0, "title"
	if len(in.Problems) > 0 {
		s.out.Focus = "problems"
		s.out.Say = s.voice.Count("form.problems", len(in.Problems))
	}
}

// concerns are the sentences for the navigator about rules laxer than guidance.
func (s *session) concerns(p plan.Plan) []string {
	sched, err := layOut(p)
	if err != nil {
		return nil
	}
	var all []string
	for _, c := range sched.Fasting.Concerns {
		all = append(all, s.voice.Concern(c))
	}
	return all
}

// freshNumber is the number of a new plan. It comes from the device's chance, so
// two families do not meet under one number, and is never that of a plan that is here.
func (s *session) freshNumber() uint32 {
	number := s.chance(0)
	for {
		if _, taken := s.kept[keyPlan+planKey(number)]; !taken {
			return number
		}
		number++
	}
}

// typed gives every field as it was sent.
func (s *session) typed() map[string]string {
	values := map[string]string{}
	for _, f := range s.in.Fields {
		values[f.Name] = plan.Clean(f.Value)
		if f.Name == "limits" { // a line each
			values[f.Name] = plan.CleanLines(f.Value)
		}
	}
	return values
}

func (s *session) emptyValues() map[string]string {
	home := ""
	if s.device != nil {
		home = s.in.Zone
	}
	return map[string]string{
		"zone": home, "joint": "knee", "operation": "first", "stay": "one-night",
	}
}

// The answers of the choices, in the order of the plan's values.
var (
	joints     = []string{"knee", "hip"}
	operations = []string{"first", "revision", "both"}
	stays      = []string{"one-night", "same-day", "undecided"}
)

// valuesOf writes a plan as the fields of its form, as the page's language has its words.
func (s *session) valuesOf(p plan.Plan) map[string]string {
	v := valuesOf(p)
	v["limits"] = limitsText(&p, s.voice.Language)
	return v
}

// valuesOf writes a plan as the fields of its form.
func valuesOf(p plan.Plan) map[string]string {
	v := map[string]string{
		"patient": p.Patient, "surgery": p.Surgery.String(), "arrival": p.Arrival.String(), "zone": p.Zone,
		"joint": joints[p.Joint], "operation": operations[p.Operation], "stay": stays[p.Stay],
		"drive": minutes(p.Drive), "parking": minutes(p.Parking),
		"hospital": p.Program.Hospital, "address": p.Program.Address, "phone": p.Program.Phone,
	}
	if p.Facts.Has(plan.HomeAnswered) && p.Facts&plan.HomeFacts == 0 {
		v["home-none"] = "1"
	}
	for _, f := range plan.FactKeys {
		if p.Facts.Has(f.Fact) {
			v["fact."+f.Key] = "1"
		}
	}
	for r, info := range plan.Rules {
		if p.Program.Own(plan.Rule(r)) {
			v["rule."+info.Key] = ruleText(info, p.Program.Get(plan.Rule(r)))
		}
	}
	for t, key := range plan.ProgramTextKeys {
		v[key] = p.Program.Texts[t]
	}
	v["limits"] = limitsText(&p, "")
	return v
}

func ruleText(info plan.RuleInfo, n int) string {
	if info.Unit == plan.ClockTime {
		return wall.Clock(n).String()
	}
	if info.Unit == plan.Degrees {
		return plan.DegreesText(n)
	}
	return strconv.Itoa(n)
}

func minutes(n int) string {
	if n == plan.Unknown {
		return ""
	}
	return strconv.Itoa(n)
}
