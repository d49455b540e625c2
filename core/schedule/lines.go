package schedule

import (
	"sort"

	"newel/core/plan"
	"newel/core/wall"
)

// ownKinds are the kinds of own lines, one for each list. They have neither code nor id: the
// words are the line's own.
var ownKinds = func() (kinds [plan.ListEnd]Kind) {
	for list, key := range plan.ListKeys {
		kinds[list] = Kind{List: key, Who: Both}
	}
	return kinds
}()

// ownLines are the own lines of the lists, list by list: those with a day in its order, then
// those without; of each the hospital's first. A day counts from surgery, so that a line
// moves along with it. What the hospital says of movements is nothing to be done, and so no
// step.
func (s *Schedule) ownLines() []Step {
	var all []Step
	for list := range plan.ListEnd {
		if list.Told() {
			continue
		}
		lines := plan.LinesOf(&s.Plan, list)
		sort.SliceStable(lines, func(i, j int) bool {
			a, b := lines[i].Day, lines[j].Day
			return a != plan.NoDay && (b == plan.NoDay || a < b)
		})
		for i := range lines {
			all = append(all, s.ownLine(&lines[i]))
		}
	}
	return all
}

func (s *Schedule) ownLine(l *plan.Line) Step {
	step := Step{Kind: &ownKinds[l.List], Line: l, Due: Undated}
	if l.Day != plan.NoDay {
		step.Due, step.First = ByDay, s.Plan.Surgery+wall.Date(l.Day)
		step.Last = step.First
	}
	return step
}
