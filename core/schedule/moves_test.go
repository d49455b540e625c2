package schedule

import (
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
	"newel/core/wall"
)

// A later date moves every duty and every step by as much, and nothing else.
func TestDateChangeMovesEverything(t *testing.T) {
	before := build(t, family(t))
	p := before.Plan
	p.Surgery += 7
	after := build(t, p)
	moves := Moves(before, after)
	require.Len(t, moves, 4+len(before.Steps), "there, waiting, home, and being there as one")
	for _, m := range moves {
		require.NotNil(t, m.Before, m.ID)
		require.NotNil(t, m.After, m.ID)
		require.EqualValues(t, 7, m.After.Day-m.Before.Day, m.ID)
	}
}

// Over a clock change wall-clock times of the program stay, and elapsed times go
// with the arrival. New York, 14 March 2027, as in testdata/zone.
func TestDateChangeOverClockChange(t *testing.T) {
	before := build(t, family(t))
	p := before.Plan
	p.Surgery = day(t, "2027-03-16")
	for _, m := range Moves(before, build(t, p)) {
		if m.Before.Time.IsZero() {
			continue
		}
		require.Equal(t, m.Before.Time.Format("15:04"), m.After.Time.Format("15:04"), m.ID)
	}
}

func TestArrivalChangeMovesOnlyWhatHangsOnIt(t *testing.T) {
	before := build(t, family(t))
	p := before.Plan
	p.Arrival += 90
	ids := map[string]bool{}
	for _, m := range Moves(before, build(t, p)) {
		ids[m.ID] = true
		require.Equal(t, "1h30m0s", m.After.Time.Sub(m.Before.Time).String(), m.ID)
	}
	require.True(t, ids["drive-there"] && ids["liquid-stop"] && ids["drink"] && ids["no-shaving"] && ids["check-in"])
	require.False(t, ids["drive-home-morning"], "08:30 the next day does not hang on it")
	require.False(t, ids["food-stop"], "23:00 neither")
	require.False(t, ids["pack-clothes"])
}

func TestSameMovesNothing(t *testing.T) {
	s := build(t, family(t))
	require.Empty(t, Moves(s, s))
}

// What becomes known has not moved; what is added or dropped is said.
func TestKnownAddedDropped(t *testing.T) {
	unknown := build(t, family(t, func(p *plan.Plan) { p.Arrival = wall.NoClock }))
	known := build(t, family(t))
	require.Empty(t, Moves(unknown, known))

	sameDay := build(t, family(t, func(p *plan.Plan) { p.Stay = plan.SameDay }))
	var added, dropped []string
	for _, m := range Moves(known, sameDay) {
		switch {
		case m.Before == nil:
			added = append(added, m.ID)
		case m.After == nil:
			dropped = append(dropped, m.ID)
		}
	}
	require.Equal(t, []string{"drive-home", "stay-with"}, added)
	require.Equal(t, []string{"drive-home-morning", "stay-with"}, dropped)
}
