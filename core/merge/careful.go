package merge

import (
	"math"
	"slices"

	"newel/core/plan"
)

// spans are the minutes of which the sum is taken off a time to say when to leave.
var spans = []Field{Drive, Parking, Own, Way, Walk, Early}

// rank orders the values of a register of which the careful one is shown while two stand: the
// least. It is nil for every other register.
//
//   - the earlier surgery day and arrival: being ready too early does less harm than being late;
//   - the lower fever and the fewer days without a bowel movement: the office is called sooner;
//   - food and liquids are stopped earlier: an empty stomach at the operation is the point of
//     it (ASA 2017, 2023);
//   - a way, parking, the walk from the car and the time to be early take longer: whoever leaves
//     too early waits, whoever leaves too late is late (common practice, no published source);
//   - of a device's counts the greatest (RFC 5546 2.1.4: a SEQUENCE never falls).
func (k Key) rank() func(value string) int {
	switch {
	case k.Field == Surgery || k.Field == Arrival:
		return lowest
	case k.Field == Moves || slices.Contains(spans, k.Field):
		return greatest
	case k.Field != Setting:
		return nil
	}
	switch plan.Rule(k.Sub) {
	case plan.Fever:
		return warmth
	case plan.BowelDays:
		return fewestDays
	case plan.FoodStop:
		return lowest
	case plan.LiquidsBefore, plan.DriveSlack, plan.CarMinutes:
		return greatest
	}
	return nil
}

func lowest(value string) int { return numberOr(value, 0) }

func greatest(value string) int { return -numberOr(value, 0) }

// fewestDays ranks days after which to call. That there is no number ranks last.
func fewestDays(value string) int {
	if n := numberOr(value, 0); n >= plan.Rules[plan.BowelDays].Min {
		return n
	}
	return math.MaxInt32
}

// warmth ranks temperatures of either scale, as fiftieths of a degree Fahrenheit, which has no
// remainder: °F is °C times 9/5 plus 32 (BIPM, SI Brochure, 9th ed., 2.3.1; NIST SP 811 B.8).
// What is no temperature, such as that there is no number, ranks last.
func warmth(value string) int {
	n := numberOr(value, 0)
	celsius, ok := plan.Celsius(n)
	switch {
	case !ok:
		return math.MaxInt32
	case celsius:
		return 9*n + 32*50
	}
	return 5 * n
}
