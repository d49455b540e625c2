package app

import (
	"slices"
	"strconv"

	"newel/core/merge"
	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/split"
)

// held tells of each date whether its helper took it themselves: what gives it to them was
// written on a device of which they said that it is theirs.
func (s *session) held(sched *schedule.Schedule) func(duty int) bool {
	return func(duty int) bool {
		d := &sched.Duties[duty]
		name := sched.Plan.Helper(sched.Who(d))
		writer := s.doc.Writer(whoKey(&sched.Plan, d))
		return name != "" && writer != (merge.Stamp{}) && sameName(s.doc.HandOf(writer.Actor), name)
	}
}

// whoKey is the register of the plan that says who has a date.
func whoKey(p *plan.Plan, d *schedule.Duty) merge.Key {
	if d.Family == nil {
		if d.IsSlot() && slices.ContainsFunc(p.Shifts, func(s plan.Shift) bool { return s.Slot == d.Slot }) {
			return merge.Key{Field: merge.Shift, Sub: uint32(d.Slot)}
		}
		return merge.Key{Field: merge.Cover, Sub: uint32(slices.Index(plan.BuiltIn[:], d.ID))}
	}
	day, id := d.On.Of, d.Family.ID
	if slices.ContainsFunc(d.Family.Takes, func(t plan.Take) bool { return t.Day == day }) {
		return merge.Key{Field: merge.Takes, Of: id, Sub: uint32(day)}
	}
	if weekday := day.Weekday(); d.Family.On[weekday] != 0 {
		return merge.Key{Field: merge.On, Of: id, Sub: uint32(weekday)}
	}
	return merge.Key{Field: merge.Who, Of: id}
}

// mark is a short text that tells states apart: nobody gains by two that look the same. It is
// FNV-1a with 64 bits (of G. Fowler, L. C. Noll and K.-P. Vo).
type mark struct{ sum uint64 }

func newMark() mark { return mark{0xcbf29ce484222325} }

func (h *mark) octet(b byte) { h.sum = (h.sum ^ uint64(b)) * 0x100000001b3 }

func (h *mark) number(n uint64) {
	for range 8 {
		h.octet(byte(n))
		n >>= 8
	}
}

func (h *mark) text(s string) {
	h.number(uint64(len(s)))
	for i := range len(s) {
		h.octet(s[i])
	}
}

func (h *mark) String() string { return strconv.FormatUint(h.sum, 36) }

// digestOf tells proposals apart: which date would go from whom to whom.
func digestOf(s *schedule.Schedule, lines []split.Line) string {
	h := newMark()
	for _, l := range lines {
		d := &s.Duties[l.Duty]
		h.text(d.ID)
		h.number(uint64(d.Slot)<<8 | uint64(d.Branch))
		if d.Family != nil {
			h.number(uint64(d.Family.ID))
			h.number(uint64(d.On.Of))
			h.number(uint64(d.On.Day)<<16 | uint64(d.On.At)<<2 | uint64(d.On.Kind))
		}
		h.text(s.Plan.Helper(l.From))
		h.text(s.Plan.Helper(l.To))
	}
	return h.String()
}

// endOf is the end of a link, which is its checksum, as a mark of one state of a plan.
func endOf(fragment string) string { return fragment[max(0, len(fragment)-8):] }
