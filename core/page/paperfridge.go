package page

import (
	"newel/core/wall"
)

// PaperDay is one day of the refrigerator sheet.
type PaperDay struct {
	ISO     string
	Weekday string
	Date    string
	Sub     string // how far it is from surgery
	Surgery bool
	Entries []PaperEntry
}

// PaperEntry is one line of a day: when, who, what.
type PaperEntry struct {
	Branch      string
	Label, Time string
	Who         string
	Nobody      bool // somebody is needed: there is room for a name
	Title       string
	Box, Done   bool
}

// fridgeDays is how many days the refrigerator sheet has.
const fridgeDays = 14

// newFridgeSheet makes the sheet and gives its first day.
func newFridgeSheet(in PaperInput) (Sheet, wall.Date) {
	m := newPaperMaker(in)
	from := m.fridgeFrom()
	m.today = from // what was due before it is not on the sheet
	m.Now, _ = from.At(m.s.Loc, 0)
	s := m.sheet(PaperFridge, m.v.Say("paper.fridge"))
	var v View
	m.fillDays(&v)
	rows := map[wall.Date][]Row{}
	for _, day := range v.Days {
		rows[day.date] = day.Rows
	}
	for date := from; date < from+fridgeDays; date++ {
		s.Days = append(s.Days, m.fridgeDay(date, rows[date]))
	}
	return s, from
}

// fridgeFrom is the first day: the one that was asked for, within reach of the plan, or else
// the day before surgery, or today once that has come.
func (m *paperMaker) fridgeFrom() wall.Date {
	if near := m.in.From - m.p.Surgery; m.in.From != 0 && near > -fridgeReach && near < fridgeReach {
		return m.in.From
	}
	return max(m.today, m.p.Surgery-1)
}

// fridgeReach is how many days from surgery a refrigerator sheet can begin: a plan has no
// dates that are further away than a year and its longest wait.
const fridgeReach = 2 * 366

func (m *paperMaker) fridgeDay(date wall.Date, rows []Row) PaperDay {
	head := m.day(date, rows)
	d := PaperDay{
		ISO: head.ISO, Weekday: m.v.Weekday(date), Date: m.v.ShortDay(date), Surgery: head.Surgery, Sub: m.fromSurgery(date),
	}
	for i := range head.Rows {
		if r := &head.Rows[i]; r.Kind == "duty" || r.Kind == "gathered" || r.Tick != nil {
			d.Entries = append(d.Entries, m.fridgeEntry(r))
		}
	}
	return d
}

// fromSurgery says how far a day is from surgery: on paper there is no today.
func (m *paperMaker) fromSurgery(date wall.Date) string {
	switch n := int(date - m.p.Surgery); {
	case n == 0:
		return m.v.Say("days.surgery")
	case n < 0:
		return m.v.Count("days.before", -n)
	default:
		return m.v.Count("days.after", n)
	}
}

// fridgeEntry is a row in few words. What is only kept up, or usually so, is not on the sheet.
func (m *paperMaker) fridgeEntry(r *Row) PaperEntry {
	e := PaperEntry{Branch: r.Branch, Label: m.shorter(r.Label), Time: r.Time, Title: r.Title}
	if r.Kind == "duty" {
		e.Who, e.Nobody = r.Who, r.Who == ""
		return e
	}
	e.Box, e.Done = r.Tick != nil || r.Kind == "gathered", r.State == "past"
	return e
}

// shorter is a label where room is scarce.
func (m *paperMaker) shorter(label string) string {
	switch label {
	case m.v.Say("duty.leave"):
		return m.v.Say("paper.leave")
	case m.v.Say("duty.starts"):
		return m.v.Say("label.from")
	}
	return label
}
