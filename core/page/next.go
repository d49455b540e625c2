package page

import (
	"slices"
	"sort"
	"time"

	"newel/core/guide"
	"newel/core/plan"
	"newel/core/wall"
)

// Next is the head of the page: the next drive with its leave-by time in large
// type, and what is to be done before it.
type Next struct {
	Lead    *Row    // the duty to go to next, or to be at now
	LeadDay string  // the day of it
	who     uint8   // who has it, as in schedule.Schedule.Who
	Urgent  string  // it is past the time to leave, or to be there
	Sooner  []Block // what comes before that duty: on a rail, order is time
	Blocks  []Block
	Stay    string // somebody is staying with the patient now, and until when
	Text    string // where nothing is next

	AskArrival string // how and when the arrival time will be known; empty: it is
	AskDrive   bool
	AskFacts   bool
}

// Block is a few things to do under one heading.
type Block struct {
	Title string
	Rows  []Row
	More  string // how many more there are, where that is so
	None  string // that there is nothing, in place of rows
	timed bool   // each row has a time, and they are in its order
}

// blockMost is how many lines a block shows, and soonerMost one that stands before the next
// drive, so that its time is on the first screen of a phone. What has a time is always shown.
const (
	blockMost  = 4
	soonerMost = 2
)

// soon is how far ahead the times are that stand at the head of the page: from
// the evening before to the end of the surgery morning.
const soon = 20 * time.Hour

func (m *maker) next(v *View) Next {
	n := Next{
		AskDrive: m.ahead() && (m.p.Drive == plan.Unknown || m.p.Parking == plan.Unknown),
		AskFacts: m.today < m.p.Surgery-1 && !m.p.Facts.Has(plan.HomeAnswered),
	}
	if m.s.Arrival.IsZero() && m.ahead() {
		n.AskArrival = m.askArrival()
	}
	m.leadDuty(&n)
	n.Blocks = m.blocks(v, &n)
	n.Sooner, n.Blocks = m.beforeLead(&n)
	n.Stay = m.staying()
	if n.Lead == nil && (m.recovered() || len(n.Blocks) == 0) {
		n.Text = m.afterText()
	}
	if n.Lead != nil && !n.Lead.family && n.Lead.at.Before(m.s.Arrival) {
		v.Arrival = "" // it stands with the drive
		if rowsOf(n.Sooner) > soonerMost && !m.reads && !m.another(&n) && n.Lead.Time != "" {
			// The drive is below the first screen of a phone. Somebody else's stands with their name alone.
			v.Arrival = n.Lead.Label + " " + n.Lead.Time
		}
	}
	return n
}

// rowsOf counts the rows of blocks.
func rowsOf(blocks []Block) (n int) {
	for i := range blocks {
		n += len(blocks[i].Rows)
	}
	return n
}

// beforeLead divides the blocks at the duty to go to next: all come before it where it is on a
// day after tomorrow, else what has an earlier time, or the same one: that is what is done before leaving.
func (m *maker) beforeLead(n *Next) (sooner, later []Block) {
	switch {
	case n.Lead == nil:
		return nil, n.Blocks
	case n.Lead.day > m.today+1:
		return n.Blocks, nil
	}
	for _, b := range n.Blocks {
		early := b
		early.Rows = slices.DeleteFunc(slices.Clone(b.Rows), func(r Row) bool { return !b.timed || r.at.After(n.Lead.at) })
		b.Rows = b.Rows[len(early.Rows):] // they are in order
		if len(early.Rows) > 0 {
			early.More = ""
			sooner = append(sooner, early)
		}
		if len(b.Rows) > 0 || b.None != "" {
			later = append(later, b)
		}
	}
	return sooner, later
}

func (m *maker) ahead() bool { return m.today <= m.p.Surgery }

// askArrival says when the hospital calls, and what to do if it does not.
func (m *maker) askArrival() string {
	hospital := m.hospital()
	first, eve := m.s.CallDays()
	switch {
	case m.today > eve:
		return m.v.Say("ask.arrival.day", arg("hospital", hospital))
	case m.today == eve:
		return m.v.Say("ask.arrival.eve", arg("hospital", hospital))
	case first != eve:
		return m.v.Say("ask.arrival.weekend", arg("day", m.v.Day(eve)))
	}
	return m.v.Say("ask.arrival.how", arg("day", m.v.Day(eve)))
}

func (m *maker) afterText() string {
	clots, hardest := m.p.Program.Get(plan.ClotDays), m.p.Program.Get(plan.HardestDays)
	switch after := int(m.today - m.p.Surgery); {
	case after > clots:
		return m.v.Say("next.over", guide.Number("days", clots))
	case after > hardest:
		return m.v.Say("next.later")
	case after >= 0:
		return m.v.Say("next.after")
	}
	return m.v.Say("next.nothing")
}

// hospital is whom to call, with the numbers where they are known.
func (m *maker) hospital() string {
	hospital := m.v.Say("ask.arrival.hospital")
	if phone := m.v.PhoneText(&m.p.Program); phone != "" {
		hospital += " (" + phone + ")"
	}
	return hospital
}

// recovered tells whether the days after surgery have begun for the patient.
func (m *maker) recovered() bool {
	for i := range m.s.Stages {
		if st := &m.s.Stages[i]; st.ID == "recovery" {
			return !m.Now.Before(st.Ends.From)
		}
	}
	return m.today > m.p.Surgery
}

// blocks are: the times of the coming hours, soonest first; what else is open
// today; what is overdue; tomorrow; or else the first day that has anything open. A time is
// never crowded out by a chore.
func (m *maker) blocks(v *View, n *Next) []Block {
	var blocks []Block
	most := blockMost
	if n.Lead != nil && n.Lead.day > m.today+1 {
		most = soonerMost
	}
	add := func(title string, rows []Row, most int) {
		if len(rows) == 0 {
			return
		}
		b := Block{Title: title, Rows: rows}
		if len(rows) > most {
			b.Rows, b.More = rows[:most], m.v.Count("next.more", len(rows)-most)
		}
		blocks = append(blocks, b)
	}
	timed := m.soonRows(v)
	elsewhere := timed
	isLead := func(r Row) bool { return n.Lead != nil && "next-"+r.ID == n.Lead.ID }
	if n.Lead != nil {
		timed = slices.DeleteFunc(slices.Clone(timed), isLead)
		elsewhere = append(elsewhere, rowsThat(v.Days, isLead)...)
	}
	add(m.v.Say("next.soon"), timed, len(timed))
	for i := range blocks {
		blocks[i].timed = true
	}
	for i := range v.Days {
		if v.Days[i].Today {
			add(m.v.Say("near.today"), without(openRows(v.Days[i].Rows), elsewhere), most)
		}
	}
	if m.today < m.p.Surgery {
		add(m.v.Say("days.overdue"), openRows(v.Overdue), most)
	}
	tomorrow := openOn(v, m.today+1)
	add(m.v.Near(m.today+1), without(slices.Clone(tomorrow), elsewhere), most)
	if len(tomorrow) == 0 && m.today+1 < m.p.Surgery {
		blocks = append(blocks, Block{Title: m.v.Near(m.today + 1), None: m.v.Say("next.none")})
	}
	addFirst := func(days []Day) {
		for i := 0; len(blocks) == 0 && i < len(days); i++ {
			add(m.v.Near(days[i].date), without(openRows(days[i].Rows), elsewhere), blockMost)
		}
	}
	near := len(v.Days)
	addFirst(v.Days)
	if len(blocks) == 0 && m.fillFar != nil {
		m.fillFar()
		elsewhere = append(elsewhere, rowsThat(v.Days[near:], isLead)...)
		addFirst(v.Days[near:])
	}
	if m.recovered() {
		add(m.v.Say("days.daily"), lasting(v.Daily), blockMost)
	}
	return blocks
}

// lasting are the rows that are kept up and still hold.
func lasting(rows []Row) []Row {
	return slices.DeleteFunc(slices.Clone(rows), func(r Row) bool { return r.State == "past" })
}

// soonRows are the open steps with a time within the coming hours. One on another
// day says so.
func (m *maker) soonRows(v *View) []Row {
	var rows []Row
	for i := range v.Days {
		for _, r := range openRows(v.Days[i].Rows) {
			if r.Time == "" || r.at.Sub(m.Now) > soon || r.at.Before(m.Now) {
				continue
			}
			if day := wall.DateOf(r.at); day != m.today {
				r.Label = m.v.Near(day) + " " + r.Label
			}
			rows = append(rows, r)
		}
	}
	sort.SliceStable(rows, func(i, j int) bool { return rows[i].at.Before(rows[j].at) })
	return rows
}

// rowsThat are the rows of days for which is is true.
func rowsThat(days []Day, is func(Row) bool) []Row {
	var rows []Row
	for i := range days {
		for _, r := range days[i].Rows {
			if is(r) {
				rows = append(rows, r)
			}
		}
	}
	return rows
}

// without leaves out the rows that stand elsewhere already.
func without(rows, gone []Row) []Row {
	return slices.DeleteFunc(rows, func(r Row) bool {
		return slices.ContainsFunc(gone, func(g Row) bool { return g.ID == r.ID })
	})
}

// openOn are the open rows of a day.
func openOn(v *View, day wall.Date) []Row {
	for i := range v.Days {
		if v.Days[i].date == day {
			return openRows(v.Days[i].Rows)
		}
	}
	return nil
}

// openRows are the steps and lists that can be done and are neither done nor past.
func openRows(rows []Row) []Row {
	var open []Row
	for _, r := range rows {
		if (r.Tick != nil || r.Kind == "gathered" || r.family) && r.State != "past" {
			open = append(open, r)
		}
	}
	return open
}

// staying says that somebody stays with the patient now, in the hours in which somebody has
// to.
func (m *maker) staying() string {
	for _, p := range m.s.Presence() {
		until := m.s.MustLeast(p)
		if p.Must.From.IsZero() || m.Now.Before(p.Must.From) || m.Now.After(until) {
			continue
		}
		key := "next.stay"
		if p.Open {
			key = "next.stay.open"
		}
		said := m.v.Say(key, arg("name", m.v.Patient(m.p)), arg("until", m.v.ShortDayTime(until)))
		if branch := m.branch(p.Branch); branch != "" {
			said = branch + ": " + said
		}
		return said
	}
	return ""
}
