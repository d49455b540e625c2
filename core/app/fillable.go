package app

import (
	"newel/core/page"
	"newel/core/split"
)

// fills tells whether one tap would give any date without somebody who can to somebody: where
// it would not, no button may promise it. Where only a suggestion could tell, since people would
// have to change with one another for it, there is no such button either: the page leads to the
// suggestion, which can be read before it is accepted. So every page of a plan is made at once,
// on every phone alike.
func (s *session) fills(in page.Input) bool {
	if in.Report.Count[split.Open]+in.Report.Count[split.Cannot] == 0 {
		return false
	}
	return in.Report.Takable(func(duty int) bool { return page.Unsettled(in, duty) })
}
