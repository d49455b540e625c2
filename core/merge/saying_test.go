package merge

import (
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
)

// reviewed is somebody saying who has reviewed what the page says, and when; "" for neither.
func (d *Doc) reviewed(a Actor, by, on string) *Doc {
	return d.with(a, func(p *plan.Plan) { p.Program.Texts[plan.ReviewedBy], p.Program.Texts[plan.ReviewedOn] = by, on })
}

// One takes both away, the other changes one of them: the change survives, and whole (the
// package comment: removing and changing at once). The problems are plan.Check's own.
func TestAReviewIsTakenAwayAndChangedAtOnce(t *testing.T) {
	start := New(rosa(t)).reviewed(dana, "Ward 3", "2026-11-20")
	for _, say := range [][2]string{{"Ward 4", "2026-11-20"}, {"Ward 3", "2026-11-21"}, {"Ward 4", "2026-11-21"}} {
		both := inAnyOrder(t, start.reviewed(dana, "", ""), start.reviewed(luis, say[0], say[1]))
		p := both.Plan()
		require.Equal(t, say, [2]string{p.Program.Texts[plan.ReviewedBy], p.Program.Texts[plan.ReviewedOn]})
		require.NoError(t, both.Check())
		for _, problem := range plan.Check(&p, p.Surgery) {
			require.NotContains(t, []string{plan.ReviewNoDay, plan.ReviewNobody}, problem.Code)
		}
	}
}

// Two reviews apart from each other: what is shown is one of them, and one answer settles
// name and day, whichever of the two was answered.
func TestTwoReviewsApart(t *testing.T) {
	start := New(rosa(t))
	both := inAnyOrder(t, start.reviewed(luis, "Ward 3", "2026-11-20"), start.reviewed(ann, "Ward 4", "2026-11-21"))
	by, on := Key{Field: HospitalText, Sub: uint32(plan.ReviewedBy)}, Key{Field: HospitalText, Sub: uint32(plan.ReviewedOn)}
	require.Equal(t, both.Writer(by), both.Writer(on), "they are shown as one act said them")
	for _, answer := range []struct {
		k         Key
		value     string
		name, day string
	}{{by, "Ward 3", "Ward 3", "2026-11-20"}, {by, "Ward 4", "Ward 4", "2026-11-21"}, {on, "2026-11-20", "Ward 3", "2026-11-20"}} {
		settled := both.Settle(dana, answer.k, answer.value)
		require.Empty(t, settled.Questions())
		p := settled.Plan()
		require.Equal(t, []string{answer.name, answer.day}, []string{p.Program.Texts[plan.ReviewedBy], p.Program.Texts[plan.ReviewedOn]})
	}
}

// A question about the day is not answered by changing the name.
func TestTheDayOfAReviewStaysAsked(t *testing.T) {
	start := New(rosa(t)).reviewed(dana, "Ward 3", "2026-11-20")
	both := inAnyOrder(t, start.reviewed(luis, "Ward 3", "2026-11-21"), start.reviewed(ann, "Ward 3", "2026-11-22"))
	p := both.Plan()
	p.Program.Texts[plan.ReviewedBy] = "Ward 5"
	require.Len(t, both.Change(dana, p).Questions(), 1)
}
