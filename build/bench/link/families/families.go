// Package families holds the plans that the benchmark of the link measures, and the same
// plans as JSON for the peers (natural.go).
//
// Starter is what a navigator texts where the page knows the hospital's program by number;
// Settings is one where the hospital's own settings travel inside; Family is what a whole
// family has made of it after weeks; Merged is the same family's plan as it grew on five
// devices, with the stamps of every change.
//
// All names, places and numbers are invented. Nobody who wrote the corpus of core/pack had
// these texts, and whoever wrote these had not read the corpus.
package families

import (
	"newel/core/merge"
	"newel/core/plan"
	"newel/core/wall"
)

// The day of surgery in all plans is Tuesday 9 March 2027.
const surgery wall.Date = 20886

// Plan is one plan to be measured.
type Plan struct {
	Name  string // the row's, as in link/family
	Doc   *merge.Doc
	Steps []Step // how it grew; only of a plan with stamps
}

// Stamped tells whether the plan carries the stamps of its changes.
func (p *Plan) Stamped() bool { return p.Steps != nil }

// All gives the plans in the order of the rows.
func All() []Plan {
	merged, steps := grown(devices)
	return []Plan{
		{Name: "starter", Doc: merge.New(starter())},
		{Name: "settings", Doc: merge.New(settings())},
		{Name: "family", Doc: merge.New(family())},
		{Name: "family-merge", Doc: merged, Steps: steps},
	}
}

// starter has the four facts and the number of a program.
func starter() plan.Plan {
	base := plan.BaseOf(1)
	return plan.Plan{
		Number: 0x8f1c02d7, Surgery: surgery, Arrival: 5*60 + 30, Zone: base.Zone,
		Drive: plan.Unknown, Parking: plan.Unknown, Program: base.Program,
	}
}

// settings has a hospital's own settings instead of a number: nearly as much text as fits,
// and ten rules.
func settings() plan.Plan {
	p := starter()
	p.Zone = "America/New_York"
	p.Program = plan.Program{
		Hospital: "Ravensmoor Joint & Spine Center, Winslow",
		Address:  "2270 Old Tannery Pike, Building C, Winslow Gap; park in garage B, third level, and take the blue elevator to the lobby",
		Phone:    "555-0187, the nurse line, open 7 to 5",
	}
	for rule, value := range map[plan.Rule]int{
		plan.WashDays: 3, plan.NoShaveHours: 72, plan.FoodStop: 24 * 60, plan.LiquidsBefore: 180, plan.PrepMinutes: 90,
		plan.FirstMax: 120, plan.RecoveryMin: 45, plan.DischargeLeave: 11 * 60, plan.EquipmentDays: 21, plan.ClotDays: 30,
	} {
		if !p.Program.Set(rule, value) {
			panic("families: a setting is outside its range")
		}
	}
	return p
}

// family is the whole plan, as if one device had made it: no stamps.
func family() plan.Plan {
	merged, _ := grown(oneDevice)
	return merged.Plan()
}
