package calendar

import (
	"strconv"

	"newel/core/plan"
	"newel/core/schedule"
)

// mostRepeats is more than any step comes, or any list is due.
const mostRepeats = 15

// goneTitle says what an entry was that the plan has no more. The memory keeps no words;
// but every step and duty that a plan can have gives a UID, and one of them is this one.
// "Cancelled" alone beside a time to stop eating could be believed of the wrong thing.
func (w *writer) goneTitle(id string) string {
	if w.titles == nil {
		w.titles = w.everyTitle()
	}
	if what := w.titles[id]; what != "" {
		return w.Voice.Say("calendar.gone", arg("what", what))
	}
	return w.Voice.Say("calendar.cancelled")
}

// everyTitle gives the titles of all that a plan can make by itself, by UID.
func (w *writer) everyTitle() map[string]string {
	titles := map[string]string{}
	add := func(key, title string) { titles[uid(w.plan.Number, key)] = title }
	for _, duty := range plan.BuiltIn {
		title := w.Voice.Entry(duty, "", w.Voice.Fills(w.plan, 0, 0)...).Title
		for _, branch := range branchKeys {
			add(duty+branch, title)
		}
	}
	lists := map[string]bool{}
	for i := range schedule.Kinds {
		k := &schedule.Kinds[i]
		if schedule.Gathered[k.List] {
			if !lists[k.List] {
				lists[k.List] = true
				for n := range mostRepeats {
					add("list."+k.List+"."+strconv.Itoa(n), w.Voice.Say("do."+k.List))
				}
			}
			continue
		}
		for n := range mostRepeats {
			add("step."+k.ID+"."+strconv.Itoa(n), w.Voice.General(k).Title)
		}
	}
	return titles
}
