package app

import (
	"strconv"

	"newel/core/desk"
	"newel/core/page"
	"newel/core/plan"
)

// A long table is done in steps, so that the page can say how far it is: at least so many rows
// at a time, and in at most so many steps, since each of them reads the whole table anew.
const (
	stepRows = 200
	stepMost = 5
)

// mostMade is how many bytes a table and its links may have together: what fits into a request.
const mostMade = RequestLimit - 64<<10

// mostRepair is how many rows to put right are shown at once.
const mostRepair = 30

// deskRows takes a table of patients and shows what came of each row.
func (s *session) deskRows(settings *desk.Settings) {
	fromHome := s.fromHome()
	s.tableActs(settings)
	s.out.Push = s.out.Push || fromHome
}

// fromHome tells whether the table is that of the patients that were put in one by one, which is
// another screen: the way back leads there.
func (s *session) fromHome() bool { return s.lines(tabRows) != "" && s.lines(tabText) == "" }

func (s *session) tableActs(settings *desk.Settings) {
	act := s.field("act")
	if act != "" {
		s.putRight(settings)
	}
	text := s.tableText()
	switch {
	case act == "example":
		s.pasteRows(settings, desk.Example(s.voice), nil)
		s.out.Focus, s.out.Say = "field-text", s.voice.Say("desk-rows.example.in")
	case len(s.in.Fields) == 0 && s.tab(tabMade) != "": // from another screen, or the way back
		s.checkRows(settings, text, desk.UnpackDone(s.tab(tabMade), s.in.Page))
	case act == "edit" || len(s.in.Fields) == 0:
		s.pasteRows(settings, s.withLinks(settings, text), nil)
		s.out.Focus = "field-text"
	case act == "again":
		s.checkRows(settings, s.withLinks(settings, text), nil)
	case act == "renew":
		s.checkRows(settings, s.withoutLinks(settings, text), nil)
	default:
		s.checkRows(settings, text, desk.UnpackDone(s.lines("made"), s.in.Page))
	}
}

// tableText is the table that was sent.
func (s *session) tableText() string {
	if text := s.tab(tabText); text != "" && (len(s.in.Fields) == 0 || s.lines(tabText) != "") {
		return text
	}
	return s.lines(tabRows)
}

// withLinks is a table with the links that were made of it, so that a row that is put right
// leaves the links of the others as they are: they may have been sent.
func (s *session) withLinks(settings *desk.Settings, text string) string {
	packed := s.lines(tabMade)
	if len(s.in.Fields) == 0 {
		packed = s.tab(tabMade) // that of the table that the page holds, and of no other
	}
	made := desk.UnpackDone(packed, s.in.Page)
	if len(made) == 0 {
		return text
	}
	t := s.readTable(settings, text)
	if len(made) != len(t.Rows) {
		return text
	}
	return t.Text(made, s.voice)
}

// pasteRows shows the box for a table, with what is wrong with the one in it.
func (s *session) pasteRows(settings *desk.Settings, text string, problems []string) {
	title := s.voice.Say("desk-page.many")
	v := page.DeskRows{DeskFrame: s.deskFrame(settings, title, s.voice.Say("desk-rows.lead")), Text: text, Problems: problems}
	v.Columns = s.columns()
	if text == "" {
		s.getReady(settings)
	}
	s.screen("/desk/rows", title, page.DeskRowsPage(v))
	if len(problems) > 0 {
		s.out.Focus, s.out.Say = "problems", problems[0]
	}
}

// getReady reads a small table and makes its links, for nothing but that the words of the other
// languages are open and that the browser has compiled the code by the time when somebody has
// copied their rows: with a thousand of them that was half of the time.
func (s *session) getReady(settings *desk.Settings) {
	t := s.readTable(settings, desk.Example(s.voice))
	t.Make(s.placed(settings), s.in.Page, s.in.Random)
}

// columns explains the columns of a table.
func (s *session) columns() []page.DeskColumn {
	var all []page.DeskColumn
	for c, key := range desk.ColumnKeys[:desk.ColumnMessage] {
		all = append(all, page.DeskColumn{Name: desk.ColumnName(s.voice, desk.Column(c)), What: s.voice.Say("desk-rows.what." + key)})
	}
	return all
}

// checkRows reads the table and makes the next links of it, until all are there.
func (s *session) checkRows(settings *desk.Settings, text string, made []desk.Done) {
	t := s.readTable(settings, text)
	if stops := s.tableFaults(&t, false); len(stops) > 0 {
		s.pasteRows(settings, text, stops)
		return
	}
	begun := len(made)
	if begun < len(t.Rows) {
		step := max(stepRows, (len(t.Rows)+stepMost-1)/stepMost)
		made = t.MakeSome(s.placed(settings), s.in.Page, s.in.Random, begun, begun+step, made)
		if s.isMended() {
			s.stillFirst(&t, made[begun:], begun)
		}
	}
	packed := desk.PackDone(made)
	if len(made) > 0 && len(text)+len(packed)/len(made)*len(t.Rows) > mostMade {
		s.pasteRows(settings, text, []string{s.voice.Say("desk-rows.room")})
		return
	}
	if len(made) < len(t.Rows) {
		s.showProgress(settings, text, packed, begun, len(made), len(t.Rows))
		return
	}
	s.keepMade(text, made, begun < len(made))
	s.showRows(settings, &t, made, []page.Hidden{{Name: "text", Value: text}, {Name: "made", Value: packed}})
	if begun < len(made) {
		s.out.Focus, s.out.Say = "outcome", s.rowsCount(&t, made)
	}
	s.handsOverRows(&t, made)
}

// isMended tells whether the table is the one of the screen, with something put right in it, and not
// one that was pasted.
func (s *session) isMended() bool { return s.field("act") == "again" || s.field(fieldMended) != "" }

// stillFirst takes links that were made on this page and put right since for first ones: their message
// does not speak of another day, which the family never heard of. A family that did get the first
// link sees what moved in its plan.
func (s *session) stillFirst(t *desk.Table, made []desk.Done, from int) {
	first := map[string]bool{}
	for _, d := range desk.UnpackDone(plan.CleanLines(s.kept[keyTab+tabMade]), s.in.Page) {
		if d.State == desk.NewLink {
			first[d.Fragment] = true
		}
	}
	for i := range made {
		d, r := &made[i], &t.Rows[from+i]
		if d.Fragment == "" || !first[r.Patient.Link] {
			continue
		}
		if doc, err := s.decode(d.Fragment); err == nil && d.State == desk.MovedLink {
			p := doc.Plan()
			d.Text = desk.Message(s.voiceIn(r.Patient.Language), d.Address, nil, &p)
		}
		d.State = desk.NewLink
	}
}

// tableFaults says what is wrong with the table as a whole, or what is only to be known.
func (s *session) tableFaults(t *desk.Table, ask bool) []string {
	var all []string
	for _, f := range t.Faults {
		if f.Ask == ask {
			all = append(all, desk.Sentence(s.voice, nil, f))
		}
	}
	return all
}

// showProgress shows how far the links are, and has the shell ask for the next ones.
func (s *session) showProgress(settings *desk.Settings, text, packed string, begun, done, of int) {
	title := s.voice.Say("desk-page.many")
	said := s.voice.Say("desk-rows.progress", arg("n", strconv.Itoa(done)), arg("of", strconv.Itoa(of)))
	v := page.DeskRows{
		DeskFrame: s.deskFrame(settings, title, ""), Progress: &page.DeskProgress{Done: done, Of: of, Text: said},
		Fields: []page.Hidden{{Name: "text", Value: text}},
	}
	s.screen("/desk/rows", title, page.DeskRowsPage(v))
	s.out.Push, s.out.Focus = false, ""
	if begun == 0 {
		s.out.Focus, s.out.Say = "progress", s.voice.Say("desk-rows.begun")
	}
	s.out.Again = &Again{Path: "/desk/rows", Fields: []Field{{"text", text}, {"made", packed}}}
	if s.isMended() {
		s.out.Again.Fields = append(s.out.Again.Fields, Field{fieldMended, "1"})
	}
}

// deskDone is the table that was sent with what came of each row; what was not made yet is
// made.
func (s *session) deskDone(settings *desk.Settings) (desk.Table, []desk.Done) {
	t := s.readTable(settings, s.tableText())
	made := desk.UnpackDone(s.lines("made"), s.in.Page)
	if len(made) > len(t.Rows) {
		made = nil
	}
	return t, t.MakeSome(s.placed(settings), s.in.Page, s.in.Random, len(made), len(t.Rows), made)
}
