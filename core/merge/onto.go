package merge

import (
	"slices"

	"newel/core/plan"
)

// Onto takes what somebody changed in an older state of a plan over into its present one: a
// form holds every field as it was when it was opened, and what others changed meanwhile is
// not undone by sending it. base is the older state, next what became of it or of the
// present one; where a register of next is as in base, now has it. All three have one number.
func Onto(now, base, next plan.Plan) plan.Plan {
	base.Revision = now.Revision // counts only go up, and next counts on from now
	base.Duties = slices.Clone(base.Duties)
	for i := range base.Duties {
		if d := now.Duty(base.Duties[i].ID); d != nil {
			base.Duties[i].Revision = d.Revision
		}
	}
	act := New(now).begin(FirstActor)
	act.next = registersOf(&next, nil)
	act.differences(&base, &next, nil)
	return act.doc.Plan()
}
