package app

import (
	"sync"

	"newel/core/merge"
	"newel/core/plan"
	"newel/core/schedule"
)

// What one answer works out the next one mostly needs too: a screen is made anew each minute, and
// a tap begins with the plan that the screen showed. Nobody changes a document, a plan that it
// shows or a schedule, so what is in here changes no answer.

// planOf is merge.Doc.Plan, put together once for each document.
func planOf(d *merge.Doc) plan.Plan { return d.Shown() }

// lastLaid are the schedules that were laid out last, the latest first.
var lastLaid struct {
	sync.Mutex
	all [4]*schedule.Schedule
}

// layOut is schedule.Build. Plans are compared by what they say, which takes a thousandth of
// laying one out.
func layOut(p plan.Plan) (*schedule.Schedule, error) {
	l := &lastLaid
	l.Lock()
	defer l.Unlock()
	for i, was := range l.all {
		if was != nil && was.Plan.SameTicks(&p) && was.Plan.SameFacts(p) {
			copy(l.all[1:i+1], l.all[:i])
			l.all[0] = was
			return was, nil
		}
	}
	s, err := schedule.Build(p)
	if err == nil {
		copy(l.all[1:], l.all[:])
		l.all[0] = s
	}
	return s, err
}
