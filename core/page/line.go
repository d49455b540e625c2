package page

import (
	"strconv"
	"strings"

	"newel/core/guide"
	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/wall"
)

// OwnLine is what stands beside a line of the family's or the hospital's own.
type OwnLine struct {
	ID    uint32
	From  string // who added it: the hospital or the family
	Given bool   // it comes with the hospital's program, and is not the family's to change
}

// LinePath is the path of the page on which an own line is changed.
func LinePath(id uint32) string { return "/line/" + strconv.FormatUint(uint64(id), 10) }

// LineItem is the id of an own line's element in its list.
func LineItem(id uint32) string { return "item-own-" + strconv.FormatUint(uint64(id), 10) }

// InGuide is behind the path of a line's page that leads back to the guide.
const InGuide = "/in-guide"

// ListPath is the path of the chapter of the guide that holds a list.
func ListPath(list plan.List) string { return chapterPath(chapterOf("list", plan.ListKeys[list])) }

// lineFrom is the path of the page of an own line, seen from this page.
func (v *View) lineFrom(l *OwnLine) string {
	if strings.HasPrefix(v.From, "/guide") {
		return LinePath(l.ID) + InGuide
	}
	return LinePath(l.ID)
}

// stepMark tells a step from all others in ids: by its code and which of several it is, or as
// one's own by its number.
func stepMark(s *schedule.Step) string {
	if s.Line != nil {
		return "own-" + strconv.FormatUint(uint64(s.Line.ID), 10)
	}
	return number(int(s.Code)) + "-" + number(s.N)
}

func (m *maker) ownLine(l *plan.Line) *OwnLine {
	if l == nil {
		return nil
	}
	return &OwnLine{l.ID, lineSource(m.v, l), l.ID >= plan.FirstKnownLine}
}

// lateStep is late for a step that is due by a day. An own line that is for the time after
// surgery counts until it is done.
func (m *maker) lateStep(s *schedule.Step) bool {
	return m.late(s.List, s.Last) || s.Line != nil && s.Last >= m.p.Surgery && s.Last < m.today
}

// takesLines tells whether a list takes lines of one's own on this page. What the hospital
// says of movements comes with its settings.
func (v *View) takesLines(list string) bool {
	l, ok := plan.ListByKey(list)
	return ok && !l.Told() && !v.ReadOnly
}

// draftOf names what is typed into a list's fold and not sent, see web/draft.ts.
func (v *View) draftOf(list string) string {
	f := Form{Action: "/line/add " + list, Fragment: v.Fragment}
	return f.draft()
}

// LineFormInput is what the form of an own line is made from.
type LineFormInput struct {
	FormInput
	List plan.List
	ID   uint32 // of the line that is changed; 0: a new one
	From string // the path to come back to; empty: the plan's page
}

// LineForm is the page on which an own line is changed or, where something was wrong, added.
type LineForm struct {
	Form
	Hidden []Hidden
	Out    string // the path on which it is taken out; empty: it is a new one
	OutOf  string // the button's words
}

// NewLineForm makes the view of the form. Its fields are text, day (YYYY-MM-DD or empty) and
// hospital (1 or empty).
func NewLineForm(in LineFormInput) LineForm {
	m := &former{in.FormInput, in.Voice}
	list := m.v.Say("list." + plan.ListKeys[in.List])
	f := LineForm{Form: Form{
		Voice: in.Voice, Fragment: in.Fragment, Calls: NewCalls(in.Voice, in.Plan, in.Fragment), Action: "/line/add", Back: in.From,
		Title: m.v.Say("line.add"), Lead: m.v.Say("line.of", arg("list", list)), Submit: m.v.Say("line.add.button"),
	}}
	f.Hidden = []Hidden{{"list", plan.ListKeys[in.List]}, {"from", in.From}}
	if in.ID != 0 {
		f.Action, f.Title, f.Submit = LinePath(in.ID), m.v.Say("line.change"), m.v.Say("save")
		f.Out, f.OutOf = LinePath(in.ID)+"/out", m.v.Say("line.out", arg("list", list))
	}
	hospital := m.field("hospital", "box", m.v.Say("line.hospital"), "")
	hospital.Checked = hospital.Value != ""
	f.Groups = []Group{{ID: "line", Fields: []Field{
		m.field("text", "text", m.v.Say("line.text"), m.v.Say("line.text.hint")),
		m.field("day", "date", m.v.Say("line.day"), m.v.Say("line.day.hint")),
		hospital,
	}}}
	f.gatherProblems(m.v, in.Problems)
	return f
}

// backTo is the path of the page that the form was opened from.
func (f *LineForm) backTo() string {
	if f.Back == "" {
		return "/"
	}
	return f.Back
}

// LinePage makes the page.
func LinePage(f LineForm) string { return linePage(&f) }

// lineWords says all of an own line: its words, its list, its day, whose it is.
func (t teller) lineWords(l plan.Line) string {
	parts := []string{t.v.Say("list." + plan.ListKeys[l.List])}
	if l.Day != plan.NoDay {
		parts = append(parts, t.v.Say("label.due", arg("day", t.v.ShortDay(t.p.Surgery+wall.Date(l.Day)))))
	}
	return t.v.Say("line.whole", arg("text", l.In(t.v.Language)), arg("list", strings.Join(append(parts, lineSource(t.v, &l)), ", ")))
}

func lineSource(v guide.Voice, l *plan.Line) string {
	if l.Hospital {
		return v.Say("line.from.hospital")
	}
	return v.Say("line.from.family")
}
