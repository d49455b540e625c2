package plan

import (
	"slices"
	"strconv"
	"strings"
)

// StayWith is the place in BuiltIn and Plan.Cover of staying with the patient at home, whose
// single parts are in Plan.Shifts.
const StayWith = 4

// SlotOf is the slot of a part of the nth day after the day of surgery.
func SlotOf(day int, part Slot) Slot { return Slot(day)*slotParts + part }

// Day is how many days after the day of surgery a slot begins.
func (s Slot) Day() int { return int(s / slotParts) }

// Part is Morning, Afternoon or Night.
func (s Slot) Part() Slot { return s % slotParts }

// WhoHasSlot gives who has a part of staying with the patient: 1 + the helper's place, 0 for
// nobody.
func (p *Plan) WhoHasSlot(slot Slot) uint8 {
	if i, found := findShift(p.Shifts, slot); found {
		return p.Shifts[i].Who
	}
	return p.Cover[StayWith]
}

func findShift(all []Shift, slot Slot) (int, bool) {
	return slices.BinarySearchFunc(all, slot, func(s Shift, slot Slot) int { return int(s.Slot) - int(slot) })
}

// WithShift returns the plan with one slot given to somebody, or (0) to nobody. The plan it
// is called on keeps its own. What somebody took stays written, also where they have the
// whole stay: so it stays theirs when that is given to somebody else. That nobody has a
// slot is written only where somebody has the rest. A slot above MaxSlot changes nothing.
func (p Plan) WithShift(slot Slot, who uint8) Plan {
	if slot > MaxSlot {
		return p
	}
	p.Shifts = slices.Clone(p.Shifts)
	i, found := findShift(p.Shifts, slot)
	switch {
	case who == 0 && p.Cover[StayWith] == 0:
		if found {
			p.Shifts = slices.Delete(p.Shifts, i, i+1)
		}
	case found:
		p.Shifts[i].Who = who
	default:
		p.Shifts = slices.Insert(p.Shifts, i, Shift{slot, who})
	}
	if len(p.Shifts) == 0 {
		p.Shifts = nil
	}
	return p
}

// WithCover returns the plan with one of the duties that every plan has (its place in
// BuiltIn) given to somebody, or (0) to nobody. Who took a single slot keeps it.
func (p Plan) WithCover(place int, who uint8) Plan {
	p.Cover[place] = who
	if place != StayWith || who != 0 {
		return p
	}
	p.Shifts = slices.DeleteFunc(slices.Clone(p.Shifts), func(s Shift) bool { return s.Who == 0 })
	if len(p.Shifts) == 0 {
		p.Shifts = nil
	}
	return p
}

// Name is a slot’s name in paths and calendars: "stay-with.4".
func (s Slot) Name() string { return BuiltIn[StayWith] + "." + strconv.Itoa(int(s)) }

// SlotNamed finds a slot by its name; ok is false where there is none.
func SlotNamed(name string) (s Slot, ok bool) {
	digits, found := strings.CutPrefix(name, BuiltIn[StayWith]+".")
	n, err := strconv.Atoi(digits)
	if !found || err != nil || n < 0 || n > int(MaxSlot) || Slot(n).Name() != name {
		return 0, false
	}
	return Slot(n), true
}
