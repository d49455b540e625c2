package page

import (
	"newel/core/guide"
	"newel/core/plan"
)

// GivenLine is the page of a line that comes with the hospital's program: whose it is, and
// where it can be ticked.
type GivenLine struct {
	Voice    guide.Voice
	Fragment string
	Plan     *plan.Plan
	Line     *plan.Line
	Back     string // the path to come back to; empty: the plan's page
}

// Title is the title of the page.
func (g *GivenLine) Title() string { return g.Voice.Say("line.program.title") }

// from says whose line it is.
func (g *GivenLine) from() string {
	hospital := g.Plan.Program.Hospital
	if hospital == "" {
		hospital = g.Voice.Say("ask.arrival.hospital")
	}
	return g.Voice.Say("line.program", arg("hospital", hospital))
}

func (g *GivenLine) list() string {
	return g.Voice.Say("line.of", arg("list", g.Voice.Say("list."+plan.ListKeys[g.Line.List])))
}

func (g *GivenLine) backTo() string {
	if g.Back == "" {
		return "/"
	}
	return g.Back
}

// GivenLinePage makes the page.
func GivenLinePage(g GivenLine) string { return givenLinePage(&g) }
