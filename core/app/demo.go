package app

import (
	"slices"
	"strings"

	"newel/core/link"
	"newel/core/plan"
	"newel/core/wall"
)

// demoDays is how far away the example's surgery is.
const demoDays = 9

// demo opens the example: an invented family, hospital and town. It is a plan like
// any other and can be changed.
func (s *session) demo() {
	s.dropUntouchedDemos()
	p := DemoPlan(s.voice.Today, s.freshNumber())
	s.keep(keyDemo+planKey(p.Number), "1")
	s.keepPlan(p)
	s.plan(p)
	s.out.Focus = "title"
}

// dropUntouchedDemos clears away the examples that nobody changed, so that looking
// at one ten times does not leave ten plans on the device.
func (s *session) dropUntouchedDemos() {
	for key := range s.kept {
		n, ok := strings.CutPrefix(key, keyDemo)
		if !ok {
			continue
		}
		if p, err := link.Decode(s.kept[keyPlan+n]); err != nil || p.Edition == 1 {
			s.dropPlan(n)
		}
	}
	slices.Sort(s.out.Drop) // a map has no order, and the same request gives the same bytes
}

// DemoPlan is the example family's plan, with surgery nine days from today.
func DemoPlan(today wall.Date, number uint32) plan.Plan {
	return plan.Plan{
		Number: number, Edition: 1, Patient: "Rosa",
		Surgery: today + demoDays, Arrival: 5*60 + 30,
		Joint: plan.Knee, Operation: plan.First, Stay: plan.OneNight,
		Zone: "America/Chicago", Drive: 40, Parking: 15,
		Facts: plan.SoapGiven | plan.DrinkGiven | plan.HomeAnswered | plan.Stairs | plan.Pets |
			plan.Glasses | plan.Tub | plan.HearingAids,
		Program: plan.Program{
			Hospital: "Alder Ferry Hospital", Address: "12 Millrace Road, Alder Ferry", Phone: "555-0142",
		},
	}
}
