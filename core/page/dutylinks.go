package page

import "newel/core/schedule"

// dutyLinks says who has a duty, and leads to where that and more is changed. In one
// helper's part all duties are theirs, and nothing is changed.
func (m *maker) dutyLinks(r *Row, d *schedule.Duty) {
	if d.Family != nil {
		r.How, r.Sides, r.Why = nil, nil, "" // they stand once: on the duty's own page, or below the days
	}
	if m.reads {
		return
	}
	r.Who = m.holder(d)
	switch {
	case d.IsSlot():
		r.AskWho = "/who/" + d.Slot.Name()
	case d.Family == nil:
		r.AskWho = "/who/" + d.ID
	default:
		r.Open = dutyPath(d.Family.ID)
	}
}

// needs adds to a note which time is missing, and why.
func (m *maker) needs(d *schedule.Duty, note string) string {
	switch d.Needs {
	case schedule.NeedsRide:
		key := "duty.needs-ride"
		if m.reads {
			key = "duty.needs-drive" // nobody can put it in here
		}
		return note + " " + m.v.Say(key)
	case schedule.NeedsArrival:
		return m.v.Say("duty.needs-arrival")
	case schedule.NeedsDrive:
		return m.v.Say("duty.needs-drive")
	}
	return note
}

// ownLeave says when whoever has one of the duties that every plan has leaves their own home,
// which may be at five in the morning. Where it is not settled who has it nothing is said.
func (m *maker) ownLeave(d *schedule.Duty) []Fact {
	own := d.OwnLeave()
	if own.IsZero() || !m.Now.Before(d.There.From) || m.unsettled(d) != nil {
		return nil
	}
	f := m.fact("duty.own-leave.you", m.timeOn(d.Day, own), own)
	if who := m.s.Who(d); !m.reads && (m.Me == 0 || m.Me != who) {
		f.Label, f.key = m.v.Say("duty.own-leave", arg("who", m.p.Helper(who))), "duty.own-leave"
	}
	return []Fact{f}
}

// firstSlot tells whether a duty is the first part of staying with the patient.
func (m *maker) firstSlot(d *schedule.Duty) bool {
	for i := range m.s.Duties {
		if first := &m.s.Duties[i]; first.IsSlot() {
			return dutyID(first) == dutyID(d)
		}
	}
	return false
}
