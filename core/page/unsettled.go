package page

import (
	"slices"
	"strings"

	"newel/core/merge"
	"newel/core/plan"
	"newel/core/schedule"
)

// holder says who has a duty, "" for nobody; where two people said it differently, both, and
// that it is not settled: one name alone would let the other one stay at home.
func (m *maker) holder(d *schedule.Duty) string {
	if q := m.unsettled(d); q != nil {
		return m.either(q)
	}
	return m.p.Helper(m.s.Who(d))
}

// unsettled is the open question on which it hangs who has a duty; nil where there is none.
func (m *maker) unsettled(d *schedule.Duty) *merge.Question {
	if len(m.Unsettled) == 0 {
		return nil
	}
	if d.IsSlot() {
		taken := func(s plan.Shift) bool { return s.Slot == d.Slot }
		if q := m.asked(merge.Key{Field: merge.Shift, Sub: uint32(d.Slot)}); q != nil || slices.ContainsFunc(m.p.Shifts, taken) {
			return q
		}
	}
	if d.Family == nil {
		return m.asked(merge.Key{Field: merge.Cover, Sub: uint32(slices.Index(plan.BuiltIn[:], d.ID))})
	}
	day, id := d.On.Of, d.Family.ID
	taken := func(t plan.Take) bool { return t.Day == day }
	if q := m.asked(merge.Key{Field: merge.Takes, Of: id, Sub: uint32(day)}); q != nil || slices.ContainsFunc(d.Family.Takes, taken) {
		return q
	}
	weekday := day.Weekday()
	if q := m.asked(merge.Key{Field: merge.On, Of: id, Sub: uint32(weekday)}); q != nil || d.Family.On[weekday] != 0 {
		return q
	}
	return m.asked(merge.Key{Field: merge.Who, Of: id})
}

func (m *maker) asked(k merge.Key) *merge.Question {
	for i := range m.Unsettled {
		if m.Unsettled[i].Key == k {
			return &m.Unsettled[i]
		}
	}
	return nil
}

// either lists who has a duty according to the answers of a question.
func (m *maker) either(q *merge.Question) string {
	var names []string
	for _, version := range q.Versions {
		name := version.Value
		if name == "" || name == "-" {
			name = m.v.Say("people.nobody")
		}
		if !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	last := len(names) - 1
	return m.v.Say("who.unsettled", arg("who", strings.Join(names[:last], ", ")), arg("last", names[last]))
}

// openWho says what is not settled about who has some dates of a duty: all, in place of the
// names, where one question is about them all, or some, as a note.
func (m *maker) openWho(dates []*schedule.Duty) (all, some string) {
	open, first := 0, (*merge.Question)(nil)
	for _, d := range dates {
		q := m.unsettled(d)
		if q == nil {
			continue
		}
		if open++; first == nil {
			first = q
		}
		if q.Key != first.Key {
			return "", m.v.Say("who.unsettled.some")
		}
	}
	switch open {
	case 0:
		return "", ""
	case len(dates):
		return m.either(first), ""
	}
	return "", m.v.Say("who.unsettled.some")
}
