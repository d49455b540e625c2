package page

import (
	"newel/core/guide"
	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/schedule"
)

// DutyView is the page of one of the family's duties: its rule in words, its next
// date with all times, and what can be done about single dates.
type DutyView struct {
	Voice     guide.Voice
	Fragment  string
	Path      string
	Calls     Calls
	Title     string
	Who       string // whose the dates to come are; empty: nobody's
	Shared    bool   // they are several people's
	Open      string // how many of them nobody has, where somebody has the others
	Unsettled string // instead of whose they are, where two people said it differently
	SomeOpen  string // that this is so of some of them
	Rule      string
	Dropped   bool
	Zone      string   // whose clock the times are on, where the device has another
	Text      []string // what to bring, and the words of its kind
	Next      *Row
	NextDay   string
	Dates     []DateLine
	Gone      int      // how many have been
	Choices   []Option // dates that can be left out or moved
	Given     []Option // dates that can be given to somebody
	Weekdays  []WeekdayField
	Usual     string // what an empty field of them means
	Helpers   []string
	Changed   []Changed
	Problem   string // about what was asked for a single date
	Typed     map[string]string
}

// Changed is a date that is not as the rule has it, with the way back.
type Changed struct{ Text, Day, At, Button string }

// DutyInput is what the page of a duty is made from.
type DutyInput struct {
	Input
	Duty    *plan.Duty
	Problem string
	Typed   map[string]string
}

// NewDutyView makes the view of a duty's page.
func NewDutyView(in DutyInput) DutyView {
	m := newMaker(in.Input)
	d := in.Duty
	v := DutyView{
		Voice: m.v, Fragment: in.Fragment, Path: dutyPath(d.ID), Calls: m.calls(),
		Title: m.v.DutyTitle(d), Rule: m.v.Rule(d.Rule, guide.Things(d.Kind)),
		Dropped: d.Dropped, Helpers: m.p.Helpers, Problem: in.Problem, Typed: in.Typed,
	}
	v.Text = m.dutyText(d)
	if m.differs(m.Now) {
		v.Zone = m.v.Say("zone.other", arg("zone", m.p.Zone))
	}
	m.fillDates(&v, d)
	return v
}

// dutyText is what to bring or to know, and the words of a duty's kind.
func (m *maker) dutyText(d *plan.Duty) []string {
	var text []string
	if d.Note != "" {
		text = append(text, d.Note)
	}
	for _, line := range m.v.Entry(plan.DutyKeys[d.Kind], "", m.v.Fills(m.p, 0, 0)...).How {
		text = append(text, line.Text)
	}
	return text
}

// fillDates lists the dates of a duty.
func (m *maker) fillDates(v *DutyView, d *plan.Duty) {
	for i := range m.s.Series {
		series := &m.s.Series[i]
		if series.Duty.ID != d.ID {
			continue
		}
		if next := m.nextDate(series); next != nil {
			row := m.dutyRow(next)
			row.Open = ""
			v.Next, v.NextDay = &row, m.v.Near(next.Day)
		}
		m.fillWho(v, series)
		for _, at := range series.Dates {
			m.addDate(v, &m.s.Duties[at])
		}
	}
	for _, day := range d.Rule.Skipped {
		v.Changed = append(v.Changed, Changed{
			Text: m.v.Say("dates.skipped", arg("day", m.v.ShortDay(day))), Day: day.String(), Button: m.v.Say("dates.put-back"),
		})
	}
	for _, move := range d.Rule.Moved {
		v.Changed = append(v.Changed, Changed{
			Text: m.movedText(move), Day: move.From.String(), Button: m.v.Say("dates.as-before"),
		})
	}
	for _, extra := range d.Rule.Extra {
		v.Changed = append(v.Changed, Changed{
			Text: m.v.Say("dates.extra", arg("to", m.moment(extra))), Day: extra.Day.String(), At: extra.At.String(), Button: m.v.Say("dates.remove"),
		})
	}
}

func (m *maker) addDate(v *DutyView, date *schedule.Duty) {
	if !date.Session.To.After(m.Now) {
		v.Gone++
		return
	}
	text := m.moment(date.On.Moment) + m.beside(date.Session.From)
	v.Dates = append(v.Dates, DateLine{text, m.nameOf(date), m.standing(date)})
	if date.Family.Rule.Freq != repeat.Once || len(date.Family.Rule.Extra) > 0 {
		m.addGiven(v, date, text)
	}
	if date.On.Kind == repeat.Regular && date.Family.Rule.Freq != repeat.Once {
		v.Choices = append(v.Choices, Option{date.On.Of.String(), text, v.Typed["day"] == date.On.Of.String()})
	}
}

func (m *maker) movedText(move repeat.Move) string {
	day := arg("day", m.v.ShortDay(move.From))
	if move.To.Day == move.From {
		return m.v.Say("dates.moved.time", day, arg("time", m.v.Clock(move.To.At.HourMinute())))
	}
	return m.v.Say("dates.moved", day, arg("to", m.moment(move.To)))
}

// moment writes a day and a time where room is scarce: Fri, Apr 23, 10:30.
func (m *maker) moment(at repeat.Moment) string {
	return m.v.Say("day.time", arg("day", m.v.ShortDay(at.Day)), arg("time", m.v.Clock(at.At.HourMinute())))
}

// DutyPage makes the page of a duty.
func DutyPage(v DutyView) string { return dutyPage(&v) }

// WhoView asks who has a duty that every plan has.
type WhoView struct {
	Voice    guide.Voice
	Fragment string
	Calls    Calls
	Path     string
	Calendar string // the path of the page that makes a file of it
	Title    string
	When     string
	Who      string
	Helpers  []string
	Problem  string

	Hint              string // of staying with the patient: that it has parts
	Other, OtherTitle string // of one part: the page for all of it
}

// WhoPage makes that page.
func WhoPage(v WhoView) string { return whoPage(&v) }

// CalendarView is the page on which a calendar file is made.
type CalendarView struct {
	Voice    guide.Voice
	Fragment string
	Calls    Calls
	Whose    []Option
	Alarm    []Option
	Steps    bool
	Part     bool   // of one helper's part: whose is no question, and the patient's steps are not in it
	Ready    string // the name of the file that was just made
	Empty    bool   // there was nothing to put into one
}

// CalendarPage makes the page.
func CalendarPage(v CalendarView) string { return calendarPage(&v) }

// ImportView is the page on which a calendar file is read, and what was found in it.
type ImportView struct {
	Voice    guide.Voice
	Fragment string
	Calls    Calls
	Problem  string
	Text     string // the file that was read; it is sent again to take it over
	Read     bool
	Found    []ImportRow
	Own      []string // how many entries need nothing, and why
	Look     []string // what to look at in what can be put in
	Left     []string // what cannot
}

// ImportRow is one duty that was found.
type ImportRow struct {
	Title, Rule, Place, Note string
	Known                    string // it changes a duty of the plan
}

// ImportPage makes the page.
func ImportPage(v ImportView) string { return importPage(&v) }

// NewImportRow says what was found.
func NewImportRow(v guide.Voice, p *plan.Plan, d *plan.Duty) ImportRow {
	row := ImportRow{Title: v.DutyTitle(d), Rule: v.Rule(d.Rule, guide.Things(d.Kind)), Place: d.Place, Note: d.Note}
	if known := p.Duty(d.ID); d.ID != 0 && known != nil {
		row.Known = v.Say("import-page.known", arg("what", v.DutyTitle(known)))
		if d.Dropped {
			row.Known += " " + v.Say("import-page.dropped")
		}
	}
	return row
}
