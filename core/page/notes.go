package page

import (
	"newel/core/schedule"
	"newel/core/split"
)

// standing is a short note in words where who has a duty cannot do it: "Luis is at work
// until 15:00." d is one of m.s.Duties.
func (m *maker) standing(d *schedule.Duty) string {
	if m.reads {
		return ""
	}
	f := m.finding(d)
	if f == nil || f.State != split.Cannot || len(f.Why) == 0 {
		return ""
	}
	return m.reason(d, f.Who, f.Why[0])
}

// cannot is the key of what stands on paper beside whoever has a duty and cannot do it; "" where
// they can.
func (m *maker) cannot(d *schedule.Duty) string {
	f := m.finding(d)
	switch {
	case f == nil || f.State != split.Cannot || len(f.Why) == 0:
		return ""
	case f.Why[0].Why == split.IsOut:
		return "paper.out"
	}
	return "paper.cannot"
}

// clashing says how many dates have somebody who cannot do them; "" where none has. Those of
// somebody who can no longer help are counted with what needs somebody.
func (m *maker) clashing(dates []*schedule.Duty) string {
	n := 0
	for _, d := range dates {
		if f := m.finding(d); f != nil && f.State == split.Cannot && !needsSomebody(f) {
			n++
		}
	}
	if n == 0 {
		return ""
	}
	return m.v.Count("family.cannot", n)
}

// Unsettled tells whether two people said differently who has a date.
func Unsettled(in Input, duty int) bool {
	m := maker{Input: in, s: in.Schedule, p: &in.Schedule.Plan}
	return m.unsettled(&in.Schedule.Duties[duty]) != nil
}

// finding is what there is to say of a duty; nil where it is over.
func (m *maker) finding(d *schedule.Duty) *split.Finding {
	r := m.report()
	if m.found == nil {
		m.found = map[*schedule.Duty]*split.Finding{}
		for i := range r.Findings {
			m.found[&m.s.Duties[r.Findings[i].Duty]] = &r.Findings[i]
		}
	}
	return m.found[d]
}
