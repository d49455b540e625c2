// Package check holds the gates: rules about the sources that a machine keeps.
// Each gate is a function from the repository's folder to a list of problems,
// one sentence each; an empty list means that the rule holds.
//
// What each gate forbids is data near the top of its file: the layering table
// in layers.go, the imports and calls closed to the core in purity.go, the raw
// template tags that are allowed in rawtags.go.
package check

import (
	"newel/build/templates"
)

// Gate is one rule and the words it is known by in the report.
type Gate struct {
	Name string
	Run  func(root string) ([]string, error)
}

// Gates are all rules, in the order in which they are reported.
var Gates = []Gate{
	{"the generated templates are up to date", templates.Stale},
	{"the templates escape everything they write", RawTags},
	{"gofmt has nothing to change", Format},
	{"the core stays pure", Purity},
	{"nothing in the core calls itself without a bound", Recursion},
	{"packages import only what their layer may", Layers},
	{"no package registry is named", Registries},
	{"everything that is downloaded is pinned", Pinned},
}
