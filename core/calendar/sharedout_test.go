package calendar

import (
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
)

// sharedOut gives dates to helpers who live near and far.
func sharedOut(r *rand.Rand, p plan.Plan) plan.Plan {
	p.Helpers = []string{"Dana", "Lee", "Ann"}
	for who := range uint8(3) {
		p = p.WithAbout(who+1, plan.About{Told: true, Away: r.Intn(4)*15 - 1})
	}
	for i := range p.Duties {
		d := &p.Duties[i]
		d.Who, d.On[r.Intn(7)] = uint8(r.Intn(4)), uint8(r.Intn(4))
		days, _ := d.Rule.Pattern()
		for range min(3, len(days)) {
			take := plan.Take{Day: days[r.Intn(len(days))], Who: uint8(r.Intn(4))}
			if len(d.Takes) == 0 || d.Takes[len(d.Takes)-1].Day < take.Day {
				d.Takes = append(d.Takes, take)
			}
		}
		d.Need, d.Steady = plan.Need(r.Intn(4)), r.Intn(2) == 0
	}
	return p
}

// expandStays reads the schedule, since the nights themselves are in every file.
func expandStays(t testing.TB, p plan.Plan) []timed {
	s := build(t, p)
	var all []timed
	for i := range s.Duties {
		if d := &s.Duties[i]; d.Family == nil {
			require.Len(t, d.Busy(), 1)
			all = append(all, timed{utcText(d.Busy()[0].From), utcText(d.Busy()[0].To)})
		}
	}
	return all
}
