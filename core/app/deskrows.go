package app

import (
	"strconv"
	"strings"

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
	text := s.tableText()
	act := s.field("act")
	switch {
	case act == "example":
		s.pasteRows(settings, desk.Example(s.voice), nil)
		s.out.Focus, s.out.Say = "field-text", s.voice.Say("desk-rows.example.in")
	case len(s.in.Fields) == 0 && s.tab(tabMade) != "": // a reload, or the way back
		s.checkRows(settings, text, desk.UnpackDone(s.tab(tabMade), s.in.Page))
	case act == "edit" || len(s.in.Fields) == 0:
		s.pasteRows(settings, s.withLinks(settings, text), nil)
		s.out.Focus = "field-text"
	case act == "again":
		s.checkRows(settings, s.mendedTable(settings, s.withLinks(settings, text)), nil)
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
	made := desk.UnpackDone(s.tab(tabMade), s.in.Page)
	if len(made) == 0 {
		return text
	}
	t := s.readTable(settings, text)
	if len(made) != len(t.Rows) {
		return text
	}
	return t.Text(made, s.voice)
}

// readTable reads a table by the settings.
func (s *session) readTable(settings *desk.Settings, text string) desk.Table {
	return desk.Read(text, s.placed(settings), s.voice.Today, s.voices())
}

// pasteRows shows the box for a table, with what is wrong with the one in it.
func (s *session) pasteRows(settings *desk.Settings, text string, problems []string) {
	title := s.voice.Say("desk-page.many")
	v := page.DeskRows{DeskFrame: s.deskFrame(settings, title, s.voice.Say("desk-rows.lead")), Text: text, Problems: problems}
	for c, key := range desk.ColumnKeys[:desk.ColumnMessage] {
		v.Columns = append(v.Columns, page.DeskColumn{Name: desk.ColumnName(s.voice, desk.Column(c)), What: s.voice.Say("desk-rows.what." + key)})
	}
	s.screen("/desk/rows", title, page.DeskRowsPage(v))
	if len(problems) > 0 {
		s.out.Focus, s.out.Say = "problems", problems[0]
	}
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
	s.keepTab(tabText, text)
	s.keepTab(tabMade, packed)
	s.showRows(settings, &t, made, []page.Hidden{{Name: "text", Value: text}, {Name: "made", Value: packed}})
	if begun < len(made) {
		s.out.Focus, s.out.Say = "outcome", s.rowsCount(&t, made)
	}
	s.handsOverRows(&t, made)
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
}

// mendedTable is the table with the cells put right that were sent beside it.
func (s *session) mendedTable(settings *desk.Settings, text string) string {
	var mends []desk.Mend
	for _, f := range s.in.Fields {
		rest, ok := strings.CutPrefix(f.Name, "cell-")
		row, column, _ := strings.Cut(rest, "-")
		r, err := strconv.Atoi(row)
		c, err2 := strconv.Atoi(column)
		if ok && err == nil && err2 == nil && c >= 0 && c < len(desk.ColumnKeys) {
			mends = append(mends, desk.Mend{Row: r, Column: desk.Column(c), Value: plan.Clean(f.Value)})
		}
	}
	t := s.readTable(settings, text)
	if len(mends) == 0 || len(t.Rows) == 0 {
		return text
	}
	return t.With(mends)
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

// handsOverRows has the shell hand over what was asked for: one message, or the whole table.
func (s *session) handsOverRows(t *desk.Table, made []desk.Done) {
	title := s.voice.Say("desk-page.many")
	copied := s.field("copy")
	n, err := strconv.Atoi(copied)
	switch act := s.field("act"); {
	case copied != "" && err == nil && n >= 0 && n < len(made) && made[n].Fragment != "":
		s.out.Send = &Send{Title: title, Text: made[n].Text, Fragment: made[n].Fragment, Copy: true, Alone: true}
	case act == "copy-all":
		s.out.Send = &Send{Title: title, Text: t.Text(made, s.voice), Copy: true, Alone: true}
	case act == "save":
		s.out.File = tableFile(t, t.Text(made, s.voice))
	default:
		return
	}
	s.out.Focus, s.out.Say = "", ""
}

// tableFile is the table as a file: RFC 4180 for commas, the media type of IANA's registry for tabs.
func tableFile(t *desk.Table, text string) *File {
	if t.Comma == '\t' {
		return &File{Name: "links.tsv", Type: "text/tab-separated-values", Text: text}
	}
	return &File{Name: "links.csv", Type: "text/csv", Text: text}
}
