package app

import (
	"strconv"
	"strings"

	"newel/core/merge"
	"newel/core/page"
	"newel/core/plan"
	"newel/core/wall"
)

// line answers the paths of own lines in the lists:
//
//	/line/add           adds one to the list that is named
//	/line/N, …/in-guide its page, and what was changed there
//	/line/N/out         takes it out
//
// That one is done is /tick, with the field line. The field from is the page to come back to.
func (s *session) line(p plan.Plan, id, act string) {
	if id == "add" {
		s.addLine(p)
		return
	}
	n, _ := strconv.ParseUint(id, 10, 32)
	l := p.Line(uint32(n))
	switch {
	case l == nil:
		s.plan(p)
		s.out.Focus, s.out.Say = "title", s.voice.Say("line.lost")
	case l.List.Told(): // they are changed with the hospital's settings
		s.plan(p)
	case l.ID >= plan.FirstKnownLine:
		s.givenLine(p, *l, act)
	case act == "out":
		s.takeOutLine(p, *l)
	default:
		s.changeLine(p, *l, act)
	}
}

// addLine adds a line to a list. With a problem its form opens, with everything in it.
func (s *session) addLine(p plan.Plan) {
	list, ok := plan.ListByKey(s.field("list"))
	if !ok || list.Told() {
		s.plan(p)
		return
	}
	l, problems := s.enteredLine(p, plan.Line{List: list})
	if len(problems) == 0 {
		problems = s.roomFor(p, &l)
	}
	in := page.LineFormInput{List: list, From: s.from()}
	in.Values, in.Problems = s.typed(), problems
	if len(problems) > 0 || !s.keepLine(p, p.WithLine(l), l, &in) {
		s.lineForm(p, in)
		return
	}
	s.out.Say = s.voice.Say("line.added", arg("list", s.listTitle(list)), arg("text", l.In(s.voice.Language)))
}

// changeLine shows the page of a line, or takes over what was changed on it.
func (s *session) changeLine(p plan.Plan, l plan.Line, act string) {
	in := page.LineFormInput{List: l.List, ID: l.ID, From: s.from()}
	if act == strings.TrimPrefix(page.InGuide, "/") {
		in.From = page.ListPath(l.List)
	}
	if len(s.in.Fields) == 0 {
		in.Values = lineValues(&p, &l, s.voice.Language)
		s.lineForm(p, in)
		return
	}
	var next plan.Line
	next, in.Problems = s.enteredLine(p, l)
	in.Values = s.typed()
	if len(in.Problems) > 0 || !s.keepLine(p, p.WithLine(next), next, &in) {
		s.lineForm(p, in)
		return
	}
	s.out.Say = s.voice.Say("saved")
}

// givenLine shows the page of a line that comes with the hospital's program. Nothing can be
// changed on it.
func (s *session) givenLine(p plan.Plan, l plan.Line, act string) {
	if _, ok := s.input(p); !ok {
		return
	}
	view := page.GivenLine{Voice: s.voice, Fragment: s.out.Fragment, Plan: &p, Line: &l, Back: s.from()}
	if act == strings.TrimPrefix(page.InGuide, "/") {
		view.Back = page.ListPath(l.List)
	}
	s.screen(page.LinePath(l.ID), view.Title(), page.GivenLinePage(view))
	s.out.Push = len(s.in.Fields) == 0
}

// takeOutLine takes a line out of its list.
func (s *session) takeOutLine(p plan.Plan, l plan.Line) {
	before, said := s.fragment(), s.voice.Say("line.gone", arg("list", s.listTitle(l.List)), arg("text", l.In(s.voice.Language)))
	p = s.edited(p, p.WithoutLine(l.ID))
	s.canUndo(before, said)
	s.backToList(p)
	s.out.Focus, s.out.Say = "list-"+plan.ListKeys[l.List], said
	s.atUndo()
}

// keepLine takes over a plan with a line that was added or changed, and shows the line. It
// is false, and says so in the form, where that is more than a plan can hold.
func (s *session) keepLine(p, next plan.Plan, l plan.Line, in *page.LineFormInput) bool {
	if problems := s.fits(s.onto(p, next)); len(problems) > 0 {
		in.Problems = []plan.Problem{{Field: "text", Code: plan.DutiesMany}}
		return false
	}
	s.backToList(s.edited(p, next))
	s.out.Focus = page.LineItem(l.ID)
	return true
}

// roomFor gives a new line its number, where its list and the plan have room.
func (s *session) roomFor(p plan.Plan, l *plan.Line) []plan.Problem {
	ids := s.freshLines(p, 1)
	if len(p.Lines) >= plan.MaxLines || len(plan.LinesOf(&p, l.List)) >= plan.MaxPerList || len(ids) == 0 {
		return []plan.Problem{{Field: "text", Code: plan.LinesMany, High: plan.MaxPerList}}
	}
	l.ID = ids[0]
	return nil
}

// freshLines gives numbers for lines that are added here. A device that has used up its
// numbers takes another one of its own first.
func (s *session) freshLines(p plan.Plan, n int) []uint32 {
	if s.doc == nil || s.doc.Number != p.Number { // it is being made
		return merge.NewDoc(p.Number).FreshLines(merge.Maker, n)
	}
	if s.stale(p) { // the change may be made under a number of its own (apart)
		return s.doc.FreshLines(s.freshHand(), n)
	}
	if ids := s.doc.FreshLines(s.hand(), n); len(ids) == n {
		return ids
	}
	s.drop(keyHand + planKey(p.Number))
	return s.doc.FreshLines(s.hand(), n)
}

// enteredLine reads the form of a line into one that has its list already.
func (s *session) enteredLine(p plan.Plan, l plan.Line) (plan.Line, []plan.Problem) {
	e := &entry{values: s.typed()}
	l.Hospital, l.Day = e.values["hospital"] != "", plan.NoDay
	if text := e.values["text"]; text != l.In(s.voice.Language) { // in other languages it would still say what it said
		l.Text, l.Others = text, [plan.MostOthers]plan.Wording{}
	}
	if day := e.date("day"); day != 0 {
		l.Day = int(day - p.Surgery)
	}
	for _, problem := range plan.CheckLine(&l) {
		if !e.has(problem.Field) {
			e.problems = append(e.problems, problem)
		}
	}
	return l, e.problems
}

// lineValues writes a line as the fields of its form, in the words that it has in a language.
func lineValues(p *plan.Plan, l *plan.Line, language string) map[string]string {
	v := map[string]string{"text": l.In(language)}
	if l.Hospital {
		v["hospital"] = "1"
	}
	if l.Day != plan.NoDay {
		v["day"] = (p.Surgery + wall.Date(l.Day)).String()
	}
	return v
}

func (s *session) lineForm(p plan.Plan, in page.LineFormInput) {
	if _, ok := s.input(p); !ok { // it also puts the plan's own link into the address
		return
	}
	in.Voice, in.Fragment, in.Plan = s.voice, s.out.Fragment, &p
	form := page.NewLineForm(in)
	path := "/line/add"
	if in.ID != 0 {
		path = page.LinePath(in.ID)
	}
	s.screen(path, form.Title, page.LinePage(form))
	s.out.Push = len(s.in.Fields) == 0
	if len(in.Problems) > 0 {
		s.out.Focus, s.out.Say = "problems", s.voice.Count("form.problems", len(in.Problems))
	}
}

// from is the page to come back to, where that is a chapter of the guide.
func (s *session) from() string {
	if from := s.field("from"); strings.HasPrefix(from, "/guide/") {
		return from
	}
	return ""
}

func (s *session) listTitle(list plan.List) string { return s.voice.Say("list." + plan.ListKeys[list]) }

// withLineDone gives the plan with an own line marked as done, or as not done, and the line's
// words; "" where the line is no longer there.
func withLineDone(p plan.Plan, id string, done bool, language string) (next plan.Plan, title string) {
	n, _ := strconv.ParseUint(id, 10, 32)
	l := p.Line(uint32(n))
	if l == nil || l.List.Told() {
		return p, ""
	}
	marked := *l
	marked.Done = done
	return p.WithLine(marked), l.In(language)
}
