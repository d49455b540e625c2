package page

import (
	"slices"
	"strings"

	"newel/core/guide"
	"newel/core/schedule"
)

// PaperRow is one date of a helper: the day, the time that it begins with, and what it is.
type PaperRow struct {
	Day         string   // it stands in each row: a page may end between two
	Dates       []string // instead of Day where several dates are all the same but for it
	Count       string   // how many they are
	Again       bool     // it is the day of the row above
	Branch      string
	Label, Time string // when to leave or to be there; Time is empty while it is not known
	Title       string
	Place       string
	Facts       []Fact // its other times
	Note        string
	Cannot      string // why the helper cannot: there is room for another name

	series string // of what is on many days: what it is one date of
}

// PaperNote is what to bring to a duty, and to know of it.
type PaperNote struct {
	Title string
	Text  []guide.Line
}

// newHelperSheet makes one helper's sheet: their dates from today on.
func newHelperSheet(in PaperInput, who uint8) Sheet {
	in.Me = who
	m := newPaperMaker(in)
	m.reads = true
	s := m.sheet("helper", m.v.Say("paper.helper", arg("who", m.p.Helper(who))))
	s.ID += "-" + number(int(who))
	var known []string
	var dates []helperDate
	for i := range m.s.Duties {
		d := &m.s.Duties[i]
		if !m.mayHave(d, who) || m.over(d) {
			continue
		}
		dates = append(dates, helperDate{d.Day, m.helperRow(d, who)})
		if note, key := m.bring(d); len(note.Text) > 0 && !slices.Contains(known, key) {
			known = append(known, key)
			s.Bring = append(s.Bring, note)
		}
	}
	s.Rows, s.Later = m.repeated(dates)
	s.Phones = m.phonesOf(who)
	return s
}

// mayHave tells whether a duty is a helper's, or may be: where two people said it differently,
// it stands on both sheets.
func (m *paperMaker) mayHave(d *schedule.Duty, who uint8) bool {
	if q := m.unsettled(d); q != nil {
		for _, version := range q.Versions {
			if version.Value == m.p.Helper(who) {
				return true
			}
		}
	}
	return m.s.Who(d) == who
}

// helperRow says the times of a duty as the helper's own part of the page does, but puts first
// when they leave their own home.
func (m *paperMaker) helperRow(d *schedule.Duty, who uint8) PaperRow {
	r := m.dutyRow(d)
	row := PaperRow{Branch: r.Branch, Time: r.Time, Title: r.Title, Note: r.Note, series: r.series}
	row.Label = r.Label
	if r.label == "label.at" {
		row.Label, _ = m.labelled(&r)
	}
	lead := Fact{Label: r.Label, Value: r.Time}
	for _, f := range r.Facts {
		switch f.key {
		case "duty.where":
			row.Place = f.Value
		case "duty.own-leave.you":
			row.Label, row.Time = f.Label, f.Value
			if m.dutyLeaves(d) {
				lead.Label = m.v.Say("duty.leave.with", arg("name", m.v.Patient(m.p)))
			}
			row.Facts = append(row.Facts, lead)
		default:
			row.Facts = append(row.Facts, f)
		}
	}
	if q := m.unsettled(d); q != nil {
		row.Note = strings.TrimSpace(m.either(q) + " " + row.Note)
	}
	if f := m.finding(d); r.cannot != "" && f.Who == who {
		row.Cannot = m.reason(d, who, f.Why[0])
	}
	return row
}

// dutyLeaves tells whether the time that stands first is the one to leave the patient's home
// together.
func (m *paperMaker) dutyLeaves(d *schedule.Duty) bool {
	return d.Kind == schedule.Drive && !d.Homeward && !d.Leave.IsZero()
}

// bring gives what to bring to a duty and to know of it, with a key under which it stands once.
func (m *paperMaker) bring(d *schedule.Duty) (note PaperNote, key string) {
	if d.Family == nil {
		e := m.v.Duty(m.p, d)
		if d.IsSlot() {
			e.Title = m.v.Entry(d.ID, "", m.v.Fills(m.p, 0, 0)...).Title
		}
		return PaperNote{e.Title, e.How}, d.ID
	}
	note.Title = m.v.DutyTitle(d.Family)
	key = note.Title
	for _, text := range m.dutyText(d.Family) {
		note.Text = append(note.Text, guide.Line{Text: text})
		key += "\n" + text
	}
	return note, key
}

// phonesOf names those whose numbers a helper may want: the plan has none, so they are written
// in by hand.
func (m *paperMaker) phonesOf(who uint8) []string {
	all := []string{m.v.Patient(m.p)}
	for _, other := range helpersOnPaper(m.p) {
		if other != who {
			all = append(all, m.p.Helper(other))
		}
	}
	return all
}
