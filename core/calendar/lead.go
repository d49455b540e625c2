package calendar

import (
	"strconv"
	"time"

	"newel/core/repeat"
	"newel/core/wall"
)

// lead is how many minutes a date's own time is after its start.
func (o *occurrence) lead() int { return int(o.duty.Session.From.Sub(o.busy.From) / time.Minute) }

// usualOf is the date whose start and length the series has: the first, but where the
// helpers' own ways differ one of those that most dates have.
func usualOf(all []occurrence) *occurrence {
	best, most := &all[0], 0
	count := map[int]int{}
	for i := range all {
		own := all[i].duty.Own
		if count[own]++; count[own] > most {
			most = count[own]
		}
	}
	for i := range all {
		if count[all[i].duty.Own] == most {
			best = &all[i]
			break
		}
	}
	return best
}

// noteLead says in the series that a date's own time is not as far from its start as usual.
func (c *course) noteLead(e *event, o *occurrence) {
	if lead := o.lead(); lead != c.base.lead {
		e.leads = append(e.leads, leadKey(o.duty.On.Of, o.duty.On.Kind == repeat.Added)+"="+strconv.Itoa(lead))
	}
}

// leadKey names a date by its day in the pattern, or an extra one by its own.
func leadKey(day wall.Date, extra bool) string {
	if extra {
		return day.String() + "+"
	}
	return day.String()
}
