package merge

import (
	"slices"

	"newel/core/plan"
)

// alike is what two plans with the same helpers say alike: an act writes nothing there, so their
// registers, most of a plan's, need not be listed to be compared.
type alike struct {
	duties map[uint32]bool // by number
	abouts []bool          // by a helper's place
}

// alikeIn compares two plans; nil where their helpers differ, since the registers of duties hold
// names.
func alikeIn(p, q *plan.Plan) *alike {
	if !slices.Equal(p.Helpers, q.Helpers) {
		return nil
	}
	a := &alike{duties: map[uint32]bool{}, abouts: make([]bool, len(p.Helpers))}
	for i := range p.Duties {
		id := p.Duties[i].ID
		a.duties[id] = !changedDuty(p, q, id)
	}
	for i := range a.abouts {
		who := uint8(i + 1)
		a.abouts[i] = p.AboutOf(who).Equal(q.AboutOf(who))
	}
	return a
}
