package page

import (
	"newel/core/plan"
	"newel/core/schedule"
)

// NewWhoView makes the view of it for the duty with that id, or the part of staying with the
// patient with that name (plan.Slot.Name); ok is false where the plan has none.
func NewWhoView(in Input, id, problem string) (view WhoView, ok bool) {
	m := newMaker(in)
	view = WhoView{
		Voice: m.v, Fragment: in.Fragment, Calls: m.calls(), Path: "/who/" + id, Calendar: "/calendar/who/" + id,
		Helpers: m.p.Helpers, Problem: problem,
	}
	if slot, isSlot := plan.SlotNamed(id); isSlot {
		return m.slotWho(view, slot)
	}
	for i := range m.s.Duties {
		d := &m.s.Duties[i]
		if d.Family == nil && d.ID == id {
			view.Title, view.Who = m.v.Duty(m.p, d).Title, m.p.Helper(m.s.Who(d))
			view.When = m.dutyWhen(d)
			if d.IsSlot() {
				m.wholeStay(&view)
			}
			return view, true
		}
	}
	return view, false
}

// slotWho is the view for one part of staying with the patient.
func (m *maker) slotWho(view WhoView, slot plan.Slot) (WhoView, bool) {
	for i := range m.s.Duties {
		d := &m.s.Duties[i]
		if !d.IsSlot() || d.Slot != slot {
			continue
		}
		whole := plan.BuiltIn[plan.StayWith]
		view.Title, view.Who, view.Calendar = m.v.Duty(m.p, d).Title, m.p.Helper(m.s.Who(d)), "/calendar/who/"+whole
		view.When = m.v.Say("who.slot", arg("from", m.v.DayTime(d.There.From)), arg("until", m.timeOn(d.Day, d.Ends.To)))
		view.Hint, view.Other, view.OtherTitle = m.v.Say("stay.part"), "/who/"+whole, m.v.Say("stay.all", m.v.Fills(m.p, 0, 0)...)
		return view, true
	}
	return view, false
}

// wholeStay is about all parts of it.
func (m *maker) wholeStay(view *WhoView) {
	view.Title = m.v.Entry(plan.BuiltIn[plan.StayWith], "", m.v.Fills(m.p, 0, 0)...).Title
	view.Who = m.p.Helper(m.p.Cover[plan.StayWith])
	first := m.s.Presence()[0].Whole // going home on the day comes before the morning after
	last := m.s.Presence()[len(m.s.Presence())-1].Whole
	view.When = m.v.Say("who.slot", arg("from", m.v.DayTime(first.From)), arg("until", m.v.ShortDayTime(last.To)))
	if len(m.p.Shifts) > 0 {
		view.Hint = m.v.Say("stay.shared")
	}
}

// dutyWhen is the day of a duty, with the times to leave and to be there where they are
// known, as the plan's page shows them.
func (m *maker) dutyWhen(d *schedule.Duty) string {
	switch {
	case d.There.From.IsZero():
		return m.v.Day(d.Day)
	case d.Leave.IsZero() || d.Open: // the drive home on the same day begins at the hospital
		return m.v.DayTime(d.There.From)
	}
	return m.v.Say("who.when", arg("day", m.v.Day(d.Day)), arg("leave", m.timeOn(d.Day, d.Leave)), arg("there", m.timeOn(d.Day, d.There.From)))
}
