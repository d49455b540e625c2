package merge

import (
	"testing"

	"newel/core/plan"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Where nobody else changed anything, what somebody changed is all there is; where nothing
// was changed, the present plan stays.
func TestOntoTheSameState(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		base, next := anyPlan(fromRapid(t)), anyPlan(fromRapid(t))
		next.Number = base.Number
		still(&base) // revisions only go up: below
		still(&next)
		for _, d := range base.Duties {
			if next.Duty(d.ID) == nil {
				d.Who, d.On, d.Takes = 0, [7]uint8{}, nil // places in the other plan’s list
				next = next.WithDuty(d)                   // forms keep what they do not ask for
			}
		}
		shows(t, next, New(Onto(base, base, next)))
		shows(t, next, New(Onto(next, base, base)))
		shows(t, next, New(Onto(next, base, next)))
	})
}

func still(p *plan.Plan) {
	p.Revision = 0
	for i := range p.Duties {
		p.Duties[i].Revision = 0
	}
}

// A change counts once, on from what the present plan has.
func TestOntoCountsOnce(t *testing.T) {
	base := rosa(t)
	now, next := copied(base), copied(base)
	now.Duties[0].Rule.At, now.Duties[0].Revision = 9*60, base.Duties[0].Revision+1
	next.Duties[0].Length, next.Duties[0].Revision = 75, now.Duties[0].Revision+1
	got := Onto(now, base, next)
	require.Equal(t, now.Duties[0].Rule.At, got.Duties[0].Rule.At)
	require.Equal(t, 75, got.Duties[0].Length)
	require.Equal(t, next.Duties[0].Revision, got.Duties[0].Revision)
}
