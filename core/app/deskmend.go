package app

import (
	"slices"
	"strconv"
	"strings"

	"newel/core/desk"
	"newel/core/plan"
)

// The fields beside a row that is to be looked at: cell-ROW-COLUMN holds a cell, and leave the
// number of a row that is left out.
const (
	fieldCell  = "cell-"
	fieldLeave = "leave"

	fieldMended = "mended" // goes on from step to step: something was put right
)

// The field that tells, once the browser has copied, that it was the whole table.
const (
	fieldHanded = "handed"
	handedTable = "table"
)

// wholeTable tells whether it is the whole table that is copied.
func (s *session) wholeTable() bool {
	return s.field("act") == "copy-all" || s.field("sent") != "" && s.field(fieldHanded) == handedTable
}

// putRight takes what was put right beside the rows into the table that was sent with it. So no
// button of the screen drops it, whichever is pressed. The links that were made stay.
func (s *session) putRight(settings *desk.Settings) {
	text := s.tableText()
	t := s.readTable(settings, text)
	mends, leave := s.mends(&t)
	if len(mends)+len(leave) == 0 {
		return
	}
	linked := s.readTable(settings, s.withLinks(settings, text))
	text = linked.With(mends, leave)
	rest := slices.DeleteFunc(slices.Clone(s.in.Fields), func(f Field) bool {
		return f.Name == tabText || f.Name == tabMade || f.Name == tabRows || f.Name == fieldLeave || strings.HasPrefix(f.Name, fieldCell)
	})
	s.in.Fields = append(rest, Field{tabText, text}, Field{tabMade, ""}, Field{fieldMended, "1"})
}

// withoutLinks is a table in which no row has a link, so that each gets one by the settings.
func (s *session) withoutLinks(settings *desk.Settings, text string) string {
	t := s.readTable(settings, text)
	if len(t.Rows) == 0 || t.Known[desk.ColumnLink] < 0 {
		return text
	}
	var mends []desk.Mend
	for i := range t.Rows {
		mends = append(mends, desk.Mend{Row: t.Rows[i].Number, Column: desk.ColumnLink})
	}
	return t.With(mends, nil)
}

// mends are the cells that were put right, and the rows that are to be left out.
func (s *session) mends(t *desk.Table) (mends []desk.Mend, leave []int) {
	rows := map[int]*desk.Row{}
	for i := range t.Rows {
		rows[t.Rows[i].Number] = &t.Rows[i]
	}
	for _, f := range s.in.Fields {
		if n, err := strconv.Atoi(f.Value); f.Name == fieldLeave && err == nil && rows[n] != nil {
			leave = append(leave, n)
		}
		if m, ok := mendOf(f); ok && rows[m.Row] != nil && t.Cell(rows[m.Row], m.Column) != m.Value {
			mends = append(mends, m)
		}
	}
	return mends, leave
}

// mendOf reads a field that holds a cell.
func mendOf(f Field) (desk.Mend, bool) {
	rest, ok := strings.CutPrefix(f.Name, fieldCell)
	row, column, _ := strings.Cut(rest, "-")
	r, err := strconv.Atoi(row)
	c, err2 := strconv.Atoi(column)
	if !ok || err != nil || err2 != nil || c < 0 || c >= len(desk.ColumnKeys) {
		return desk.Mend{}, false
	}
	return desk.Mend{Row: r, Column: desk.Column(c), Value: plan.Clean(f.Value)}, true
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
		s.out.Focus, s.out.Say = "", s.voice.Say("desk-rows.saved", arg("name", s.out.File.Name))
		return
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
