package page

import (
	"strings"

	"newel/core/guide"
	"newel/core/schedule"
	"newel/core/split"
)

// OpenNotice says how many dates need somebody, with the button that fills them, where that
// would fill any (Input.Fills), or the way to what would help; ok is false where all have
// somebody who can, or nobody is there to be given any. from is the page on which it stands,
// "split" or "".
func OpenNotice(in Input, from string) (n Notice, ok bool) {
	m := newMaker(in)
	_, open, cannot := m.standings()
	out, outDates := m.out()
	if open+cannot == 0 || !m.anybody() && len(out) == 0 {
		return n, false
	}
	n = Notice{ID: "open"}
	var lines []string
	for _, who := range out {
		lines = append(lines, m.outLine(who, m.datesOf()[who]))
	}
	switch {
	case len(out) == 0 && from == "split":
		return n, false // the page says it itself
	case len(out) == 0:
		lines = append(lines, m.needing("", open, m.v.Count("open.need", open), cannot))
	case open > outDates:
		lines = append(lines, m.needing("", open, m.v.Count("open.all", open), cannot))
	case cannot > 0:
		lines = append(lines, m.needing("", 0, "", cannot))
	}
	n.Text = strings.Join(lines, "\n")
	m.waysOn(&n, from, open+cannot)
	if m.Fills && len(out) == 0 {
		n.Then = m.v.Say("open.fill.hint")
	}
	for _, who := range out {
		n.Acts = append(n.Acts, m.backAct(who, from))
	}
	return n, true
}

// waysOn adds what can be done about dates without somebody who can: one tap, or, where that
// would fill none, a look at what would help, and to be asked no more.
func (m *maker) waysOn(n *Notice, from string, need int) {
	fields := []Hidden{{"from", from}}
	switch {
	case !m.anybody():
	case m.Fills:
		n.Acts = append(n.Acts, Act{Path: "/split/fill", Button: m.v.Count("open.fill", need), Fields: fields})
	case from != "split": // there it stands on the page
		m.whatHelps(n)
		n.Acts = append(n.Acts, Act{Path: "/split/fine", Button: m.v.Say("filled.close"), Fields: fields})
	}
}

// whatHelps adds the way to the smallest changes that would cover more.
func (m *maker) whatHelps(n *Notice) {
	n.Open, n.OpenPath, n.OpenTitle = m.Fragment, "/split/suggest", m.v.Say("open.help")
}

// backAct takes it back, right where it is said, that somebody can no longer help: it is one
// tap away from where their form is saved.
func (m *maker) backAct(who uint8, from string) Act {
	name := m.p.Helper(who)
	if from == "" {
		from = "plan"
	}
	return Act{Path: helperPath(who) + "/back", Button: m.v.Say("open.back", arg("who", name)), Fields: []Hidden{{"of", name}, {"from", from}}}
}

// OutSaid says what it leaves open that somebody can no longer help.
func OutSaid(in Input, who uint8) string {
	m := newMaker(in)
	return m.outLine(who, m.datesOf()[who])
}

// outLine is that somebody is out, with how many dates they have.
func (m *maker) outLine(who uint8, dates int) string {
	name := arg("who", m.p.Helper(who))
	if dates == 0 {
		return m.v.Say("helper.is-out", name)
	}
	return m.v.Count("helper.is-out.leaves", dates, name)
}

// out are the helpers who can no longer help and have dates, in the plan's order, and how many
// dates that is.
func (m *maker) out() (who []uint8, dates int) {
	all := m.datesOf()
	for i := range m.p.Helpers {
		if n := all[uint8(i+1)]; n > 0 && m.p.AboutOf(uint8(i+1)).Out {
			who = append(who, uint8(i+1))
			dates += n
		}
	}
	return who, dates
}

// FilledNotice says what was done with one tap, whom that asks for more than they offered, and
// offers to undo it: before is the schedule of the plan before.
func FilledNotice(in Input, before *schedule.Schedule, from string) Notice {
	m := newMaker(in)
	n := Notice{ID: "filled", MoreTitle: m.v.Say("filled.stays-open")}
	_, open, cannot := m.standings()
	took, total := m.took(before)
	fields := []Hidden{{"from", from}}
	button := "filled.fine"
	if total > 0 {
		n.Text = strings.Join(m.filled(took, total), "\n")
		n.Acts = append(n.Acts, Act{Path: "/split/undo", Button: m.v.Say("filled.undo"), Fields: fields})
	} else {
		n.Text, button = m.v.Count("filled.nothing", max(open+cannot, 1)), "filled.close"
	}
	n.Acts = append(n.Acts, Act{Path: "/split/fine", Button: m.v.Say(button), Fields: fields})
	if open+cannot > 0 {
		n.Text += "\n" + m.needing("", open, m.v.Count("filled.left", open), cannot)
		m.stillOpen(&n)
		m.whatHelps(&n)
	}
	return n
}

// filled says who is down for what was filled, and who has more than they offered with it.
func (m *maker) filled(took map[uint8]int, total int) []string {
	var names, over []string
	for i := range m.p.Helpers {
		if n := took[uint8(i+1)]; n > 0 {
			names = append(names, m.v.Say("filled.down", arg("who", m.p.Helper(uint8(i+1))), guide.Number("n", n)))
		}
	}
	for _, l := range m.report().Loads {
		if took[l.Who] > 0 && wellOver(l) {
			over = append(over, m.v.Say("filled.over", arg("who", m.p.Helper(l.Who)), arg("now", halves(l.After)), arg("offer", halves(l.Offer)), m.weeks()))
		}
	}
	said := []string{m.v.Count("filled.done", total, arg("who", strings.Join(names, ", ")))}
	if n := took[0]; n > 0 {
		said = append(said, m.v.Count("filled.given-back", n))
	}
	return append(said, over...)
}

// took counts the dates that each helper has now and did not have before, and all of them;
// under nobody those that were given back.
func (m *maker) took(before *schedule.Schedule) (took map[uint8]int, total int) {
	was := map[string]string{}
	for i := range before.Duties {
		d := &before.Duties[i]
		was[dutyID(d)] = before.Plan.Helper(before.Who(d))
	}
	took = map[uint8]int{}
	for _, f := range m.report().Findings {
		if had, here := was[dutyID(&m.s.Duties[f.Duty])]; here && had != m.p.Helper(f.Who) {
			if took[f.Who]++; f.Who != 0 {
				total++
			}
		}
	}
	return took, total
}

// stillOpenMost is how many dates without anybody are listed before the fold.
const stillOpenMost = 3

// stillOpen lists the dates that still need somebody, or have somebody who cannot.
func (m *maker) stillOpen(n *Notice) {
	var open []string
	for _, f := range m.report().Findings {
		if f.State == split.Open || f.State == split.Cannot {
			d := &m.s.Duties[f.Duty]
			title, _ := m.seriesName(d)
			open = append(open, m.v.Say("filled.open", arg("what", title), arg("when", m.whenOf(d))))
		}
	}
	if len(open) <= stillOpenMost {
		n.Lines = open
		return
	}
	n.More = open
}
