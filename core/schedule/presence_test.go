package schedule

import (
	"math/rand"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
	"newel/core/wall"
)

// Whatever a family and a hospital put in, and over changes of the clocks: in each branch
// the parts and the nights together are the whole time, those that must be cover the hours
// in which somebody must be there, no slot comes twice, and each has its ends in order.
func TestPartsAndNightsAreTheWholePresence(t *testing.T) {
	r := rand.New(rand.NewSource(5))
	known, plans := 0, 1000
	if testing.Short() {
		plans = 500
	}
	for range plans {
		p := randomPlan(r)
		for range r.Intn(4) {
			first := p.Surgery - 1 + wall.Date(r.Intn(5))
			nights(t, first.String(), wall.Clock(r.Intn(1440)), 1+r.Intn(14*60), 1+r.Intn(4))(&p)
		}
		s, err := Build(p)
		require.NoError(t, err)
		known += len(s.Presence())
		for _, present := range s.Presence() {
			wholePresence(t, s, present)
		}
		seen := map[plan.Slot]bool{}
		for i := range s.Duties {
			d := &s.Duties[i]
			if !d.IsSlot() {
				continue
			}
			require.False(t, seen[d.Slot], "a slot comes twice")
			seen[d.Slot] = true
			require.False(t, d.There.To.Before(d.There.From) || d.Ends.To.Before(d.Ends.From) || !d.There.From.Before(d.Ends.To))
			require.LessOrEqual(t, d.Slot, plan.MaxSlot)
		}
	}
	require.Greater(t, known, plans/2)
}

// wholePresence asks each minute of a presence whether somebody has it.
func wholePresence(t *testing.T, s *Schedule, p Presence) {
	var must, any []Span
	for i := range s.Duties {
		d := &s.Duties[i]
		switch {
		case d.Family != nil && d.Family.Kind == plan.Nights:
			any, must = append(any, d.Session), append(must, d.Session)
		case d.IsSlot() && (d.Branch == Always || d.Branch == p.Branch):
			whole := Span{d.There.From, d.Ends.To}
			if any = append(any, whole); d.Must {
				must = append(must, whole)
			}
		}
	}
	covered := func(spans []Span, at time.Time) bool {
		for _, span := range spans {
			if !at.Before(span.From) && at.Before(span.To) {
				return true
			}
		}
		return false
	}
	for at := p.Whole.From; at.Before(p.Whole.To); at = at.Add(time.Minute) {
		if !covered(any, at) || at.Before(p.Must.To) && !covered(must, at) {
			require.Fail(t, "nobody is there", "%s in %v: %v", at, p, s.slots())
		}
	}
	for i := range s.Duties { // and nothing beyond it
		if d := &s.Duties[i]; d.IsSlot() && d.Branch == p.Branch && (d.There.From.Before(p.Whole.From) || d.Ends.To.After(p.Whole.To)) {
			require.Fail(t, "a part beyond the presence", "%v: %v", p, s.slots())
		}
	}
}
