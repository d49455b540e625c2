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
