package page

import (
	"time"

	"newel/core/schedule"
)

// leadDuty finds the drive that is next or, while the patient is in the hospital,
// the waiting for them; in one helper's part it is the next of all they do.
func (m *maker) leadDuty(n *Next) {
	for i := range m.s.Duties {
		d := &m.s.Duties[i]
		if d.There.From.IsZero() {
			if d.Kind == schedule.Drive && !d.Homeward && m.ahead() {
				return // no later time may stand large where the first one is not known
			}
			continue
		}
		switch {
		case m.reads && (d.Kind == schedule.Help || d.Kind == schedule.Stay) && m.Now.Before(d.There.From):
			m.leadWith(n, d) // in one helper's part whatever they do next; once it has begun what comes then
		case d.Kind == schedule.Drive && m.reachable(d):
			m.leadWith(n, d)
			if d.Family != nil {
				m.duringRide(n.Lead, d)
			}
		case d.Kind == schedule.Wait && m.arrived() && m.Now.Before(d.Ends.To):
			m.leadWith(n, d)
			n.Lead.Label, n.Lead.ISO = m.v.Say("next.recovery"), ""
			n.Lead.Time, n.Lead.Yours = m.v.Span(d.Ends.From, d.Ends.To), m.theirSpan(d.Ends)
			n.Lead.Facts = nil
		}
		if n.Lead != nil {
			m.urgent(n, m.fromThere(d))
			return
		}
	}
}

// duringRide shows what counts once the patient has been brought to an appointment: when
// to leave again to fetch them, or until when it goes.
func (m *maker) duringRide(r *Row, d *schedule.Duty) {
	switch {
	case !m.Now.After(d.There.From):
	case d.Gap.Known():
		r.Label, r.Time, r.ISO, r.Yours = m.v.Say("duty.leave-again"), m.timeOn(d.Day, d.Gap.To), d.Gap.To.Format(time.RFC3339), m.theirs(d.Gap.To)
	default:
		r.Label, r.Time, r.ISO, r.Yours = m.v.Say("duty.appointment"), m.spanOn(d.Day, d.Session), "", m.theirSpan(d.Session)
	}
}

func (m *maker) leadWith(n *Next, d *schedule.Duty) {
	row := m.dutyRow(d)
	row.ID, row.day, n.who = "next-"+row.ID, d.Day, m.s.Who(d)
	n.Lead, n.LeadDay = &row, m.v.Day(d.Day)
	if near := m.v.Near(d.Day); near != n.LeadDay {
		n.LeadDay = m.v.Say("lead.near", arg("near", near), arg("weekday", m.v.Weekday(d.Day)))
	}
}

// lateFor is how long after the arrival time somebody may still be on the way.
const lateFor = time.Hour

// urgent says what is pressing about the lead.
func (m *maker) urgent(n *Next, d *schedule.Duty) {
	there := d.There.From
	switch {
	case d.Open:
	case d.Gap.Known() && m.Now.After(there):
		if !m.Now.Before(d.Gap.To) {
			n.Urgent = m.onWay(n)
		}
	case d.Family != nil && m.Now.After(there):
		if m.Now.Before(d.Session.From) {
			n.Urgent = m.byNow(n)
		}
	case m.Now.After(there):
		if m.Now.Before(there.Add(lateFor)) {
			n.Urgent = m.byNow(n) + " " + m.v.Say("next.late", arg("hospital", m.hospital()))
		}
	case d.Kind == schedule.Drive && !d.Leave.IsZero() && !m.Now.Before(d.Leave):
		n.Urgent = m.onWay(n)
	}
}

// another tells whether the lead is somebody else's than the one's whose device it is.
func (m *maker) another(n *Next) bool { return m.Me != 0 && n.who != 0 && n.who != m.Me }

func (m *maker) onWay(n *Next) string {
	if m.another(n) {
		return m.v.Say("next.on-way.who", arg("who", m.p.Helper(n.who)))
	}
	return m.v.Say("next.on-way")
}

func (m *maker) byNow(n *Next) string {
	if m.another(n) {
		return m.v.Say("next.there.who", arg("who", m.p.Helper(n.who)))
	}
	return m.v.Say("next.there")
}

// reachable tells whether a duty is still ahead: its time to be there has not
// passed. The drive home on the same day stays next until the day is over or the
// checks for going home are ticked, since nobody knows its time.
func (m *maker) reachable(d *schedule.Duty) bool {
	if d.Open {
		return m.today <= d.Day && !m.checked()
	}
	if d.Family != nil {
		return m.Now.Before(d.Session.To)
	}
	if d.Homeward { // until they are home, or have passed the checks
		end := d.Ends.To
		if d.Home.Known() {
			end = d.Home.To
		}
		return m.Now.Before(end) && !m.checked()
	}
	return !d.There.From.Before(m.Now.Truncate(time.Minute))
}

// checked tells whether the four checks before going home are ticked. Papers, medicines and
// the car are on the same list, and keep nobody in the hospital.
func (m *maker) checked() bool {
	for i := range m.s.Steps {
		if s := &m.s.Steps[i]; s.List == "going" && s.Part == "checks" && !s.Done(m.p) {
			return false
		}
	}
	return true
}
