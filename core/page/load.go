package page

import (
	"strconv"
	"strings"

	"newel/core/guide"
	"newel/core/picture"
	"newel/core/split"
)

// LoadLine is one helper with what they have.
type LoadLine struct {
	Path  string // of the page on which they say what they can do
	Name  string
	Dates string // how many they have
	Hours string // how much that is, of what they offered
	Note  string // nobody has asked them, or they can no longer help
	Over  string // by how much it is more than offered
	Me    bool
	Mark  picture.Person
	Bar   Bar
	Drawn picture.Bar
}

// Bar is a load as a drawing, all lengths in hundredths of its whole length. What it says
// stands beside it in numbers.
type Bar struct {
	Now   int // filled
	Was   int // a line where it was, -1: it is as it was
	Offer int // a line where the offer ends
}

// loads lists the helpers in the order of the plan, with what they have or, of a proposal,
// would have with its lines.
func (m *maker) loads(all []split.Load, lines []split.Line, proposal bool) []LoadLine {
	longest := 1.0 // the longest bar is the whole length; the lengths are in offers
	for _, l := range all {
		if l.Offer > 0 {
			longest = max(longest, float64(max(l.Before, l.After))/float64(l.Offer))
		}
	}
	dates := m.datesOf()
	for _, l := range lines {
		dates[l.From]--
		dates[l.To]++
	}
	var out []LoadLine
	for _, l := range all {
		line := LoadLine{
			Path: helperPath(l.Who), Name: m.p.Helper(l.Who), Me: l.Who == m.Me && l.Who != 0,
			Dates: m.v.Count("load.dates", dates[l.Who]), Hours: m.hours(l, proposal), Note: m.helperNote(l.Who),
		}
		line.Mark, line.Bar = m.markOf(l.Who), newBar(l, longest, proposal)
		line.Drawn = m.drawn(line.Bar, l, line.Mark)
		line.Over = m.overBy(l)
		out = append(out, line)
	}
	return out
}

func newBar(l split.Load, longest float64, proposal bool) Bar {
	at := func(minutes int) int {
		if l.Offer <= 0 { // whatever there is goes beyond the post
			return 100 * min(max(minutes, 0), 1)
		}
		return min(int(100*float64(minutes)/float64(l.Offer)/longest+0.5), 100)
	}
	b := Bar{Now: at(l.After), Was: -1, Offer: at(l.Offer)}
	if proposal && l.Before != l.After {
		b.Was = at(l.Before)
	}
	return b
}

// overBy says by how much somebody has more than they offered: the difference of the two numbers
// of hours that stand beside it.
func (m *maker) overBy(l split.Load) string {
	over := halfHours(l.After) - halfHours(l.Offer)
	switch {
	case over <= 0 || l.Offer <= 0:
		return ""
	case over == 1:
		return m.v.Say("covergrid.over.half")
	case over == 2:
		return m.v.Say("covergrid.over.hour")
	}
	return m.v.Say("covergrid.over", arg("hours", halves(over*30)))
}

// hours says how much somebody has, and had before a proposal.
func (m *maker) hours(l split.Load, proposal bool) string {
	now, offer, weeks := arg("now", halves(l.After)), arg("offer", halves(l.Offer)), m.weeks()
	if proposal && l.Before != l.After {
		return m.v.Say("load.before", arg("before", halves(l.Before)), now, offer, weeks)
	}
	return m.v.Say("load.hours", now, offer, weeks)
}

// wellOver tells whether a load is more than a tenth above the offer: the split gives or takes
// that much, and half an hour over is nothing to warn of.
func wellOver(l split.Load) bool { return l.After*10 > l.Offer*11 }

// overOffer says who would have more than they offered and, where it is more than all offered
// together, that no split can help.
func (m *maker) overOffer(loads []split.Load) []string {
	var said []string
	now, offer := 0, 0
	for _, l := range loads {
		if wellOver(l) && !m.p.AboutOf(l.Who).Out {
			said = append(said, m.v.Say("suggest.over", arg("who", m.p.Helper(l.Who)), arg("now", halves(l.After)), arg("offer", halves(l.Offer)), m.weeks()))
		}
		now += l.After
		if !m.p.AboutOf(l.Who).Out {
			offer += l.Offer
		}
	}
	if len(said) > 0 && now > offer {
		said = append(said, m.v.Say("suggest.together", arg("now", halves(now)), arg("offer", halves(offer))))
	}
	return said
}

// weeks is how long the time is that offers are counted for, as split.Look does: from the first
// to the last date that is not over, and a week at least.
func (m *maker) weeks() guide.Arg {
	days := 7
	if all := m.report().Findings; len(all) > 0 {
		days = max(days, int(m.s.Duties[all[len(all)-1].Duty].Day-m.s.Duties[all[0].Duty].Day)+1)
	}
	return arg("weeks", m.v.Count("load.weeks", (days+3)/7))
}

// halves writes minutes as hours, to the nearest half: more would not help to compare.
func halves(minutes int) string {
	n := halfHours(minutes)
	text := strconv.Itoa(n / 2)
	if n%2 == 1 {
		text = strings.TrimPrefix(text, "0") + "½"
	}
	return text
}

// halfHours rounds minutes to half hours; a few minutes are not nothing.
func halfHours(minutes int) int {
	if minutes > 0 && minutes < 15 {
		return 1
	}
	return (minutes + 15) / 30
}

// datesOf counts the dates to come by who has them.
func (m *maker) datesOf() map[uint8]int {
	dates := map[uint8]int{}
	for _, f := range m.report().Findings {
		dates[f.Who]++
	}
	return dates
}

// helperNote says what is not known of a helper, or that they are out.
func (m *maker) helperNote(who uint8) string {
	switch about := m.p.AboutOf(who); {
	case about.Out:
		return m.v.Say("helper.is-out.short")
	case !about.Told:
		return m.v.Say("helper.untold")
	}
	return ""
}

// report is what there is to say of who does what; it is worked out once for a page.
func (m *maker) report() *split.Report {
	if m.Report == nil {
		m.Report = split.Look(m.s, m.Now)
	}
	return m.Report
}

func helperPath(who uint8) string { return "/helper/" + number(int(who)) }

// inBranch names the stay that holds for something, with a colon, while it is not decided.
func (m *maker) inBranch(branch, text string) string {
	if branch == "" {
		return text
	}
	return m.v.Say("split.in-branch", arg("branch", branch), arg("what", text))
}
