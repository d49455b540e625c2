package merge

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
)

// Of two numbers of a hospital the careful one is shown until somebody settles it, whoever
// wrote later. Sources: 38 °C is 100.4 °F and 39 °C is 102.2 °F (°F is °C times 9/5 plus 32,
// NIST SP 811 B.8); which side is careful: to call sooner, to stop food and liquids sooner
// (ASA 2017).
func TestTheCarefulNumberIsShown(t *testing.T) {
	const none = 0
	for _, c := range []struct {
		rule           plan.Rule
		careful, other int
	}{
		{plan.Fever, 1004, 1030}, {plan.Fever, 380, 390}, {plan.Fever, 380, 1005}, {plan.Fever, 1003, 380}, {plan.Fever, 1021, 390}, {plan.Fever, 390, 1023},
		{plan.BowelDays, 2, 5}, {plan.FoodStop, 18 * 60, 24 * 60}, {plan.LiquidsBefore, 240, 120}, {plan.LiquidsBefore, 1, 0},
		{plan.Fever, 1010, none}, {plan.BowelDays, 14, none},
	} {
		for _, later := range []bool{true, false} {
			start := New(rosa(t))
			says := func(a Actor, n int) *Doc {
				return start.Settle(a, Key{Field: Setting, Sub: uint32(c.rule)}, strconv.Itoa(n))
			}
			first, second := c.careful, c.other
			if later {
				first, second = second, first
			}
			both := inAnyOrder(t, says(luis, first), says(ann, second))
			p := both.Plan()
			require.Equal(t, c.careful, p.Program.Get(c.rule), "%v", c)
			require.Len(t, both.Questions(), 1, "it is asked about all the same")
			require.Equal(t, strconv.Itoa(c.careful), both.Questions()[0].Versions[0].Value)
		}
	}
}

// Minutes that are taken off a time to say when to leave: whoever wrote more of them is believed until it is settled.
func TestTheLongerWayIsShown(t *testing.T) {
	start := New(rosa(t))
	const of = therapyID
	for _, k := range []Key{
		{Field: Drive}, {Field: Parking}, {Field: Own, Of: of}, {Field: Way, Of: of}, {Field: Walk, Of: of}, {Field: Early, Of: of},
		{Field: Setting, Sub: uint32(plan.DriveSlack)}, {Field: Setting, Sub: uint32(plan.CarMinutes)},
	} {
		for _, n := range [][2]int{{12, 20}, {20, 12}} {
			one, other := start.Settle(luis, k, strconv.Itoa(n[0])), start.Settle(ann, k, strconv.Itoa(n[1]))
			both := inAnyOrder(t, one, other)
			require.Equal(t, "20", both.value(k), "%v", k)
			require.Len(t, both.Questions(), 1, "it is asked about all the same")
		}
	}
}

// A link that claims acts which nobody made: what was changed meanwhile, and must not be missed, is kept and asked about.
func TestActsThatNobodyMade(t *testing.T) {
	start := New(rosa(t)).with(luis, func(p *plan.Plan) { p.Arrival, p.Program.Phone = 390, "555 555 0142" })
	claims := start.with(dana, func(p *plan.Plan) { p.Parking = 20 })
	for _, s := range start.Seen() {
		claims.SetSeen(Stamp{Actor: s.Actor, N: s.N + 1000})
	}
	claims.SetSeen(Stamp{Actor: ann, N: 1000})
	later := start.with(ann, func(p *plan.Plan) { p.Arrival, p.Program.Phone = 315, "555 555 0143" })
	both := inAnyOrder(t, claims, later)
	require.EqualValues(t, 315, both.Plan().Arrival, "the earlier is shown")
	require.Equal(t, []string{"315", "390"}, both.values(Key{Field: Arrival}))
	require.Subset(t, both.values(Key{Field: Phone}), []string{"555 555 0142", "555 555 0143"})
	require.Equal(t, []Key{{Field: Arrival}, {Field: Phone}}, both.asked())
}
