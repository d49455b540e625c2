package page

import (
	"newel/core/schedule"
	"newel/core/split"
)

// MyPart is what the page says first to a helper who has said whose device it is.
type MyPart struct {
	Who   string
	Path  string // of the page on which they say what they can do
	Asked bool   // they have said so already
	Out   string // that they can no longer help
	Free  string // that today, tomorrow or both have nothing for them
	Days  []MyDay
	More  string // how many more there are than those days show
	Rest  []Row  // those, with their days as Due
	Wrong string // how many of all they cannot do
	Load  []LoadLine
	None  bool // they have nothing
}

// MyDay is a day with what a helper has on it.
type MyDay struct {
	Heading string
	Rows    []Row
}

// partMost is how many of somebody's own dates stand before the days.
const partMost = 5

// myPart is the part of the helper whose device it is; nil where that is nobody's.
func (m *maker) myPart() *MyPart {
	if m.Me == 0 || m.reads {
		return nil
	}
	about := m.p.AboutOf(m.Me)
	part := &MyPart{Who: m.p.Helper(m.Me), Path: helperPath(m.Me), Asked: about.Told}
	if about.Out {
		part.Out = m.v.Say("helper.is-out", arg("who", part.Who))
	}
	n := m.fillPart(part)
	part.Free = m.free()
	part.None = n == 0
	if n > partMost {
		part.More = m.v.Count("next.more", n-partMost)
	}
	for _, line := range m.loads(m.report().Loads, nil, false) {
		if line.Me {
			line.Me = false // the heading says it
			part.Load = append(part.Load, line)
		}
	}
	return part
}

// fillPart puts all dates of the helper whose device it is into their part, and counts them.
func (m *maker) fillPart(part *MyPart) (n int) {
	wrong := 0
	for i := range m.report().Findings {
		f := &m.report().Findings[i]
		if f.Who != m.Me {
			continue
		}
		d := &m.s.Duties[f.Duty]
		if n++; n <= partMost {
			part.add(m.v.Near(d.Day), m.mineRow(d))
		} else {
			row := m.mineRow(d)
			row.Due = m.v.ShortDay(d.Day)
			part.Rest = append(part.Rest, row)
		}
		if f.State == split.Cannot && !needsSomebody(f) {
			wrong++
		}
	}
	if wrong > 0 {
		part.Wrong = m.v.Count("mine.cannot", wrong)
	}
	return n
}

// free says of the helper whose device it is which of today and tomorrow have nothing for them.
// A date of which it is not settled whose it is may be theirs.
func (m *maker) free() string {
	today, tomorrow := true, true
	for i := range m.report().Findings {
		f := &m.report().Findings[i]
		d := &m.s.Duties[f.Duty]
		if f.Who == m.Me || m.unsettled(d) != nil {
			last := max(lastDay(d), d.Day)
			today = today && !(d.Day <= m.today && m.today <= last)
			tomorrow = tomorrow && !(d.Day <= m.today+1 && m.today+1 <= last)
		}
	}
	switch {
	case today && tomorrow:
		return m.v.Say("mine.free.both")
	case tomorrow:
		return m.v.Say("mine.free.tomorrow")
	}
	return ""
}

// partFirst tells whether somebody's own part stands before what is next: where that is
// somebody else's to do, so that nobody takes another's time to leave for their own.
func (m *maker) partFirst(v *View) bool {
	return v.Part != nil && len(v.Part.Days) > 0 && v.Next.Lead != nil && v.Next.who != 0 && v.Next.who != m.Me
}

// mineRow shows one of somebody's own dates: when, what, and what is wrong with it. All of it
// stands in its day, or on its own page.
func (m *maker) mineRow(d *schedule.Duty) Row {
	row := m.dutyRow(d)
	if row.Open == "" {
		row.Link = row.ID
	}
	row.ID, row.family = "mine-"+row.ID, false
	row.Who, row.AskWho, row.Facts, row.Sum, row.How, row.Sides, row.Why = "", "", nil, nil, nil, nil, ""
	return row
}

// add puts a date under its day.
func (p *MyPart) add(heading string, row Row) {
	if last := len(p.Days) - 1; last >= 0 && p.Days[last].Heading == heading {
		p.Days[last].Rows = append(p.Days[last].Rows, row)
		return
	}
	p.Days = append(p.Days, MyDay{heading, []Row{row}})
}
