package page

import (
	"sort"

	"newel/core/guide"
	"newel/core/schedule"
	"newel/core/split"
)

// SuggestView is the page of a proposal, a form in which each line can be left out.
type SuggestView struct {
	Voice    guide.Voice
	Fragment string
	Calls    Calls
	Anew     bool
	Digest   string // tells proposals apart, so that only the one that was read is accepted
	Said     string // what to know first: that it is not the one that was read before, or nothing was ticked
	Title    string
	Groups   []SuggestGroup
	Lines    int // dates in all groups
	Loads    []LoadLine
	Open     []SplitGroup // what stays open
	Changes  []string     // what would cover more
	Proof    []string     // whether it is the best there is
	Rules    []string     // what counts
	Moved    string       // how many dates that somebody has would change hands
	Long     []string     // who would be there for more than a day without a break
	Over     []string     // who would have more than they offered, and all together
}

// SuggestGroup is the dates of one duty that one helper would get.
type SuggestGroup struct {
	N       int // its box is named g and this number
	Title   string
	Rule    string
	To      string // whom it is suggested for, instead of whom, and how many dates that is
	Because string
	Lines   []SuggestLine
	Others  []string // why not the others

	key    groupKey
	others []otherReason
}

type groupKey struct {
	series   string
	to, from uint8
}

// SuggestLine is one date of a group; its box is named l and its place in the proposal.
type SuggestLine struct {
	N          int
	When, Note string
}

// Ticked are the places in the proposal of the lines of a group whose boxes were sent: each
// its own, and that of the group where it has one.
func (g *SuggestGroup) Ticked(sent map[string]string) []int {
	var lines []int
	for _, l := range g.Lines {
		if sent["l"+number(l.N)] != "" && (len(g.Lines) == 1 || sent["g"+number(g.N)] != "") {
			lines = append(lines, l.N)
		}
	}
	return lines
}

// SuggestInput is what the page is made from.
type SuggestInput struct {
	Input
	Proposal *split.Proposal
	Scope    split.Scope
	Digest   string
	Said     string
}

// NewSuggestView makes the view of a proposal.
func NewSuggestView(in SuggestInput) SuggestView {
	m := newMaker(in.Input)
	p := in.Proposal
	v := SuggestView{
		Voice: m.v, Fragment: in.Fragment, Calls: m.calls(), Anew: in.Scope == split.Anew, Digest: in.Digest, Said: in.Said,
		Title: m.v.Say("suggest.title"), Lines: len(p.Lines), Loads: m.loads(p.Loads, p.Lines, true),
	}
	if v.Anew {
		v.Title = m.v.Say("suggest.title.anew")
	}
	for i := range p.Lines {
		m.addLine(&v, i, &p.Lines[i])
	}
	for i := range v.Groups {
		m.finish(&v.Groups[i], i)
	}
	for _, i := range p.Open {
		d := &m.s.Duties[i]
		v.Open = m.addTo(v.Open, "open", d, "")
	}
	m.count(v.Open, "split.stays-open")
	for _, c := range p.Changes {
		v.Changes = append(v.Changes, m.change(c))
	}
	v.Proof, v.Rules = m.proof(p), m.rulesOfSplit()
	if moved := changeHands(p.Lines); moved > 0 {
		v.Moved = m.v.Count("suggest.moved", moved)
	}
	v.Long, v.Over = m.longStays(p.Lines), m.overOffer(p.Loads)
	return v
}

// changeHands counts the dates that somebody has today, able or not, and would no longer have.
func changeHands(lines []split.Line) int {
	n := 0
	for i := range lines {
		if lines[i].From != 0 {
			n++
		}
	}
	return n
}

// SuggestPage makes the page.
func SuggestPage(v SuggestView) string { return suggestPage(&v) }

// addLine puts a line to the others of its duty and helper.
func (m *maker) addLine(v *SuggestView, n int, l *split.Line) {
	d := &m.s.Duties[l.Duty]
	key := groupKey{seriesKey(d), l.To, l.From}
	line := SuggestLine{N: n, When: m.whenOf(d)}
	because := m.because(l)
	at := -1
	for i := range v.Groups {
		if v.Groups[i].key == key {
			at = i
		}
	}
	if at < 0 {
		title, rule := m.seriesName(d)
		v.Groups = append(v.Groups, SuggestGroup{Title: title, Rule: rule, Because: because, key: key})
		at = len(v.Groups) - 1
	}
	g := &v.Groups[at]
	if because != g.Because {
		line.Note = because
	}
	g.Lines = append(g.Lines, line)
	for _, o := range l.Others {
		g.addOther(o.Who, m.other(d, o))
	}
}

// because says why a date is suggested for somebody: its most telling reason.
func (m *maker) because(l *split.Line) string {
	if l.To == 0 {
		return m.v.Say("because.nobody", arg("who", m.p.Helper(l.From)))
	}
	if len(l.Because) == 0 {
		return ""
	}
	key := map[split.Because]string{
		split.OnlyOne: "because.only", split.HasSeries: "because.series", split.Would: "because.would",
		split.HasLess: "because.less", split.IsFree: "because.free", split.OthersBusy: "because.busy", split.BestWhole: "because.whole",
	}[l.Because[0]]
	return m.v.Say(key, arg("who", m.p.Helper(l.To)))
}

// otherReason is why somebody else does not get some dates, and how many.
type otherReason struct {
	who  uint8
	text string
	n    int
}

// other says why somebody else does not get a date.
func (m *maker) other(d *schedule.Duty, o split.Other) string {
	if len(o.Why) == 0 {
		return m.v.Say("other.could", arg("who", m.p.Helper(o.Who)))
	}
	why := m.reason(d, o.Who, o.Why[0])
	switch o.Why[0].Why {
	case split.NotThen: // an example of when they can would be another for each date
		return m.v.Say("why.not-then", arg("who", m.p.Helper(o.Who)))
	case split.NoCar, split.NoSteady, split.NoPets: // what is said of a duty names nobody
		why = m.v.Say("other.not", arg("who", m.p.Helper(o.Who)), arg("why", why))
	}
	return why
}

func (g *SuggestGroup) addOther(who uint8, text string) {
	for i := range g.others {
		if g.others[i].who == who && g.others[i].text == text {
			g.others[i].n++
			return
		}
	}
	g.others = append(g.others, otherReason{who, text, 1})
}

// othersMost is how many sentences stand about the others of one group.
const othersMost = 12

// finish writes what a group says once all its dates are in it.
func (m *maker) finish(g *SuggestGroup, n int) {
	g.N = n
	g.To = m.name(g.key.to)
	if g.key.from != 0 && g.key.to != 0 {
		g.To = m.v.Say("suggest.instead", arg("who", g.To), arg("other", m.p.Helper(g.key.from)))
	}
	if len(g.Lines) > 1 {
		g.To = m.v.Say("suggest.dates", arg("who", g.To), arg("dates", m.v.Count("load.dates", len(g.Lines))))
	}
	sort.SliceStable(g.others, func(i, j int) bool { return g.others[i].who < g.others[j].who })
	for i, o := range g.others {
		if i == othersMost {
			g.Others = append(g.Others, m.v.Count("next.more", len(g.others)-othersMost))
			break
		}
		if o.n < len(g.Lines) {
			o.text = m.v.Say("other.dates", arg("what", o.text), arg("dates", m.v.Count("load.dates", o.n)))
		}
		g.Others = append(g.Others, o.text)
	}
}

// rulesOfSplit says in plain sentences what the split goes by.
func (m *maker) rulesOfSplit() []string {
	return []string{
		m.v.Say("suggest.rule.cover"), m.v.Say("suggest.rule.fair"), m.v.Say("suggest.rule.same"),
		m.v.Say("suggest.rule.rather"), m.v.Say("suggest.rule.night"), m.v.Say("suggest.rule.way"), m.v.Say("suggest.rule.untold"),
	}
}
