package page

import (
	"strings"
	"time"

	"newel/core/guide"
	"newel/core/picture"
	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/wall"
)

// Row is one line of a day: a duty, a step, a stage of the hospital day, or a list
// that is due.
type Row struct {
	ID     string // of the element
	Kind   string // duty, step, stage or gathered
	State  string // past, now, ahead, or late: past and not done
	Label  string // before the time: "leave home by"
	Time   string // empty: no time of day
	ISO    string // the same for machines, where it is one time
	Yours  string // the same on the device's clock, where that differs
	Title  string
	Link   string // an id on the page that has more
	Open   string // the path of a page that has more
	Who    string // the helper who has a duty
	AskWho string // the path of the page that asks for them
	For    string // whom a step is for, where it is the patient
	Branch string
	Due    string // in lists: when
	Facts  []Fact
	Note   string
	Sum    []Fact
	How    []guide.Line
	Sides  []Fact // the helper's part of it and the patient's, where they differ
	Why    string
	Tick   *Tick
	Number int      // of its post in a picture; 0: none
	Line   *OwnLine // of the family's or the hospital's own lines; nil for what is ours

	label  string            // the key of Label, where it may be asked for
	cannot string            // the key of what to say of whoever has it and cannot do it; empty: they can
	series string            // of duties on many days: what it is one date of
	family bool              // one of the family's duties
	order  int               // 0 before the timed rows of a day, 1 timed, 2 after them
	spot   picture.HomePlace // where in the home it is done
	place  int               // among rows without times: where in the day, see dutyPlace
	at     time.Time         // for sorting
	until  time.Time         // when it is over
	list   string
	day    wall.Date // when it is due
}

// describes tells whether the row has an element that says when, which its box then
// names as its description: heard without it, "Stop drinking" would say too little.
func (r *Row) describes() bool {
	return r.Label != "" || r.State == "late" || strings.HasPrefix(r.ID, "item-") && r.Due != ""
}

// Fact is a label with a value.
type Fact struct {
	Label, Value, Yours string

	key string // of the label's word, where it may be asked for: in another language two labels can be one word
}

// Tick is the box of a step that can be done.
type Tick struct {
	Code, N int
	Line    uint32 // of an own line; the two above are 0 then
	Done    bool
}

func (m *maker) fact(label string, value string, t time.Time) Fact {
	return Fact{Label: m.v.Say(label), Value: value, Yours: m.theirs(t), key: label}
}

// stepRow shows a step. The prefix keeps the ids of one step on several parts of
// the page apart.
func (m *maker) stepRow(prefix string, s *schedule.Step) Row {
	e := m.words(s)
	r := Row{
		ID: prefix + stepMark(s), Kind: "step", Title: e.Title, How: e.How, Sides: sides(m.v, e, m.v.Patient(m.p)), Why: e.Why, Line: m.ownLine(s.Line),
		Due: m.due(s), list: s.List, day: s.Last, at: s.Until, until: s.Until,
	}
	if s.Who == schedule.Patient {
		r.For = m.v.Say("who.patient", arg("name", m.v.Patient(m.p)))
	}
	switch s.Due {
	case schedule.AtTime:
		r.order, r.label, r.Label, r.Time = 1, "label.by", m.v.Say("label.by"), m.v.Time(s.Until)
		if s.BeforeLeaving {
			r.label, r.Label = "label.before-leaving", m.v.Say("label.before-leaving")
		}
		r.ISO, r.Yours = s.Until.Format(time.RFC3339), m.theirs(s.Until)
	case schedule.Through:
		if wall.DateOf(s.From) < m.today { // under way: what counts now is how long
			r.Label, r.Time = m.v.Say("label.until"), m.v.ShortDayTime(s.Until)
			r.ISO, r.Yours, r.at = s.Until.Format(time.RFC3339), m.theirs(s.Until), time.Time{}
			break
		}
		r.order, r.at = 1, s.From
		r.Label, r.Time = m.v.Say("label.from"), m.v.Time(s.From)
		r.ISO, r.Yours = s.From.Format(time.RFC3339), m.theirs(s.From)
	}
	if s.Evening {
		r.Label = m.v.Say("label.evening")
	}
	if !s.Around.IsZero() && r.order == 0 {
		r.order, r.at = 1, s.Around
	}
	if r.until.IsZero() {
		r.until = s.Over
	}
	if s.AtHospital {
		r.place = placeHospital
	}
	if s.List == "eat" && s.Due == schedule.AtTime { // a time of ours, and theirs may differ
		r.Note = m.v.Say("team-first")
	}
	if where := m.p.Program.Texts[plan.CheckIn]; where != "" && s.ID == "check-in" {
		r.Note = m.v.Say("there.check-in", arg("where", where))
	}
	if s.Once() {
		r.Tick = &Tick{Code: int(s.Code), N: s.N, Done: s.Done(m.p)}
		if s.Line != nil {
			r.Tick.Line = s.Line.ID
		}
	}
	last := s.Last
	if s.Due == schedule.Onward {
		last = max(m.today, s.First)
	}
	first := s.First
	if s.Due == schedule.Undated {
		first, last = m.today+1, m.today+1 // it is never past by itself
	}
	m.setState(&r, first, last)
	if s.First >= m.p.Surgery && (s.Due == schedule.Daily || s.Due == schedule.Onward) && !m.recovered() {
		r.State = "ahead" // not before the patient is out of recovery
	}
	return r
}

// words gives the wording of a step with its numbers.
func (m *maker) words(s *schedule.Step) guide.Entry {
	e, ok := m.said[s]
	if !ok {
		e = m.sayStep(s)
		m.said[s] = e
	}
	return e
}

func (m *maker) sayStep(s *schedule.Step) guide.Entry {
	if s.Line != nil {
		return guide.Entry{Title: s.Line.In(m.v.Language)}
	}
	return m.v.Entry(s.ID, s.Variant, append(m.v.Fills(m.p, s.N, s.Of),
		arg("heavy", m.v.Time(m.s.Fasting.HeavyStop)), arg("early", m.v.Time(m.s.EarlyArrival())))...)
}

// due says in few words when a step of a list is due.
func (m *maker) due(s *schedule.Step) string {
	day := m.v.ShortDay(s.First)
	switch s.Due {
	case schedule.Undated:
		return ""
	case schedule.ByDay:
		return m.v.Say("label.due", arg("day", day))
	case schedule.AtTime:
		key := "due-at.by"
		if s.BeforeLeaving {
			key = "due-at.leaving"
		}
		return m.v.Say(key, arg("when", m.v.ShortDayTime(s.Until)))
	case schedule.Through:
		return m.v.Say("span.days", arg("from", m.v.ShortDayTime(s.From)), arg("to", m.v.ShortDayTime(s.Until)))
	case schedule.Onward:
		return m.v.Until(s.ID)
	}
	if s.Last != s.First {
		return m.v.Say("span.days", arg("from", day), arg("to", m.v.ShortDay(s.Last)))
	}
	if s.Evening {
		return m.v.Say("due-at.evening", arg("day", day))
	}
	return day
}

// setState tells where a row stands against now.
func (m *maker) setState(r *Row, first, last wall.Date) {
	switch {
	case last < m.today || !r.until.IsZero() && r.until.Before(m.Now):
		r.State = "past"
	case first <= m.today && (r.at.IsZero() || !r.at.After(m.Now)):
		r.State = "now"
	default:
		r.State = "ahead"
	}
	if r.Tick != nil && r.Tick.Done {
		r.State = "past"
	}
}

// stageRows shows the hospital day as it usually goes.
func (m *maker) stageRows() []Row {
	var rows []Row
	show := func(id string, s schedule.Span) {
		r := Row{
			ID: "stage-" + id, Kind: "stage", Label: m.v.Say("usually"), Time: m.v.Span(s.From, s.To),
			Title: m.v.Say("stage." + id), Yours: m.theirSpan(s), order: 1, at: s.From, until: s.To,
		}
		if s.Single() {
			r.ISO, r.Label = s.From.Format(time.RFC3339), m.v.Say("usually.about")
		}
		m.setState(&r, wall.DateOf(s.From), wall.DateOf(s.To))
		rows = append(rows, r)
	}
	for _, s := range m.s.Stages {
		switch s.ID {
		case "ready":
			show("ready", schedule.Span{From: s.Begins.From, To: s.Ends.To})
		case "surgery":
			show("surgery.begins", s.Begins)
			show("surgery.ends", s.Ends)
		case "recovery":
			show("recovery.ends", s.Ends)
		}
	}
	if len(rows) == 0 {
		r := Row{ID: "stage-unknown", Kind: "stage", State: "ahead", Title: m.v.Durations(m.p), place: placeHospital}
		m.setState(&r, m.p.Surgery, m.p.Surgery)
		return []Row{r}
	}
	rows[len(rows)-1].Note = m.v.Say("stage.note")
	return rows
}
