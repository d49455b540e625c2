package page

import (
	"strings"

	"newel/core/guide"
	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/wall"
	"newel/core/zone"
)

// Notice is a thing to know before reading on, with what can be done about it.
type Notice struct {
	ID        string
	Text      string // its paragraphs, a line each
	Lines     []string
	More      []string // behind a fold, under MoreTitle
	MoreTitle string
	Acts      []Act
	Open      string // the fragment of a plan, that a link under OpenTitle leads to
	OpenPath  string // which of its pages, below the buttons; empty: the plan itself, above them
	OpenTitle string
	Question  bool          // its buttons are answers
	Unsure    string        // whom to ask before answering
	Phones    []OfficePhone // and their numbers
	Then      string        // what is asked next
}

func (n *Notice) paragraphs() []string { return strings.Split(n.Text, "\n") }

// Act is one button of a notice: a form with its path, and what it sends.
type Act struct {
	Path, Button string
	Fields       []Hidden
}

// firstDay is before the first day on which anybody can have had this page: 2026-11-01.
const firstDay wall.Date = 20758

// behind says before all else that the device's clock is surely wrong: then so is every "today" below.
func (m *maker) behind() []Notice {
	if m.v.Today >= firstDay {
		return nil
	}
	return []Notice{{ID: "behind", Text: m.v.Say("clock.behind", arg("day", m.v.DayYear(m.v.Today)))}}
}

// clockNotices say what is odd about the plan's clock: an arrival in an hour that
// is skipped or repeated, and a device in another zone.
func (m *maker) clockNotices() []Notice {
	var all []Notice
	hour, minute := m.p.Arrival.HourMinute()
	at := arg("time", m.v.Time(m.s.Arrival))
	switch {
	case m.s.Arrival.IsZero():
	case m.s.Fit == zone.Skipped:
		wanted := arg("wanted", m.v.Clock(hour, minute))
		all = append(all, Notice{ID: "skipped", Text: m.v.Say("arrival.skipped", wanted, at)})
	case m.s.Fit == zone.Repeated:
		all = append(all, Notice{ID: "repeated", Text: m.v.Say("arrival.repeated", at)})
	}
	if m.differs(m.Now) || m.differs(m.s.Arrival) {
		all = append(all, Notice{ID: "zone", Text: m.v.Say("zone.other", arg("zone", m.p.Zone))})
	}
	return all
}

// RangesNotice asks about ranges of the hospital's rules whose ends were changed by two
// people so that the least is more than the most.
func RangesNotice(v guide.Voice, p *plan.Plan) []Notice {
	n := Notice{ID: "ranges", Text: v.Say("ranges.how"), Acts: []Act{{Path: "/facts", Button: v.Say("facts.change")}}}
	for _, ends := range plan.Ranges {
		if p.Program.Get(ends.Min) > p.Program.Get(ends.Max) {
			turned := plan.Problem{Code: plan.RangeTurned}
			n.Lines = append(n.Lines, v.Problem(turned, v.Say("rule."+plan.Rules[ends.Min].Key), ""))
		}
	}
	if len(n.Lines) == 0 {
		return nil
	}
	return []Notice{n}
}

func moveLine(v guide.Voice, p *plan.Plan, m schedule.Move) string {
	what := arg("what", "")
	if m.Line != nil {
		what.Value = m.Line.In(v.Language)
	} else {
		what.Value = v.Entry(m.ID, m.Variant, v.Fills(p, m.N, m.Of)...).Title
	}
	switch {
	case m.Before == nil:
		return v.Say("moved.added", what, arg("after", when(v, *m.After)))
	case m.After == nil:
		return v.Say("moved.gone", what)
	case m.Before.Day == m.After.Day && !m.Before.Time.IsZero() && !m.After.Time.IsZero():
		return v.Say("moved.same-day", what, arg("day", v.ShortDay(m.After.Day)),
			arg("before", v.Time(m.Before.Time)), arg("after", v.Time(m.After.Time)))
	}
	return v.Say("moved.line", what, arg("before", when(v, *m.Before)), arg("after", when(v, *m.After)))
}

func when(v guide.Voice, w schedule.When) string {
	if w.Time.IsZero() {
		return v.ShortDay(w.Day)
	}
	return v.ShortDayTime(w.Time)
}
