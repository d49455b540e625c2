package app

import (
	"slices"
	"strconv"

	"newel/core/desk"
	"newel/core/link"
	"newel/core/message"
	"newel/core/page"
	"newel/core/plan"
)

// showRows shows what came of a table.
func (s *session) showRows(settings *desk.Settings, t *desk.Table, made []desk.Done, fields []page.Hidden) {
	title := s.voice.Say("desk-page.many")
	from := min(max(s.number("from"), 0), max(len(t.Rows)-1, 0)) / page.DeskRowsMost * page.DeskRowsMost
	v := page.DeskRows{
		DeskFrame: s.deskFrame(settings, title, ""), Checked: true, Count: s.rowsCount(t, made), Notes: s.tableFaults(t, true),
		Fields: append(fields, page.Hidden{Name: "from", Value: strconv.Itoa(from)}), Parts: s.rowParts(len(t.Rows), from),
		Whole: s.wholeTable(),
	}
	if len(v.Notes) > 0 {
		v.Columns = s.columns()
	}
	if v.Whole {
		v.Fields = append(v.Fields, page.Hidden{Name: fieldHanded, Value: handedTable})
	}
	left := 0
	for i := range t.Rows {
		r := &t.Rows[i]
		if len(r.Faults) == 0 && made[i].Fault == "" {
			continue
		}
		if len(v.Repair) == mostRepair {
			left++
			continue
		}
		v.Repair = append(v.Repair, s.repairRow(t, r, made[i], i))
	}
	if left > 0 {
		v.More = s.voice.Count("desk-rows.more", left)
	}
	for i := from; i < min(from+page.DeskRowsMost, len(t.Rows)); i++ {
		v.Rows = append(v.Rows, s.madeRow(&t.Rows[i], made[i], i))
	}
	s.screen("/desk/rows", title, page.DeskRowsPage(v))
	s.out.Push, s.out.Focus = false, ""
	if s.field("from") != "" && s.field("copy") == "" && s.field("act") == "" && s.field("sent") == "" {
		s.out.Focus = "row-" + strconv.Itoa(from)
	}
}

// rowsCount says how many links there are, and how many rows need somebody.
func (s *session) rowsCount(t *desk.Table, made []desk.Done) string {
	links, without, look := 0, 0, 0
	for i := range t.Rows {
		switch {
		case made[i].Fragment == "":
			without++
		case len(t.Rows[i].Faults) > 0 || made[i].Fault != "":
			links, look = links+1, look+1
		default:
			links++
		}
	}
	said := s.voice.Count("desk-rows.count", links)
	if without > 0 {
		said += " " + s.voice.Count("desk-rows.without", without)
	}
	if look > 0 {
		said += " " + s.voice.Count("desk-rows.look", look)
	}
	if notes := len(s.tableFaults(t, true)); notes > 0 {
		said += " " + s.voice.Count("desk-rows.notes", notes)
	}
	return said
}

// rowParts names the parts in which a long table is shown.
func (s *session) rowParts(rows, from int) []page.DeskPart {
	var all []page.DeskPart
	for at := 0; at < rows; at += page.DeskRowsMost {
		last := min(at+page.DeskRowsMost, rows)
		all = append(all, page.DeskPart{
			From: strconv.Itoa(at), Here: at == from,
			Name: s.voice.Say("desk-rows.part", arg("first", strconv.Itoa(at+1)), arg("last", strconv.Itoa(last))),
		})
	}
	return all
}

// repairRow is a row to be put right, with a field for each cell that can be.
func (s *session) repairRow(t *desk.Table, r *desk.Row, d desk.Done, at int) page.DeskRow {
	row := page.DeskRow{Number: r.Number, Index: at, Label: r.Patient.Label, Leave: s.sentBox(fieldLeave, strconv.Itoa(r.Number))}
	had := map[desk.Column]bool{}
	for _, f := range r.Faults {
		fault := page.DeskFault{Text: desk.Sentence(s.voice, r, f)}
		if f.Column < desk.ColumnMessage && !had[f.Column] && f.Code != "cells-many" {
			had[f.Column] = true
			fault = s.withField(fault, t, r, f)
		}
		row.Faults = append(row.Faults, fault)
	}
	if text := desk.DoneSentence(s.voice, r, d); text != "" {
		row.Faults = append(row.Faults, page.DeskFault{Text: text})
	}
	return row
}

// withField gives a fault the field in which its cell can be put right.
func (s *session) withField(fault page.DeskFault, t *desk.Table, r *desk.Row, f desk.RowFault) page.DeskFault {
	fault.Name = fieldCell + strconv.Itoa(r.Number) + "-" + strconv.Itoa(int(f.Column))
	fault.Label = desk.ColumnName(s.voice, f.Column)
	fault.Value = t.Cell(r, f.Column)
	for _, sent := range s.in.Fields {
		if sent.Name == fault.Name { // typed, and something else was pressed
			fault.Value = plan.Clean(sent.Value)
		}
	}
	return fault
}

// sentBox tells whether a box of that name and value was sent.
func (s *session) sentBox(name, value string) bool {
	return slices.Contains(s.in.Fields, Field{name, value})
}

// madeRow is a row with its link.
func (s *session) madeRow(r *desk.Row, d desk.Done, at int) page.DeskRow {
	row := page.DeskRow{Number: r.Number, Index: at, Label: r.Patient.Label, Class: stateKeys[d.State]}
	row.State = s.voice.Say("desk-rows.state." + row.Class)
	if d.Fragment == "" {
		return row
	}
	p := r.Patient
	if p.Link != "" { // what the row does not say the link does
		p = s.patientOfLink(d.Fragment, p)
	}
	as := plan.Plan{Joint: p.Joint, Operation: p.Operation, Stay: p.Stay}
	row.Day, row.Arrival = s.voice.ShortDay(p.Surgery), s.voice.Say("desk-rows.no-arrival")
	if p.Arrival.Known() {
		row.Arrival = s.voice.Clock(p.Arrival.HourMinute())
	}
	row.What = page.DeskWhat(s.voice, &as) + ", " + page.DeskStay(s.voice, &as)
	row.Fragment, row.SMS = d.Fragment, message.SMS(nil, d.Text)
	row.Code = page.FitsInCode(d.Address)
	return row
}

// patientOfLink is what the head of a link says of a patient.
func (s *session) patientOfLink(fragment string, p desk.Patient) desk.Patient {
	head, err := link.ReadHead(fragment)
	if err != nil || head.Surgery == 0 {
		return p
	}
	p.Surgery, p.Arrival, p.Joint, p.Operation, p.Stay = head.Surgery, head.Arrival, head.Joint, head.Operation, head.Stay
	return p
}

// stateKeys name what a row's link is, in words (desk-rows.state.KEY) and as a class.
var stateKeys = []string{desk.NoLink: "none", desk.NewLink: "made", desk.SameLink: "same", desk.MovedLink: "moved"}
