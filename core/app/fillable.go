package app

import (
	"sync"

	"newel/core/page"
	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/split"
)

// lastFills is whether one tap would fill any date of the plan that was asked about last. A page
// is made anew each minute and with each tick, which changes nothing of it. What is in here
// changes no answer: the same plan with the same dates to come gives the same suggestion.
var lastFills struct {
	sync.Mutex
	plan  plan.Plan
	mark  string
	asked int
	fills bool
}

// fills tells whether one tap would give any date without somebody who can to somebody: where
// it would not, no button may promise it.
func (s *session) fills(in page.Input) bool {
	if in.Report.Count[split.Open]+in.Report.Count[split.Cannot] == 0 {
		return false
	}
	p, mark, asked := in.Schedule.Plan, openMark(in.Report), len(s.doc.Questions())
	lastFills.Lock()
	defer lastFills.Unlock()
	l := &lastFills
	if l.mark != mark || l.asked != asked || !l.plan.SameFacts(p) {
		fills := s.takesOne(in) || s.proposed(in)
		if s.out.Elsewhere {
			return false // nobody knows yet
		}
		l.plan, l.mark, l.asked, l.fills = p, mark, asked, fills
	}
	return l.fills
}

// takesMost is how many single dates are tried before the whole is worked out.
const takesMost = 8

// takesOne tells whether somebody could take a date just so, of the first few that need
// somebody: a suggestion covers that much then. It is mostly so, and four times as quick as a
// suggestion in the example, more in larger families.
func (s *session) takesOne(in page.Input) bool {
	tried := 0
	for _, f := range in.Report.Findings {
		if f.State != split.Open && f.State != split.Cannot || page.Unsettled(in, f.Duty) {
			continue
		}
		for i := range in.Schedule.Plan.Helpers {
			who := uint8(i + 1)
			if who == f.Who || in.Schedule.Plan.AboutOf(who).Out {
				continue
			}
			if tried++; tried > takesMost {
				return false
			}
			if s.covers(in, split.Line{Duty: f.Duty, From: f.Who, To: who}) {
				return true
			}
		}
	}
	return false
}

// covers tells whether fewer dates need somebody who can, once a line is taken over.
func (s *session) covers(in page.Input, line split.Line) bool {
	sched, err := schedule.Build(split.Apply(in.Schedule.Plan, in.Schedule, s.now, []split.Line{line}))
	if err != nil {
		return false
	}
	before, after := in.Report.Count, split.Look(sched, s.now).Count
	return after[split.Open]+after[split.Cannot] < before[split.Open]+before[split.Cannot]
}

// proposed is proposesAny, where this core can tell.
func (s *session) proposed(in page.Input) bool {
	if s.rooms.proposes == nil {
		s.out.Elsewhere = true
		return false
	}
	return s.rooms.proposes(s, in)
}

// proposesAny tells whether a suggestion for what is open gives any date to anybody.
func (s *session) proposesAny(in page.Input) bool {
	for _, line := range s.propose(in, split.FillOpen).Lines {
		if line.To != 0 {
			return true
		}
	}
	return false
}
