//go:build !js

// What is asked here is the same arithmetic in WebAssembly, where it takes three times as long.

package app

import (
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/link"
	"newel/core/merge"
	"newel/core/plan"
)

// A plan that an earlier page let grow further than this one does can be read and not be
// made anew; no link of another plan is shown as the new one.
func TestAPlanThatIsTooFullIsNotStartedAfresh(t *testing.T) {
	p := started(t)
	q := crammed(p.plan())
	full := link.Encode(merge.New(q))
	p.kept[keyPlan+planKey(q.Number)] = full
	p.fragment = full
	out := p.send("/link/afresh", "sure", "1")
	require.Contains(t, p.part("notice-afresh"), "more than one link can hold")
	require.NotContains(t, out.HTML, "notice-fresh")
	require.Equal(t, full, p.fragment)
	require.Len(t, p.plans(), 1)
}

// A plan that came too full can be emptied, duty by duty. Somebody else has filled it: a plan
// that was never changed has no stamps, and with its first change its link grows by all of
// them, but forms let none become as full as this.
func TestAPlanThatCameTooFullCanBeEmptied(t *testing.T) {
	p := started(t)
	base := p.plan()
	base.Number++
	stamped := func(q plan.Plan) string { return link.Encode(merge.New(base).Change(merge.FirstActor, q)) }
	p.open(stamped(filledAs(base, link.MaxLength-100, stamped)))
	require.Greater(t, len(p.fragment), link.MaxLength-reserve)
	p.send("/duty/1/drop")
	require.True(t, p.plan().Duties[0].Dropped)
	p.send("/duty/2/change", "first", "2026-12-05", "at", "10:00", "length", "10", "often", "once")
	require.Empty(t, p.plan().Duties[1].Note)
}
