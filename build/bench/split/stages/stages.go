// Package stages names how far the benchmark of the split lets a solver go, and is what the
// program that is measured says of one family.
package stages

import "newel/core/assign"

// Stage is how far a solver goes. Its time counts from the beginning, with all before.
type Stage struct {
	Name  string // as in split/300x8-level2
	Until assign.Level
}

// All are the stages in the order of the rows. The levels' names in rows are those of the
// programme: 1 is cover with its three tiers, 2 the largest load, 3 the pairs.
var All = []Stage{
	{"level1", assign.CoverNice},
	{"level2", assign.Peak},
	{"level3", assign.Pairs},
	{"all", assign.LevelEnd - 1},
}

// Report is what the program prints of one family.
type Report struct {
	Ms     [][]float64   // by stage: milliseconds, once for each round
	Answer assign.Answer // with all levels
}
