package schedule

import (
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
)

func own(id uint32, list plan.List, day int, text string) plan.Line {
	return plan.Line{ID: id, List: list, Day: day, Text: text}
}

// ofLines gives the own lines of a schedule in its order.
func (s *Schedule) ofLines() []Step {
	var all []Step
	for _, st := range s.Steps {
		if st.Line != nil {
			all = append(all, st)
		}
	}
	return all
}

// A line with a day is due on that day, counted from surgery; one without is in its list
// alone. In a list the days come in order and those without at the end, the hospital's first.
// Common practice, no published source.
func TestOwnLinesBecomeSteps(t *testing.T) {
	hospital := own(5, plan.Packing, plan.NoDay, "card")
	hospital.Hospital = true
	limit := own(6, plan.Limits, plan.NoDay, "no kneeling")
	limit.Hospital = true
	s := build(t, family(t, func(p *plan.Plan) {
		p.Lines = []plan.Line{
			own(1, plan.Packing, plan.NoDay, "lamp"), own(2, plan.Packing, -1, "bag"), own(3, plan.Ready, -3, "mail"), own(4, plan.Packing, -4, "list"), hospital, limit,
		}
	}))
	lines := s.ofLines()
	var texts []string
	for _, st := range lines {
		texts = append(texts, st.List+": "+st.Line.Text)
		require.Empty(t, st.ID)
		require.Zero(t, st.Code)
		require.True(t, st.Once())
		require.Equal(t, Both, st.Who)
	}
	require.Equal(t, []string{"ready: mail", "pack: list", "pack: bag", "pack: card", "pack: lamp"}, texts, "a limit is nothing to be done")
	require.Equal(t, ByDay, lines[0].Due)
	require.Equal(t, "2027-03-06", lines[0].First.String())
	require.Equal(t, lines[0].First, lines[0].Last)
	require.Equal(t, Undated, lines[4].Due)
	require.Zero(t, lines[4].First)
}

func TestAnOwnLineIsDone(t *testing.T) {
	p := family(t, func(p *plan.Plan) { p.Lines = []plan.Line{own(1, plan.Packing, plan.NoDay, "lamp")} })
	s := build(t, p)
	line, step := s.ofLines()[0], s.one(t, "pack-clothes")
	require.False(t, line.Done(&p))
	done := p.Lines[0]
	done.Done = true
	p = p.WithLine(done)
	require.True(t, line.Done(&p))
	require.False(t, step.Done(&p))
	p = p.WithTick(step.Tick(), true).WithoutLine(1)
	require.True(t, step.Done(&p))
	require.False(t, line.Done(&p), "one that was taken out is not done")
}

// Own lines move along with surgery. That one was added, taken out, or given a day moves
// nothing else, and so counts no revision of calendars (RFC 5546 2.1.4).
func TestOwnLinesMoveWithSurgery(t *testing.T) {
	lamp, mail := own(1, plan.Packing, plan.NoDay, "lamp"), own(2, plan.Ready, -3, "mail")
	with := func(change ...func(*plan.Plan)) *Schedule { return build(t, family(t, change...)) }
	lines := func(all ...plan.Line) func(*plan.Plan) { return func(p *plan.Plan) { p.Lines = all } }
	later := func(p *plan.Plan) { p.Surgery += 7 }
	before := with(lines(lamp, mail))
	moved := 0
	for _, m := range Moves(before, with(lines(lamp, mail), later)) {
		if m.Line != nil {
			require.Equal(t, "mail", m.Line.Text)
			require.Equal(t, m.Before.Day+7, m.After.Day)
			moved++
		}
	}
	require.Equal(t, 1, moved, "one without a day stays where it is")
	require.Empty(t, Moves(before, before))
	require.True(t, SameTimes(before, with(lines(mail))))
	require.True(t, SameTimes(before, with(lines(lamp, mail, own(3, plan.Ready, -1, "more")))))
	require.True(t, SameTimes(before, with(lines(own(1, plan.Packing, -1, "lamp"), mail))))
	require.False(t, SameTimes(before, with(lines(lamp, own(2, plan.Ready, -2, "mail")))))
}
