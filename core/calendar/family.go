package calendar

import (
	"slices"
	"strconv"

	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/wall"
)

// dutyKey is the item key of a family's duty, and its name in Choice.Duty.
func dutyKey(id uint32) string { return "f" + strconv.FormatUint(uint64(id), 10) }

// family writes the family's chosen duties, in the order of the plan.
func (w *writer) family() {
	w.familyOf(w.Schedule)
	if s := w.droppedOnes(); s != nil {
		w.familyOf(s)
	}
}

// droppedOnes is the schedule as it would be if only the chosen duties that were taken
// out still stood, so that their cancellation says which times are free again. Their dates
// are bound as those of a plan are, since plan.Check does not count what was taken out; what
// is beyond that and was in an earlier file is cancelled from memory.
func (w *writer) droppedOnes() *schedule.Schedule {
	p := *w.plan
	dates := 0
	p.Duties = slices.DeleteFunc(slices.Clone(p.Duties), func(d plan.Duty) bool {
		if !d.Dropped || !w.mayHave(&d) || dates >= plan.MaxDates {
			return true
		}
		days, _ := d.Rule.Pattern()
		dates += len(days) + len(d.Rule.Extra)
		return false
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

// mayHave tells whether any date of a duty of the family can go into the file.
func (w *writer) mayHave(d *plan.Duty) bool {
	if w.Choice.Duty != "" {
		return w.Choice.Duty == dutyKey(d.ID)
	}
	return w.Choice.All || d.Has(w.Choice.Who)
}

func (w *writer) familyOf(s *schedule.Schedule) {
	for _, series := range s.Series {
		if !w.mayHave(series.Duty) {
			continue
		}
		dates := w.picked(s, series)
		if len(dates) == 0 {
			continue
		}
		base := event{
			key: dutyKey(series.Duty.ID), sequence: int(series.Duty.Revision), duty: w.plan.Duty(series.Duty.ID),
		}
		base.cancelled = base.duty.Dropped
		if len(dates) < len(series.Dates) {
			w.shareOf(&base)
		}
		whose := w.holders(s, series, dates)
		for part := range parts(s, dates) {
			w.events = append(w.events, w.part(base, s, dates, part, whose)...)
		}
	}
}

// parts is in how many spans of time some dates of a duty are written: two where a helper
// has time to go home in between.
func parts(s *schedule.Schedule, dates []int) int {
	most := 1
	for _, i := range dates {
		most = max(most, len(s.Duties[i].Busy()))
	}
	return most
}

// part writes the part'th span of some dates of a duty, as far as they have it: who lives
// far away waits where another goes home.
func (w *writer) part(base event, s *schedule.Schedule, dates []int, part int, whose holders) []event {
	if part > 0 {
		base.key += "." + partBack
		base.part = partBack
	}
	var all []occurrence
	for _, i := range dates {
		d := &s.Duties[i]
		o := occurrence{duty: d, busy: d.Session, text: func() text { return w.familyText(d, part, whose) }} // the appointment, while no more is known
		busy := d.Busy()
		switch {
		case part < len(busy):
			o.busy = busy[part]
		case part > 0:
			continue
		}
		all = append(all, o)
	}
	d := s.Duties[dates[0]].Family
	if base.share == "" {
		return w.series(base, d.Rule, true, all)
	}
	rule, ruled := shareRule(d.Rule, func(day wall.Date) bool { return (d.WhoHas(day) == w.Choice.Who) != w.rest })
	return w.series(base, rule, ruled, all)
}
