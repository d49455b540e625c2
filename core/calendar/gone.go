package calendar

import (
	"strconv"

	"newel/core/plan"
	"newel/core/schedule"
)

// mostRepeats is more than any step comes, or any list is due; own lines are entries by
// themselves.
const mostRepeats = 15

// goneTitle says what an entry was that is cancelled. The memory keeps no words but those of
// own lines; every step and duty that a plan can have gives a UID, and one of them is this
// one. "Cancelled" alone beside a time to stop eating could be believed of the wrong thing.
func (w *writer) goneTitle(k kept) string {
	if w.titles == nil {
		w.titles = w.everyTitle()
	}
	if title := w.titles[k.uid]; title != "" {
		return title
	}
	if k.words != "" {
		return w.Voice.Say("calendar.gone", arg("what", k.words))
	}
	return w.Voice.Say("calendar.cancelled")
}

// everyTitle gives the titles of all that a plan can make by itself, and of the family's
// duties that it has, by UID.
func (w *writer) everyTitle() map[string]string {
	titles := map[string]string{}
	for i := range w.Schedule.Series {
		w.oldTitles(titles, w.Schedule.Series[i])
	}
	add := func(key, what string) {
		titles[uid(w.plan.Number, key)] = w.Voice.Say("calendar.gone", arg("what", what))
	}
	for _, duty := range plan.BuiltIn {
		title := w.Voice.Entry(duty, "", w.Voice.Fills(w.plan, 0, 0)...).Title
		for _, branch := range branchKeys {
			add(duty+branch, title)
		}
	}
	for slot := range plan.MaxSlot + 1 {
		add(slot.Name(), w.Voice.Entry(plan.BuiltIn[plan.StayWith], "", w.Voice.Fills(w.plan, 0, 0)...).Title)
	}
	for _, branch := range branchKeys { // the whole stay is in parts now, so this is no loss
		key := plan.BuiltIn[plan.StayWith] + branch
		titles[uid(w.plan.Number, key)] = w.Voice.Say("calendar.old", arg("what", w.Voice.Entry(plan.BuiltIn[plan.StayWith], "", w.Voice.Fills(w.plan, 0, 0)...).Title))
	}
	for _, l := range w.plan.Lines { // one that was given no day any more
		add("line."+strconv.FormatUint(uint64(l.ID), 10), l.In(w.Voice.Language))
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

// oldTitles gives the titles of the entries that a duty of the plan can have had: it is
// still there, under another UID or with another helper.
func (w *writer) oldTitles(titles map[string]string, series schedule.Series) {
	d := series.Duty
	keys, say := []string{dutyKey(d.ID)}, "calendar.old"
	if !w.Choice.All && w.Choice.Duty == "" {
		keys = append(keys, shareKey(d.ID, shareMark(w.plan.Number, w.plan.Helper(w.Choice.Who))))
		if len(w.picked(w.Schedule, series)) == 0 {
			say = "calendar.not-yours"
		}
	}
	title := w.Voice.Say(say, arg("what", w.Voice.DutyTitle(d)))
	for _, key := range keys {
		for _, part := range []string{key, key + "." + partBack} {
			titles[uid(w.plan.Number, part)] = title
			for _, i := range series.Dates {
				titles[uid(w.plan.Number, part+dateKey(w.Schedule.Duties[i].On))] = title
			}
		}
	}
}
