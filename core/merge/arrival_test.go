package merge

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
	"newel/core/wall"
)

// moved is the document after a device moved the surgery; NoClock: the arrival is not known then.
func (d *Doc) moved(a Actor, day wall.Date, arrival wall.Clock) *Doc {
	return d.with(a, func(p *plan.Plan) { p.Surgery, p.Arrival = day, arrival })
}

// Two navigators move the surgery apart from each other, one of them with a time. That time is
// for their day alone: it is not shown with the other, and settling the day takes the time that
// came with it. That the last times for food and drink hang on the arrival is of ASA 2017, 2023;
// that a time is said for a day is common practice, no published source.
func TestAnArrivalIsForItsDay(t *testing.T) {
	dec10, dec17 := day(t, "2026-12-10"), day(t, "2026-12-17")
	surgery := Key{Field: Surgery}
	start := New(rosa(t))
	for _, c := range []struct {
		early, late      wall.Clock // as written with the earlier and the later day
		shown            wall.Clock // while both stand
		onEarly, onLater wall.Clock // after settling
	}{
		{wall.NoClock, 375, wall.NoClock, wall.NoClock, 375},
		{360, 375, 360, 360, 375},
		{375, 360, 375, 375, 360},
		{360, wall.NoClock, 360, 360, wall.NoClock},
	} {
		both := inAnyOrder(t, start.moved(luis, dec10, c.early), start.moved(ann, dec17, c.late))
		p := both.Plan()
		require.Equal(t, dec10, p.Surgery)
		require.Equal(t, c.shown, p.Arrival, "%v", c)
		require.Equal(t, both, both.Change(dana, p), "what is shown changes nothing")
		for value, want := range map[wall.Date]wall.Clock{dec10: c.onEarly, dec17: c.onLater} {
			settled := both.Settle(otto, surgery, strconv.Itoa(int(value)))
			p := settled.Plan()
			require.Equal(t, value, p.Surgery)
			require.Equal(t, want, p.Arrival, "%v settled to %s", c, value)
			require.Empty(t, settled.Questions())
			require.Equal(t, settled, joinAll(t, settled, both), "an older copy brings nothing back")
		}
		// the same through a form, where what is shown stands in the fields
		typed := both.moved(otto, dec17, c.onLater)
		require.Equal(t, c.onLater, typed.Plan().Arrival)
		require.Empty(t, typed.Questions())
	}
}

// Two settle the day apart, each their way: the time goes with its day again.
func TestADayIsSettledTwice(t *testing.T) {
	dec10, dec17 := day(t, "2026-12-10"), day(t, "2026-12-17")
	surgery := Key{Field: Surgery}
	start := New(rosa(t))
	both := joinAll(t, start.moved(luis, dec10, wall.NoClock), start.moved(ann, dec17, 375))
	apart := inAnyOrder(t, both.Settle(dana, surgery, strconv.Itoa(int(dec10))), both.Settle(otto, surgery, strconv.Itoa(int(dec17))))
	require.Equal(t, wall.NoClock, apart.Plan().Arrival)
	require.EqualValues(t, 375, apart.Settle(ann, surgery, strconv.Itoa(int(dec17))).Plan().Arrival)
	require.Equal(t, wall.NoClock, apart.Settle(ann, surgery, strconv.Itoa(int(dec10))).Plan().Arrival)
}

// A time that was put in while both days stand is shown, and what else changes leaves a time that
// is not shown where it is.
func TestATimeBetweenTwoDays(t *testing.T) {
	dec10, dec17 := day(t, "2026-12-10"), day(t, "2026-12-17")
	start := New(rosa(t))
	both := joinAll(t, start.moved(luis, dec10, wall.NoClock), start.moved(ann, dec17, 375))
	named := both.with(dana, func(p *plan.Plan) { p.Patient = "Mom" })
	require.EqualValues(t, 375, named.Settle(dana, Key{Field: Surgery}, strconv.Itoa(int(dec17))).Plan().Arrival)
	put := both.with(dana, func(p *plan.Plan) { p.Arrival = 330 })
	require.EqualValues(t, 330, put.Plan().Arrival)
	require.Equal(t, Stamp{dana, put.Last(dana)}, put.Writer(Key{Field: Arrival}))
	on, ok := both.DayOf(both.Get(Key{Field: Arrival})[0])
	require.True(t, ok)
	require.Equal(t, dec17, on)
	_, ok = put.DayOf(put.Get(Key{Field: Arrival})[0])
	require.False(t, ok)
}
