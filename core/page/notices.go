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

// movesMost is how many moves are shown at once; the rest can be unfolded.
const movesMost = 4

// MovesNotice lists what a change of the plan moved, from when to when: the duties
// first, since people have to be somewhere for them.
//
// ok is false where there is nothing to tell.
func MovesNotice(v guide.Voice, before, after *schedule.Schedule) (n Notice, ok bool) {
	moves := schedule.Moves(before, after)
	lines := make([]string, 0, len(moves))
	for _, m := range moves {
		lines = append(lines, moveLine(v, &after.Plan, m))
	}
	lines = append(lines, familyChanges(v, &before.Plan, &after.Plan)...)
	if len(lines) == 0 {
		return n, false
	}
	n = Notice{ID: "moved", MoreTitle: v.Say("moved.more"), Acts: []Act{{Path: "/read", Button: v.Say("moved.ok")}}}
	if was, is := before.Plan.Surgery, after.Plan.Surgery; was != is {
		n.Text = v.Say("moved.surgery", arg("before", v.Day(was)), arg("after", v.Day(is))) + " "
	}
	n.Text += v.Count("moved.count", len(lines)) + ". " + v.Say("moved.how")
	if before.Plan.Surgery != after.Plan.Surgery && len(after.Series) > 0 {
		// They were agreed with a clinic or with each other; nobody but the family can move them.
		n.Text = v.Say("moved.family") + " " + n.Text
	}
	most := min(len(lines), movesMost)
	n.Lines, n.More = lines[:most], lines[most:]
	return n, true
}

// familyChanges lists what is different about the family's duties: one line for a
// rule, not one for each of its dates.
func familyChanges(v guide.Voice, before, after *plan.Plan) []string {
	var lines []string
	for i := range after.Duties {
		d := &after.Duties[i]
		what, rule := arg("what", v.DutyTitle(d)), arg("rule", v.Rule(d.Rule, guide.Things(d.Kind)))
		one := arg("what", v.Say("changed.which", what, arg("rule", v.RuleShort(d.Rule)))) // two may have one title
		was := before.Duty(d.ID)
		isNew := was == nil || was.Dropped
		switch {
		case isNew && d.Dropped:
		case isNew:
			lines = append(lines, v.Say("changed.new", what, rule))
		case d.Dropped:
			lines = append(lines, v.Say("changed.gone", one))
		case !was.SameTimes(*d):
			lines = append(lines, v.Say("changed.rule", what, rule))
		case before.Helper(was.Who) != after.Helper(d.Who):
			lines = append(lines, whoLine(v, one, after.Helper(d.Who)))
		case was.Place != d.Place || was.Note != d.Note || was.Title != d.Title:
			lines = append(lines, v.Say("changed.words", one))
		}
	}
	for i := range before.Duties {
		if d := &before.Duties[i]; !d.Dropped && after.Duty(d.ID) == nil {
			lines = append(lines, v.Say("changed.gone", arg("what", v.DutyTitle(d))))
		}
	}
	for i, id := range plan.BuiltIn {
		if who := after.Helper(after.Cover[i]); before.Helper(before.Cover[i]) != who {
			lines = append(lines, whoLine(v, arg("what", v.Entry(id, "", v.Fills(after, 0, 0)...).Title), who))
		}
	}
	return lines
}

func whoLine(v guide.Voice, what guide.Arg, who string) string {
	if who == "" {
		return v.Say("changed.nobody", what)
	}
	return v.Say("changed.who", what, arg("who", who))
}

func moveLine(v guide.Voice, p *plan.Plan, m schedule.Move) string {
	e := v.Entry(m.ID, m.Variant, v.Fills(p, m.N, m.Of)...)
	what := arg("what", e.Title)
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
