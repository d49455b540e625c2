package calendar

import (
	"slices"
	"strconv"

	"newel/core/plan"
	"newel/core/schedule"
)

// dutyKey is the item key of a family's duty, and its name in Choice.Duty.
func dutyKey(id uint16) string { return "f" + strconv.Itoa(int(id)) }

// family writes the family's chosen duties, in the order of the plan.
func (w *writer) family() {
	w.familyOf(w.Schedule)
	if s := w.droppedOnes(); s != nil {
		w.familyOf(s)
	}
}

// droppedOnes is the schedule as it would be if only the chosen duties that were taken
// out still stood, so that their cancellation says which times are free again.
func (w *writer) droppedOnes() *schedule.Schedule {
	p := *w.plan
	p.Duties = slices.Clone(p.Duties)
	p.Duties = slices.DeleteFunc(p.Duties, func(d plan.Duty) bool {
		return !d.Dropped || !w.chosen(dutyKey(d.ID), d.Who)
	})
	if len(p.Duties) == 0 {
		return nil
	}
	for i := range p.Duties {
		p.Duties[i].Dropped = false
	}
	s, err := schedule.Build(p)
	if err != nil {
		panic("calendar: the plan had a schedule before: " + err.Error())
	}
	return s
}

func (w *writer) familyOf(s *schedule.Schedule) {
	for _, series := range s.Series {
		d := series.Duty
		if len(series.Dates) == 0 || !w.chosen(dutyKey(d.ID), d.Who) {
			continue
		}
		base := event{
			key: dutyKey(d.ID), sequence: int(d.Revision), duty: w.plan.Duty(d.ID),
		}
		base.cancelled = base.duty.Dropped
		for part := range parts(&s.Duties[series.Dates[0]]) {
			w.events = append(w.events, w.part(base, s, series, part)...)
		}
	}
}

// parts is in how many spans of time a date of a duty is written.
func parts(d *schedule.Duty) int { return max(1, len(d.Busy())) }

// part writes the part'th span of every date of a duty.
func (w *writer) part(base event, s *schedule.Schedule, series schedule.Series, part int) []event {
	if part > 0 {
		base.key += "." + partBack
		base.part = partBack
	}
	var all []occurrence
	for _, i := range series.Dates {
		d := &s.Duties[i]
		o := occurrence{duty: d, busy: d.Session, text: func() text { return w.familyText(d, part) }} // the appointment, while no more is known
		if busy := d.Busy(); part < len(busy) {
			o.busy = busy[part]
		}
		all = append(all, o)
	}
	return w.series(base, series.Duty.Rule, all)
}
