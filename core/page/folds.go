package page

import (
	"slices"

	"newel/core/schedule"
)

// Two thirds of a plan's page are in folds that few people open in one sitting: the lists, the days
// that are far, what is kept up every day. To make, to send over and to hold all of that with each
// tap is most of what a slow phone would do. So such a fold has its title alone, until it is opened:
// then the shell (web/folds.ts) asks for the same screen with it.

// Folds tells which folds of a page have their inside. The zero value: all of them.
type Folds struct {
	open []string // ids; nil: all
}

// Has tells whether the fold with an id has its inside. What stands open by itself is not asked about.
func (f Folds) Has(id string) bool { return f.open == nil || slices.Contains(f.open, id) }

// mayLeave tells whether any inside may be left out.
func (f Folds) mayLeave() bool { return f.open != nil }

// closed makes a list of which only the title is shown, with how much of it is done.
func (m *maker) closed(l *List, steps []*schedule.Step) {
	done, boxes := 0, 0
	for _, s := range steps {
		if s.Once() {
			boxes++
			if s.Done(m.p) {
				done++
			}
		}
	}
	l.Left = len(steps) > 0
	l.count(m.v, done, boxes)
}

// near is how many days stand before the fold of those that are far.
func (v *View) near() int {
	if v.Far != "" {
		return v.Near
	}
	return len(v.Days)
}

// hasDaily tells whether what is kept up every day is on the page: it stands open once it counts.
func (v *View) hasDaily() bool { return v.DailyNow || v.Folds.Has("daily") }
