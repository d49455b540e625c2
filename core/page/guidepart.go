package page

import (
	"slices"
	"strconv"
	"strings"

	"newel/core/guide"
	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/wall"
)

// chapterPart makes what one column of chapters.txt names; ok is false where this plan has
// nothing of it.
func (m *maker) chapterPart(held guide.Part) (part ChapterPart, ok bool) {
	switch held.Kind {
	case "list":
		l := m.list(held.Name)
		wordsOnce(&l)
		part = ChapterPart{ID: "list-" + held.Name, Title: m.v.Say("guide.list"), List: &l}
		if held.Name == "eat" {
			part.Fast = m.fastClock("fast")
		}
		return part, len(l.Groups) > 0
	case "duty":
		return m.dutyPart(held.Name)
	case "times":
		return m.timesPart(held.Name)
	case "stages":
		return ChapterPart{ID: "stages", Title: m.v.Say("guide.stages"), Rows: m.stageRows()}, true
	case "limits":
		return limitsPart(m.v, m.p), true
	case "signs":
		c := m.clots()
		return ChapterPart{ID: "clots", Title: c.Title, Clots: &c}, true
	}
	panic("page: chapters.txt holds what no code shows: " + held.Kind)
}

// wordsOnce leaves the words of what comes several times, such as the washes, with the first
// of them: they stand open here, and five times the same would bury the others.
func wordsOnce(l *List) {
	for _, g := range l.Groups {
		for i := 1; i < len(g.Rows); i++ {
			r := &g.Rows[i]
			same := func(before Row) bool {
				return before.Tick != nil && r.Tick != nil && before.Line == nil && before.Tick.Code == r.Tick.Code &&
					slices.Equal(before.How, r.How) && slices.Equal(before.Sides, r.Sides) && before.Why == r.Why
			}
			if slices.ContainsFunc(g.Rows[:i], same) {
				r.How, r.Sides, r.Why = nil, nil, ""
			}
		}
	}
}

// timesPart lists all that has its time on a day, so that whoever reads one chapter misses
// nothing of it; the words stand in the chapter of each.
func (m *maker) timesPart(day string) (part ChapterPart, ok bool) {
	n, err := strconv.Atoi(day)
	if err != nil {
		panic("page: chapters.txt: times: needs a day, not " + day)
	}
	part = ChapterPart{ID: "times", Title: m.v.Say("guide.times")}
	if n == 0 {
		part.Rail = m.dayRail("day-rail")
	}
	for _, r := range m.rowsOn(m.p.Surgery + wall.Date(n)) {
		if r.Kind == "stage" || r.Time == "" && r.Label == "" {
			continue
		}
		r.ID, r.Due, r.How, r.Sides, r.Why, r.Facts, r.Sum, r.Note = "time-"+r.ID, "", nil, nil, "", nil, nil, ""
		part.Rows = append(part.Rows, r)
	}
	return part, len(part.Rows) > 0
}

// rowsOn gives the rows of a day, past or to come.
func (m *maker) rowsOn(date wall.Date) []Row {
	var v View
	m.fillDays(&v)
	for _, days := range [][]Day{v.Past, v.Days} {
		for i := range days {
			if days[i].date == date {
				return days[i].Rows
			}
		}
	}
	return nil
}

// limitsPart is what the hospital says about movements. None is ever assumed.
func limitsPart(v guide.Voice, p *plan.Plan) ChapterPart {
	part := ChapterPart{ID: "limits", Title: v.Say("list.limits")}
	for _, l := range plan.LinesOf(p, plan.Limits) {
		part.Lines = append(part.Lines, l.In(v.Language))
	}
	if len(part.Lines) == 0 {
		part.Note = v.Say("guide.no-limits")
	}
	return part
}

// dutyPart shows a duty that every plan has, or a kind of family duty: its words once, and
// its dates.
func (m *maker) dutyPart(id string) (part ChapterPart, ok bool) {
	part.ID = "guide-" + id
	for kind, key := range plan.DutyKeys {
		if key == id {
			m.familyPart(&part, plan.DutyKind(kind))
			// Where the nights are parts of staying with the patient, there is none to put in.
			covered := plan.DutyKind(kind) == plan.Nights && len(part.Family) == 0 && len(m.s.Presence()) > 0
			return part, !covered
		}
	}
	for i := range m.s.Duties {
		d := &m.s.Duties[i]
		if d.Family != nil || d.ID != id {
			continue
		}
		if part.Title == "" {
			e := m.v.Duty(m.p, d)
			part.Title, part.Text = m.v.Entry(id, "", m.v.Fills(m.p, 0, 0)...).Title, m.text(e)
		}
		part.Rows = append(part.Rows, m.datedRow(d))
	}
	return part, part.Title != ""
}

// datedRow shows one date of a duty whose words stand above.
func (m *maker) datedRow(d *schedule.Duty) Row {
	r := m.dutyRow(d)
	r.How, r.Sides, r.Why = nil, nil, ""
	r.Due = m.v.Day(d.Day)
	if d.Family == nil && !d.IsSlot() { // the heading has its title
		r.Title, r.Due = r.Due, ""
	}
	return r
}

// datesMost is how many of the coming dates of a kind of family duty the guide shows with
// their times; the others stand in the days and on each duty's own page.
const datesMost = 3

// familyPart lists the family's duties of a kind, and the next dates of them.
func (m *maker) familyPart(part *ChapterPart, kind plan.DutyKind) {
	key := plan.DutyKeys[kind]
	e := m.v.Entry(key, "", m.v.Fills(m.p, 0, 0)...)
	part.Title, part.Text = e.Title, m.text(e)
	for i := range m.s.Series {
		if series := &m.s.Series[i]; series.Duty.Kind == kind {
			part.Family = append(part.Family, m.familyDuty(series))
		}
	}
	for i := range m.s.Duties {
		d := &m.s.Duties[i]
		if d.Family != nil && d.Family.Kind == kind && d.Session.To.After(m.Now) && len(part.Rows) < datesMost {
			part.Rows = append(part.Rows, m.datedRow(d))
		}
	}
	if len(part.Family) == 0 && !m.reads {
		part.Note, part.New = m.v.Say("guide.no-duty"), "/duty/new/"+key
	}
}

// Clots is the card of the signs of a clot, which stays in view for weeks.
type Clots struct {
	Title, Until string // Until is empty without a plan
	Lines        []ClotLine
	Phones       []OfficePhone // of the office, where there is more to say of them than the number
	Why          string
}

// ClotLine is one sign, with whom to call for it.
type ClotLine struct {
	Text string
	Call Tel
	Now  bool // for an ambulance
}

// clots makes the card, and says until which day it counts.
func (m *maker) clots() Clots {
	c := newClots(m.calls())
	until := m.p.Surgery + wall.Date(m.p.Program.Get(plan.ClotDays))
	c.Until = m.v.Say("clots.until", arg("day", m.v.Day(until)))
	return c
}

// newClots reads the card out of the signs. A sign whose words name the emergency number is
// for that number, each other one for the office.
func newClots(c Calls) Clots {
	out := Clots{Title: c.Signs.Clots.Title, Why: c.Signs.Clots.Why}
	for _, line := range c.Signs.Clots.How {
		sign := ClotLine{Text: line.Text, Call: c.Phone, Now: strings.Contains(line.Text, c.Signs.Number)}
		if sign.Now {
			sign.Call = c.Dial
		}
		out.Lines = append(out.Lines, sign)
	}
	if len(c.Office) > 1 || len(c.Office) == 1 && c.Office[0].Hours != "" {
		out.Phones = c.Office
	}
	return out
}

// clotCard is the card on the plan's page: from the day of surgery on, for as many days as
// the program says (35 by ACCP 2012, from memory); nil before and after.
func (m *maker) clotCard() *Clots {
	after := int(m.today - m.p.Surgery)
	if after < 0 || after > m.p.Program.Get(plan.ClotDays) {
		return nil
	}
	c := m.clots()
	return &c
}
