package page

import (
	"newel/core/guide"
	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/zone"
)

// clockNotices say what is odd about the plan's clock: an arrival in an hour that
// is skipped or repeated, and a device in another zone.
func (m *maker) clockNotices() []Notice {
	var all []Notice
	hour, minute := m.p.Arrival.HourMinute()
	at := guide.Arg{Name: "time", Value: m.v.Time(m.s.Arrival)}
	switch {
	case m.s.Arrival.IsZero():
	case m.s.Fit == zone.Skipped:
		wanted := guide.Arg{Name: "wanted", Value: m.v.Clock(hour, minute)}
		all = append(all, Notice{ID: "skipped", Text: m.v.Say("arrival.skipped", wanted, at)})
	case m.s.Fit == zone.Repeated:
		all = append(all, Notice{ID: "repeated", Text: m.v.Say("arrival.repeated", at)})
	}
	if m.differs(m.Now) || m.differs(m.s.Arrival) {
		all = append(all, Notice{ID: "zone", Text: m.v.Say("zone.other", guide.Arg{Name: "zone", Value: m.p.Zone})})
	}
	return all
}

// MovesNotice lists what a change of the plan moved, from when to when.
func MovesNotice(v guide.Voice, p *plan.Plan, moves []schedule.Move) Notice {
	n := Notice{ID: "moved", Acts: []Act{{Path: "/read", Button: v.Say("moved.ok")}}}
	n.Text = v.Count("moved.count", len(moves)) + ". " + v.Say("moved.how")
	for _, m := range moves {
		n.Lines = append(n.Lines, moveLine(v, p, m))
	}
	return n
}

func moveLine(v guide.Voice, p *plan.Plan, m schedule.Move) string {
	e := v.Entry(m.ID, m.Variant, v.Fills(p, m.N, m.Of)...)
	args := []guide.Arg{{Name: "what", Value: e.Title}}
	if m.Before != nil {
		args = append(args, guide.Arg{Name: "before", Value: when(v, *m.Before)})
	}
	if m.After != nil {
		args = append(args, guide.Arg{Name: "after", Value: when(v, *m.After)})
	}
	switch {
	case m.Before == nil:
		return v.Say("moved.added", args...)
	case m.After == nil:
		return v.Say("moved.gone", args...)
	}
	return v.Say("moved.line", args...)
}

func when(v guide.Voice, w schedule.When) string {
	day := v.ShortDay(w.Day)
	if w.Time.IsZero() {
		return day
	}
	return v.Say("day.time", guide.Arg{Name: "day", Value: day}, guide.Arg{Name: "time", Value: v.Time(w.Time)})
}
