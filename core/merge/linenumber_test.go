package merge

import (
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
)

// A number is not given out again, also where one act added several lines: else what was
// ticked or changed of one that was taken out would land on another line.
func TestNumbersOfLinesOfOneAct(t *testing.T) {
	line := func(id uint32, text string) plan.Line {
		return plan.Line{ID: id, List: plan.Packing, Day: plan.NoDay, Text: text}
	}
	for _, a := range []Actor{luis, Maker} {
		start := New(rosa(t))
		ids := start.FreshLines(a, 3)
		three := start.with(a, func(p *plan.Plan) {
			for _, id := range ids {
				*p = p.WithLine(line(id, "old"))
			}
		})
		require.Equal(t, start.Last(a)+3, three.Last(a), "an act counts by the numbers that it gives out")
		ticked := three.with(ann, func(p *plan.Plan) {
			l := *p.Line(ids[2])
			l.Done = true
			*p = p.WithLine(l)
		})
		out := three.with(a, func(p *plan.Plan) { *p = p.WithoutLine(ids[2]) })
		fresh := out.FreshLines(a, 1)[0]
		require.NotContains(t, ids, fresh)
		again := out.with(a, func(p *plan.Plan) { *p = p.WithLine(line(fresh, "new")) })
		both := inAnyOrder(t, again, ticked).Plan()
		require.Equal(t, line(fresh, "new"), *both.Line(fresh))
		require.Nil(t, both.Line(ids[2]))
	}
}

// The lines with which a plan is made have their numbers from an empty document; none of them
// comes again either.
func TestNumbersOfLinesThatAPlanIsMadeWith(t *testing.T) {
	p := rosa(t)
	ids := NewDoc(p.Number).FreshLines(Maker, plan.MaxPerList)
	for _, id := range ids {
		p = p.WithLine(plan.Line{ID: id, List: plan.Limits, Day: plan.NoDay, Hospital: true, Text: "x"})
	}
	d := New(p).with(Maker, func(p *plan.Plan) { *p = p.WithoutLine(ids[len(ids)-1]) })
	require.NotContains(t, ids, d.FreshLines(Maker, 1)[0])
}

// A line that comes back after it was taken out, under its old number, is no fresh one.
func TestALineThatComesBackCountsOnce(t *testing.T) {
	start := New(rosa(t))
	far := uint32(luis)<<plan.NthBits | 900
	d := start.with(luis, func(p *plan.Plan) { *p = p.WithLine(plan.Line{ID: far, List: plan.Ready, Day: plan.NoDay, Text: "x"}) })
	require.Equal(t, start.Last(luis)+1, d.Last(luis))
}
