package page

import (
	"newel/core/guide"
	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/schedule"
	"newel/core/split"
)

// SplitView is the page that says who does what and whether it can work.
type SplitView struct {
	Voice    guide.Voice
	Fragment string
	Calls    Calls
	Notices  []Notice
	Cover    Cover
	Grid     *CoverGrid   // nil: nothing is to come
	Open     []SplitGroup // what nobody has
	Clash    []SplitGroup // what somebody has who cannot do it
	Gaps     []string     // when nobody is with the patient
	GapTitle string
	Loads    []LoadLine
	Helpers  bool   // there is somebody who could be given something
	Fill     string // the button that fills what is open at once; empty: a notice has it, or nothing is open
}

// SplitGroup is the dates of one duty that have something in common.
type SplitGroup struct {
	ID    string
	Title string
	Rule  string // tells duties with one name apart
	Path  string // where who has it is said
	Count string
	Lines []SplitLine
}

// SplitLine is one date with what is to be said of it.
type SplitLine struct{ When, Note string }

// Folded tells whether the dates stand behind a fold: where they are more than a glance.
func (g *SplitGroup) Folded() bool { return len(g.Lines) > 3 }

// NewSplitView makes the view of the page, with the weeks that come so many times two weeks
// after the first; a number beyond the plan's weeks is taken for the nearest.
func NewSplitView(in Input, turn int) SplitView {
	m := newMaker(in)
	v := SplitView{
		Voice: m.v, Fragment: in.Fragment, Calls: m.calls(), Notices: in.Notices, Cover: m.cover(), Grid: m.grid(turn),
		Loads: m.loads(m.report().Loads, nil, false), Helpers: m.anybody(),
		GapTitle: m.v.Say("split.gaps", arg("name", m.v.Patient(m.p))),
	}
	for _, f := range m.report().Findings {
		switch d := &m.s.Duties[f.Duty]; f.State {
		case split.Open:
			v.Open = m.addTo(v.Open, "open", d, "")
		case split.Cannot:
			if needsSomebody(&f) {
				v.Open = m.addTo(v.Open, "open", d, m.standing(d))
			} else {
				v.Clash = m.addTo(v.Clash, "clash", d, m.standing(d))
			}
		}
	}
	if _, open, cannot := m.standings(); in.Fills && len(in.Notices) == 0 {
		v.Fill = m.v.Count("open.fill", open+cannot)
	}
	m.count(v.Open, "split.open")
	m.count(v.Clash, "split.clash")
	for _, g := range m.report().Gaps {
		v.Gaps = append(v.Gaps, m.gap(g))
	}
	return v
}

// SplitPage makes the page.
func SplitPage(v SplitView) string { return splitPage(&v) }

// anybody tells whether there is a helper who has not dropped out.
func (m *maker) anybody() bool {
	for i := range m.p.Helpers {
		if !m.p.AboutOf(uint8(i + 1)).Out {
			return true
		}
	}
	return false
}

// addTo puts a date to the others of its duty.
func (m *maker) addTo(groups []SplitGroup, prefix string, d *schedule.Duty, note string) []SplitGroup {
	id := prefix + "-" + seriesKey(d)
	line := SplitLine{When: m.whenOf(d), Note: note}
	for i := range groups {
		if groups[i].ID == id {
			groups[i].Lines = append(groups[i].Lines, line)
			return groups
		}
	}
	title, rule := m.seriesName(d)
	return append(groups, SplitGroup{ID: id, Title: title, Rule: rule, Path: m.whoPath(d), Lines: []SplitLine{line}})
}

func (m *maker) count(groups []SplitGroup, key string) {
	for i := range groups {
		groups[i].Count = m.v.Count(key, len(groups[i].Lines))
	}
}

// seriesKey tells the duties apart of which dates are the dates: part of an id.
func seriesKey(d *schedule.Duty) string {
	if d.Family != nil {
		return "f" + number(int(d.Family.ID))
	}
	if d.IsSlot() {
		return d.ID + "-" + number(int(d.Slot.Part()))
	}
	return d.ID
}

// seriesName is what a duty is called, with its rule where that tells two of one name apart.
func (m *maker) seriesName(d *schedule.Duty) (title, rule string) {
	if d.Family != nil {
		title = m.v.DutyTitle(d.Family)
		if d.Family.Rule.Freq != repeat.Once {
			rule = m.v.RuleShort(d.Family.Rule)
		}
		return title, rule
	}
	return m.v.Duty(m.p, d).Title, ""
}

// whoPath leads to where it is said who has a duty.
func (m *maker) whoPath(d *schedule.Duty) string {
	if d.Family != nil {
		return dutyPath(d.Family.ID)
	}
	return "/who/" + d.ID
}

// gap says when nobody is with the patient.
func (m *maker) gap(g split.Gap) string {
	text := m.shortSpan(g.From, g.To)
	if g.Must {
		text = m.v.Say("split.gap.must", arg("when", text), guide.Number("hours", m.p.Program.Get(plan.StayWithHours)))
	}
	return m.inBranch(m.branch(g.Branch), text)
}
