package page

import (
	"time"

	"newel/core/schedule"
	"newel/core/split"
	"newel/core/wall"
)

// fromThere gives a duty as it is for somebody who is at the patient's home anyway when they
// would leave their own for it: without the own way. Help there has no time to leave then, and
// a ride begins at the patient's home. All else gives d itself. d is one of m.s.Duties.
//
// An untrue time to leave is the worst that the page can say; one that is too early only costs
// time. So the own way falls away only where another duty of the same helper is sure to have
// brought them there.
func (m *maker) fromThere(d *schedule.Duty) *schedule.Duty {
	if !m.alreadyThere(d) {
		return d
	}
	own := time.Duration(d.Own) * time.Minute
	at := *d
	at.Own = 0
	switch {
	case d.Family == nil: // its Leave is the patient's home's already
	case d.Kind == schedule.Help:
		at.Leave = time.Time{}
	default:
		at.Leave = d.Leave.Add(own)
		at.Trip.Leave, at.Trip.Own = at.Trip.Leave.Add(own), 0
	}
	return &at
}

// alreadyThere tells whether whoever has a duty is at the patient's home at the time at which
// they would leave their own.
func (m *maker) alreadyThere(d *schedule.Duty) bool {
	who, leave := m.s.Who(d), ownLeaveOf(d)
	if who == 0 || leave.IsZero() || elsewhere(d) || !m.sure(d, d.Branch) {
		return false
	}
	const daysBack wall.Date = 2 // a night began the day before
	there := false
	needed := leave.Add(time.Duration(d.Own) * time.Minute)
	for i := range m.s.Duties {
		c := &m.s.Duties[i]
		if c == d || c.Day > d.Day || c.Day < d.Day-daysBack || m.s.Who(c) != who {
			continue
		}
		if away := awayFor(c); away.From.Before(needed) && away.To.After(leave) {
			return false // they come from somewhere else
		}
		s := atHomeFor(c)
		there = there || s.Known() && !s.From.After(leave) && !s.To.Before(leave) && m.sure(c, d.Branch)
	}
	return there
}

// ownLeaveOf is when whoever has a duty would leave their own home; zero where they have no way
// or it is not known.
func ownLeaveOf(d *schedule.Duty) time.Time {
	if d.Family != nil && d.Own > 0 {
		return d.Leave
	}
	return d.OwnLeave()
}

// sure tells whether a duty is certain to be done by whoever has it, in a branch of the stay.
func (m *maker) sure(d *schedule.Duty, b schedule.Branch) bool {
	if d.Branch != b && m.branch(d.Branch) != "" || m.unsettled(d) != nil {
		return false
	}
	f := m.finding(d)
	return f == nil || f.State != split.Cannot // nil: it is over
}

// elsewhere tells whether a duty is neither at the patient's home nor begins there.
func elsewhere(d *schedule.Duty) bool {
	return d.Family != nil && !d.Family.Kind.IsRide() && d.Family.Place != ""
}

// atHomeFor is the time for which a duty holds its helper and at whose end they are at the
// patient's home, its earliest end; zero where it does not end there, or nobody knows when.
func atHomeFor(d *schedule.Duty) schedule.Span {
	switch {
	case d.Needs != schedule.Nothing, elsewhere(d):
		return schedule.Span{}
	case d.Kind == schedule.Stay, d.Kind == schedule.Help:
		return schedule.Span{From: d.There.To, To: d.Ends.From}
	case d.Gap.Known():
		return schedule.Span{From: d.Gap.To, To: d.Home.From}
	case d.Kind == schedule.Drive && d.Home.Known() && !d.Open:
		return schedule.Span{From: d.Leave, To: d.Home.From}
	}
	return schedule.Span{}
}

// awayFor is the time for which a duty takes its helper to somewhere else without bringing them
// back to the patient's home: their own home during an appointment, another place, the hospital.
func awayFor(d *schedule.Duty) schedule.Span {
	switch {
	case d.Gap.Known():
		return d.Gap
	case elsewhere(d), d.Kind == schedule.Wait, d.Kind == schedule.Drive && d.Family == nil && !d.Homeward:
		from := d.Leave
		if from.IsZero() {
			from = d.There.From
		}
		return schedule.Span{From: from, To: d.Free}
	}
	return schedule.Span{}
}
