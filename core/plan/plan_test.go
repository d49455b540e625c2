package plan

import (
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/wall"
)

func TestTicksStayInOrderWithoutTwins(t *testing.T) {
	p, _ := sound(t)
	order := []Tick{{40, 3}, {1, 0}, {40, 1}, {112, 0}, {40, 3}, {40, 2}}
	q := p
	for _, tick := range order {
		q = q.WithTick(tick, true)
		require.True(t, q.Has(tick))
	}
	require.Equal(t, []Tick{{1, 0}, {40, 1}, {40, 2}, {40, 3}, {112, 0}}, q.Ticked)
	require.Empty(t, p.Ticked, "the plan it came from keeps its own")

	r := q.WithTick(Tick{40, 2}, false)
	require.False(t, r.Has(Tick{40, 2}))
	require.True(t, q.Has(Tick{40, 2}))
	require.Equal(t, r.Ticked, r.WithTick(Tick{40, 2}, false).Ticked)
}

func TestSameFacts(t *testing.T) {
	p, _ := sound(t)
	q := p.WithTick(Tick{1, 0}, true)
	require.True(t, p.SameFacts(q), "ticks are no facts")
	for name, change := range map[string]func(*Plan){
		"number": func(p *Plan) { p.Number++ }, "patient": func(p *Plan) { p.Patient = "Ana" },
		"surgery": func(p *Plan) { p.Surgery++ }, "arrival": func(p *Plan) { p.Arrival = wall.NoClock },
		"joint": func(p *Plan) { p.Joint = Hip }, "operation": func(p *Plan) { p.Operation = Revision },
		"stay": func(p *Plan) { p.Stay = SameDay }, "zone": func(p *Plan) { p.Zone = "UTC" },
		"drive": func(p *Plan) { p.Drive++ }, "parking": func(p *Plan) { p.Parking++ },
		"facts": func(p *Plan) { p.Facts |= Pets }, "hospital": func(p *Plan) { p.Program.Hospital = "x" },
		"address": func(p *Plan) { p.Program.Address = "x" }, "phone": func(p *Plan) { p.Program.Phone = "x" },
		"rule": func(p *Plan) { p.Program.Set(WashDays, 4) }, "program": func(p *Plan) { p.Program.Number = 1 },
		"cover": func(p *Plan) { p.Cover[0] = 1 }, "helper": func(p *Plan) { p.Helpers = []string{"Dana"} },
		"revision": func(p *Plan) { p.Revision++ }, "duty": func(p *Plan) { p.Duties = []Duty{{ID: 1}} },
	} {
		q := p
		change(&q)
		require.False(t, p.SameFacts(q), name)
	}
}

// What a link may say at most can be changed and sent on all the same.
func TestTheGreatestCountsStay(t *testing.T) {
	var p Plan
	for n := range MaxTicks + 5 {
		p = p.WithTick(Tick{Code: uint16(n)}, true)
	}
	require.Len(t, p.Ticked, MaxTicks)
	require.Len(t, p.WithTick(Tick{Code: 3}, false).Ticked, MaxTicks-1)
}
