package page

import (
	"time"

	"newel/core/plan"
	"newel/core/schedule"
)

// Next is the head of the page: the next drive with its leave-by time in large
// type, and what is to be done before it.
type Next struct {
	Lead    *Row   // the next duty that needs going somewhere
	LeadDay string // the day of it
	OnWay   bool   // it is past the time to leave
	DoDay   string // the day of what is next to do; empty: it is overdue
	Do      []Row  // at most doMost of it
	More    string // how many more there are that day
	Text    string // where nothing is next

	AskArrival string // how and when the arrival time will be known; empty: it is
	AskDrive   bool
	AskFacts   bool
}

// doMost is how many lines stand under "to do next".
const doMost = 4

func (m *maker) next(v *View) Next {
	n := Next{
		AskDrive: m.ahead() && (m.p.Drive == plan.Unknown || m.p.Parking == plan.Unknown),
		AskFacts: m.ahead() && !m.p.Facts.Has(plan.HomeAnswered),
	}
	if m.s.Arrival.IsZero() && m.ahead() {
		n.AskArrival = m.v.Day(m.p.Surgery - 1)
	}
	m.leadDuty(&n)
	m.toDo(&n, v)
	if n.Lead == nil && len(n.Do) == 0 {
		n.Text = m.afterText()
	}
	return n
}

func (m *maker) ahead() bool { return m.today <= m.p.Surgery }

func (m *maker) afterText() string {
	switch days := m.p.Program.Get(plan.ClotDays); {
	case m.today > m.p.Surgery+plan.Date(days):
		return m.v.Say("next.over", daysArg(days))
	case m.today >= m.p.Surgery:
		return m.v.Say("next.after")
	}
	return m.v.Say("next.nothing")
}

// leadDuty finds the next duty that begins with a time to be somewhere.
func (m *maker) leadDuty(n *Next) {
	for i := range m.s.Duties {
		d := &m.s.Duties[i]
		if d.ID == "drive-there" && d.There.From.IsZero() && m.ahead() {
			return // no later time may stand large where the first one is not known
		}
		if d.ID == "wait" || d.ID == "stay-with" || d.There.From.IsZero() || !m.reachable(d) {
			continue
		}
		row := m.dutyRow(d)
		row.ID = "next-" + row.ID
		n.Lead, n.LeadDay = &row, m.v.Day(d.Day)
		if near := m.v.Near(d.Day); near != n.LeadDay {
			n.LeadDay = near + ", " + n.LeadDay
		}
		n.OnWay = !d.Leave.IsZero() && !m.Now.Before(d.Leave) && d.ID != "drive-home"
		return
	}
}

// reachable tells whether a duty is still ahead: its time to be there has not
// passed. The drive home on the same day stays next until it usually ends, since
// its time to be ready is only the earliest.
func (m *maker) reachable(d *schedule.Duty) bool {
	if d.ID == "drive-home" {
		return m.Now.Before(d.Ends.To)
	}
	return !d.There.From.Before(m.Now.Truncate(time.Minute))
}

// toDo takes what is overdue or, if nothing is, what is open on the first day that
// has anything open.
func (m *maker) toDo(n *Next, v *View) {
	if open := openRows(v.Overdue); len(open) > 0 {
		m.fillDo(n, "", open)
		return
	}
	for _, d := range v.Days {
		if open := openRows(d.Rows); len(open) > 0 {
			day := d.Heading
			if d.Today {
				day = m.v.Say("near.today")
			}
			m.fillDo(n, day, open)
			return
		}
	}
}

func (m *maker) fillDo(n *Next, day string, rows []Row) {
	n.DoDay = day
	if len(rows) > doMost {
		n.More = m.v.Count("next.more", len(rows)-doMost)
		rows = rows[:doMost]
	}
	n.Do = rows
}

// openRows are the steps and lists that are not done and not past.
func openRows(rows []Row) []Row {
	var open []Row
	for _, r := range rows {
		if (r.Kind == "step" || r.Kind == "gathered") && r.State != "past" {
			open = append(open, r)
		}
	}
	return open
}
