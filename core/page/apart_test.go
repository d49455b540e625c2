package page_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/link"
	"newel/core/merge"
	"newel/core/plan"
	"newel/core/wall"
)

// changedApart is a plan that two people changed apart from each other, with one text
// wherever one can stand, and the plan before.
func changedApart(t *testing.T, x texts) (joined, before string) {
	text := func(n string, most int) string { return fitting(n+x.typed, most) }
	p := x.plan(t)
	p = withFamily(&p, x.typed)
	start := merge.New(p)
	if name := text("", plan.MaxName); name != "" {
		start = start.WithHand(merge.FirstActor+1, name).WithHand(merge.FirstActor+2, text("b", plan.MaxName))
	}
	edit := func(a merge.Actor, n string) *merge.Doc {
		q := start.Plan()
		q.Patient, q.Surgery, q.Arrival = text(n, plan.MaxName), q.Surgery+wall.Date(a%3), q.Arrival+wall.Clock(a%3)
		q.Program.Hospital, q.Program.Address, q.Program.Phone = text(n, plan.MaxName), text(n, plan.MaxText), text(n, plan.MaxName)
		q, who := q.WithHelper(text(n, plan.MaxName))
		q.Cover[0], q.Cover[1] = who, who
		d := q.Duties[0]
		d.Title, d.Place, d.Note, d.Who = text(n, plan.MaxName), text(n, plan.MaxText), text(n, plan.MaxText), who
		d.On[1], d.Takes = who, []plan.Take{{Day: d.Rule.First, Who: who}}
		q = q.WithDuty(d)
		e := q.Duties[2]
		e.Dropped = a%3 == 0
		if !e.Dropped {
			e.Note = text(n, plan.MaxText)
		}
		return start.Change(a, q.WithDuty(e).WithTick(plan.Tick{Code: uint16(a)}, true))
	}
	both, err := merge.Join(edit(merge.FirstActor+1, "c"), edit(merge.FirstActor+2, "d"))
	require.NoError(t, err)
	require.Greater(t, len(both.Questions()), 6)
	return link.Encode(both), link.Encode(start)
}
