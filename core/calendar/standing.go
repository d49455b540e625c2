package calendar

import (
	"newel/core/guide"
	"newel/core/schedule"
)

// leftOvers is what can still stand of earlier files of the same choice, by UID.
func (w *writer) leftOvers() map[string]*event {
	if w.Choice.All || w.Choice.Duty != "" {
		return whole(w.Schedule, w.Voice)
	}
	return notTheirs(w.Schedule, w.Voice, w.Choice.Who)
}

// whole is everything that a plan has, by UID, whoever has it and whatever was chosen.
func whole(s *schedule.Schedule, v guide.Voice) map[string]*event {
	w := &writer{plan: &s.Plan, loc: s.Loc}
	w.Schedule, w.Voice, w.Choice = s, v, Choice{All: true, Alarm: -1, Steps: true}
	return w.standing()
}

// notTheirs is the same without the dates of shared duties that one helper has: those are
// in that helper's file under UIDs of their own.
func notTheirs(s *schedule.Schedule, v guide.Voice, who uint8) map[string]*event {
	w := &writer{plan: &s.Plan, loc: s.Loc, rest: true}
	w.Schedule, w.Voice, w.Choice = s, v, Choice{All: true, Who: who, Alarm: -1, Steps: true}
	return w.standing()
}

func (w *writer) standing() map[string]*event {
	w.duties()
	w.family()
	w.steps()
	stands := map[string]*event{}
	for i := range w.events {
		stands[w.events[i].id(w.plan.Number)] = &w.events[i]
	}
	return stands
}
