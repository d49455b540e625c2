package page

import (
	"strings"

	"newel/core/guide"
	"newel/core/split"
)

// Cover is in one line how far what has to be done has somebody.
type Cover struct {
	Line string // how many are covered, need somebody, and have somebody who cannot: together all
	Gap  string // when nobody is with the patient, the first of such times
	Near string // how many dates of the next two weeks need somebody, and the first
}

// Lines are the parts that say something.
func (c *Cover) Lines() []string {
	var all []string
	for _, text := range []string{c.Line, c.Gap} {
		if text != "" {
			all = append(all, text)
		}
	}
	return all
}

// cover counts what is to come. Nothing is said of a plan without duties.
func (m *maker) cover() Cover {
	have, open, cannot := m.standings()
	all := have + open + cannot
	if all == 0 {
		return Cover{}
	}
	c := Cover{Line: m.v.Count("cover.all", all), Near: m.nearGap()}
	if have < all {
		c.Line = m.needing(m.v.Count("cover.some", have, guide.Number("all", all)), open, m.v.Count("cover.need", open), cannot)
	}
	if len(m.p.Helpers) == 0 {
		c.Gap = m.v.Say("cover.no-helpers")
	} else if gaps := wholeGaps(m.report().Gaps); len(gaps) > 0 {
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

// standings counts the dates to come: those that are covered, those that need somebody, where
// nobody has them or somebody who can no longer help, and those that somebody has who cannot.
func (m *maker) standings() (covered, open, cannot int) {
	for i := range m.report().Findings {
		switch f := &m.report().Findings[i]; {
		case needsSomebody(f):
			open++
		case f.State == split.Cannot:
			cannot++
		default:
			covered++
		}
	}
	return covered, open, cannot
}

// needsSomebody tells whether nobody has a date, or somebody who can no longer help: it is as
// good as open then.
func needsSomebody(f *split.Finding) bool {
	return f.State == split.Open || f.State == split.Cannot && f.Why[0].Why == split.IsOut
}

// needing says behind a text how many dates need somebody, where any do, and how many have
// somebody who cannot.
func (m *maker) needing(text string, open int, said string, cannot int) string {
	if open > 0 {
		text += " " + said
	}
	switch {
	case cannot > 0 && text == "":
		text = m.v.Count("open.cannot", cannot)
	case cannot > 0:
		text += " " + m.v.Count("cover.cannot", cannot)
	}
	return strings.TrimSpace(text)
}
