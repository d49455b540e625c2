package page

import (
	"strings"

	"newel/core/guide"
	"newel/core/schedule"
	"newel/core/split"
)

// Cover is in one line how far what has to be done has somebody.
type Cover struct {
	Line  string
	Clash string // how many have somebody who cannot
	Gap   string // when nobody is with the patient, the first of such times
}

// Lines are the parts that say something.
func (c *Cover) Lines() []string {
	var all []string
	for _, text := range []string{c.Line, c.Clash, c.Gap} {
		if text != "" {
			all = append(all, text)
		}
	}
	return all
}

// cover counts what is to come. Nothing is said of a plan without duties.
func (m *maker) cover() Cover {
	r := m.report()
	have, all := r.Count[split.Covered]+r.Count[split.Untold], len(r.Findings)
	if all == 0 {
		return Cover{}
	}
	c := Cover{Line: m.v.Say("cover.some", guide.Number("n", have), guide.Number("all", all))}
	if have == all {
		c.Line = m.v.Count("cover.all", all)
	}
	if n := r.Count[split.Cannot]; n > 0 {
		c.Clash = m.v.Count("cover.clash", n)
	}
	if gaps := wholeGaps(r.Gaps); len(gaps) > 0 {
		first := arg("when", m.inBranch(m.branch(gaps[0].Branch), m.shortSpan(gaps[0].From, gaps[0].To)))
		c.Gap = m.v.Say("cover.gap", first, arg("name", m.v.Patient(m.p)))
		if more := len(gaps) - 1; more > 0 {
			c.Gap = m.v.Count("cover.gaps", more, first, arg("name", m.v.Patient(m.p)))
		}
	}
	return c
}

// wholeGaps puts gaps together that follow each other without a break: the hours that must
// be end within one.
func wholeGaps(all []split.Gap) []split.Gap {
	var whole []split.Gap
	for _, g := range all {
		if last := len(whole) - 1; last >= 0 && whole[last].Branch == g.Branch && whole[last].To.Equal(g.From) {
			whole[last].To = g.To
			continue
		}
		whole = append(whole, g)
	}
	return whole
}

// OpenNotice says how many dates need somebody, with the button that fills them; ok is
// false where all have somebody who can, or nobody is there to be given any. from is the
// page on which it stands, "split" or "".
func OpenNotice(in Input, from string) (n Notice, ok bool) {
	m := newMaker(in)
	r := m.report()
	need := r.Count[split.Open] + r.Count[split.Cannot]
	if need == 0 || !m.anybody() {
		return n, false
	}
	lines := m.outLines()
	switch {
	case len(lines) == 0 && from == "split":
		return n, false // the page says it itself
	case len(lines) == 0:
		lines = append(lines, m.v.Count("open.need", need))
	case need > m.outDates():
		lines = append(lines, m.v.Count("open.all", need))
	}
	return Notice{
		ID: "open", Text: strings.Join(lines, "\n"),
		Acts: []Act{{Path: "/split/fill", Button: m.v.Count("open.fill", need), Fields: []Hidden{{"from", from}}}},
	}, true
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

// outLines says of each helper who is out what that leaves open.
func (m *maker) outLines() []string {
	var lines []string
	dates := m.datesOf()
	for i := range m.p.Helpers {
		if who := uint8(i + 1); m.p.AboutOf(who).Out && dates[who] > 0 {
			lines = append(lines, m.outLine(who, dates[who]))
		}
	}
	return lines
}

// outDates counts the dates of helpers who are out.
func (m *maker) outDates() int {
	n := 0
	for who, dates := range m.datesOf() {
		if m.p.AboutOf(who).Out {
			n += dates
		}
	}
	return n
}

// FilledNotice says what was done with one tap, and offers to undo it: before is the
// schedule of the plan before.
func FilledNotice(in Input, before *schedule.Schedule, from string) Notice {
	m := newMaker(in)
	took := m.took(before)
	n := Notice{ID: "filled", MoreTitle: m.v.Say("filled.stays-open")}
	var parts []string
	total := 0
	for i := range m.p.Helpers {
		if k := took[uint8(i+1)]; k > 0 {
			total += k
			parts = append(parts, m.v.Say("filled.takes", arg("who", m.p.Helper(uint8(i+1))), guide.Number("n", k)))
		}
	}
	n.Text = m.v.Say("filled.nothing")
	fields := []Hidden{{"from", from}}
	if total > 0 {
		n.Text = m.v.Count("filled.done", total, arg("who", m.v.List(parts)))
		n.Acts = append(n.Acts, Act{Path: "/split/undo", Button: m.v.Say("filled.undo"), Fields: fields})
	}
	n.Acts = append(n.Acts, Act{Path: "/split/fine", Button: m.v.Say("filled.fine"), Fields: fields})
	m.stillOpen(&n)
	return n
}

// took counts the dates that each helper has now and did not have before.
func (m *maker) took(before *schedule.Schedule) map[uint8]int {
	was := map[string]string{}
	for i := range before.Duties {
		d := &before.Duties[i]
		was[dutyID(d)] = before.Plan.Helper(before.Who(d))
	}
	took := map[uint8]int{}
	for _, f := range m.report().Findings {
		if had, here := was[dutyID(&m.s.Duties[f.Duty])]; here && had != m.p.Helper(f.Who) {
			took[f.Who]++
		}
	}
	return took
}

// stillOpenMost is how many dates without anybody are listed before the fold.
const stillOpenMost = 3

// stillOpen lists the dates that still need somebody.
func (m *maker) stillOpen(n *Notice) {
	var open []string
	for _, f := range m.report().Findings {
		if f.State == split.Open || f.State == split.Cannot {
			d := &m.s.Duties[f.Duty]
			title, _ := m.seriesName(d)
			open = append(open, m.v.Say("filled.open", arg("what", title), arg("when", m.whenOf(d))))
		}
	}
	if len(open) == 0 {
		return
	}
	n.Text += "\n" + m.v.Count("filled.left", len(open))
	if len(open) <= stillOpenMost {
		n.Lines = open
		return
	}
	n.More = open
}
