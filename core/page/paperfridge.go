package page

import (
	"strings"

	"newel/core/guide"
	"newel/core/wall"
)

// PaperDay is one day of the refrigerator sheet.
type PaperDay struct {
	ISO     string
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
	Cannot      string // of who: that they cannot
	Nobody      bool   // somebody is needed: there is room for a name
	Only        bool   // it stands for what is said for every day
	Title       string
	Note        string // what to know there, on the day of surgery
	Box, Done   bool

	series string // of what is on many days: what it is one date of
	minute int    // of the day, 1 to 1440; 0: without a time
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
	years := m.years()
	for date := from; date < from+fridgeDays; date++ {
		s.Days = append(s.Days, m.fridgeDay(date, years.day(date), rows[date]))
	}
	s.Daily, s.Care = m.daily(s.Days), m.care(from)
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

func (m *paperMaker) fridgeDay(date wall.Date, text string, rows []Row) PaperDay {
	head := m.day(date, rows)
	d := PaperDay{
		ISO: head.ISO, Date: text, Surgery: head.Surgery, Sub: m.fromSurgery(date),
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
	e := PaperEntry{Branch: r.Branch, Title: r.Title, series: r.series}
	e.Label, e.Time = m.labelled(r)
	if e.Time != "" && !r.at.IsZero() {
		e.minute = r.at.Hour()*60 + r.at.Minute() + 1
	}
	if r.Kind == "duty" {
		if strings.HasPrefix(r.ID, "duty-drive-there") {
			e.Note = strings.Join(m.v.There(m.p), " · ")
		}
		e.Who, e.Nobody = r.Who, r.Who == "" || r.cannot != ""
		if r.cannot != "" && r.Who != "" {
			e.Cannot = m.v.Say(r.cannot)
		}
		return e
	}
	e.Box, e.Done = r.Tick != nil || r.Kind == "gathered", r.State == "past"
	return e
}

// labelled is a row's label and time where room is scarce. "At" goes into one sentence with its
// time: in Spanish it depends on the hour.
func (m *paperMaker) labelled(r *Row) (label, time string) {
	switch r.label {
	case "duty.leave":
		return m.v.Say("paper.leave"), r.Time
	case "duty.starts":
		return m.v.Say("label.from"), r.Time
	case "label.by":
		return m.v.Say("paper.by"), r.Time
	case "label.at":
		before, _, _ := strings.Cut(m.v.Say("paper.at", arg("time", r.Time)), r.Time)
		return strings.TrimSpace(before), r.Time
	}
	return r.Label, r.Time
}

// yearOnce writes days that follow each other, each with its year only where that begins.
type yearOnce struct {
	v    guide.Voice
	last int // the year that was written last
}

func (m *paperMaker) years() yearOnce {
	year, _, _ := m.v.Today.YMD()
	return yearOnce{m.v, year}
}

// day gives a day where room is scarce.
func (y *yearOnce) day(date wall.Date) string {
	y.v.Today = date
	if year, _, _ := date.YMD(); year != y.last {
		y.last = year
		y.v.Today = date - 366 // of another year, so that the year is written
	}
	return y.v.ShortDay(date)
}
