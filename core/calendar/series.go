package calendar

import (
	"slices"
	"time"

	"newel/core/repeat"
	"newel/core/schedule"
	"newel/core/wall"
	"newel/core/zone"
)

// occurrence is one date of a duty, with the busy time that is written.
type occurrence struct {
	duty *schedule.Duty
	busy schedule.Span
	text func() text // made when it is needed: most dates share the series' own
}

// shifted moves a rule's time, over midnight if need be, together with its days, which
// go on by so many. days are the pattern's, moved; a rule without an end ends with the
// last of them. ok tells that the moved rule gives just these days. A monthly rule that
// goes over midnight does not: the day before the 1st is no day of a month.
func shifted(r repeat.Rule, minutes int) (q repeat.Rule, days []wall.Date, by int, ok bool) {
	const day = 24 * 60
	total := int(r.At) + minutes
	if by = total / day; total%day < 0 {
		by--
	}
	days, cut := r.Pattern()
	for i := range days {
		days[i] += wall.Date(by)
	}
	q = r
	q.Skipped, q.Moved, q.Extra = nil, nil, nil
	q.At = wall.Clock(total - by*day)
	q.First += wall.Date(by)
	if q.Last != 0 {
		q.Last += wall.Date(by)
	}
	if cut && len(days) > 0 {
		q.Last = days[len(days)-1]
	}
	turn := time.Weekday((by%7 + 7) % 7)
	q.Days, q.Week = turned(r.Days, turn), (r.Week+turn)%7
	q = q.Canonical()
	got, _ := q.Pattern()
	return q, days, by, slices.Equal(got, days)
}

// turned moves a set of weekdays on.
func turned(set repeat.Days, by time.Weekday) repeat.Days {
	var out repeat.Days
	for d := range time.Weekday(7) {
		if set.Has(d) {
			out |= repeat.DaysOf((d + by) % 7)
		}
	}
	return out
}

// course is a series on its way to be written.
type course struct {
	w      *writer
	base   event
	rule   repeat.Rule // of the starts
	exact  bool        // rule gives just days
	days   []wall.Date // the pattern's, as the starts have them
	at     map[wall.Date]*occurrence
	length time.Duration
}

// series writes the dates of a duty: one event with a rule, and where need be events
// for single dates. all is in order of time and not empty.
//
// The rule starts with its first date that is where the wall clock says; what comes
// before that stands alone. After it, a date that is elsewhere (moved by the family,
// or by a clock change between leaving and the appointment) is a RECURRENCE-ID. Only
// where the clocks skip the rule's time, readers differ about that date (RFC 5545
// 3.3.5 places it, 3.3.10 drops it): it is taken out and stands alone. An RDATE at the
// real time would not do, since EXDATE takes out whatever is at its own instant.
//
// all may be only some of the rule's dates, and some beside it. Without ruled the rule is
// not written, and every date by itself.
func (w *writer) series(base event, r repeat.Rule, ruled bool, all []occurrence) []event {
	usual := usualOf(all)
	c := &course{w: w, base: base, at: map[wall.Date]*occurrence{}, length: usual.busy.To.Sub(usual.busy.From)}
	c.base.lead = usual.lead()
	var by int
	c.rule, c.days, by, c.exact = shifted(r, -c.base.lead)
	c.exact = c.exact && ruled
	for i := range all {
		if on := all[i].duty.On; on.Kind != repeat.Added {
			c.at[on.Of+wall.Date(by)] = &all[i]
		}
	}
	from := slices.IndexFunc(c.days, c.startsSeries)
	if from < 0 {
		return c.singles(all)
	}
	events := []event{c.main(from)}
	for _, day := range c.days[:from] {
		if o := c.at[day]; o != nil {
			events = append(events, c.single(o))
		}
	}
	for i := from + 1; i < len(c.days); i++ {
		events = c.add(events, c.days[i])
	}
	for i := range all {
		on := all[i].duty.On
		if _, inRule := slices.BinarySearch(c.days, on.Of+wall.Date(by)); on.Kind == repeat.Added || !inRule {
			events = c.addExtra(events, &all[i])
		}
	}
	events[0].regular = c.regular(&events[0], from)
	return events
}

// regular is where the rule of a series and its RDATEs have its dates.
func (c *course) regular(e *event, from int) []stamp {
	all := append([]stamp{e.start}, e.extra...)
	if !c.exact {
		return all
	}
	for _, day := range c.days[from+1:] {
		s, _ := onWall(c.w.loc, day, c.rule.At)
		if !slices.ContainsFunc(e.skipped, func(k stamp) bool { return k.t.Equal(s.t) }) {
			all = append(all, s)
		}
	}
	return all
}

// plain tells whether a date is just where the rule's wall clock has it.
func (c *course) plain(o *occurrence, day wall.Date) bool {
	if o == nil {
		return false
	}
	s, fit := onWall(c.w.loc, day, c.rule.At)
	return fit != zone.Skipped && o.duty.Fit == zone.Exact && s.t.Equal(o.busy.From) && o.busy.To.Sub(o.busy.From) == c.length
}

// startsSeries tells whether DTSTART and DTEND can be those of this day. The wall has
// to be able to say the end too.
func (c *course) startsSeries(day wall.Date) bool {
	o := c.at[day]
	return c.plain(o, day) && instant(c.w.loc, o.busy.To).form == local
}

// main is the event with the rule, which starts with the from'th day.
func (c *course) main(from int) event {
	e, o := c.base, c.at[c.days[from]]
	e.start, _ = onWall(c.w.loc, c.days[from], c.rule.At)
	e.end = instant(c.w.loc, o.busy.To)
	e.text = o.text()
	if from == len(c.days)-1 {
		c.exact = false // a rule for a single date is none
		return e
	}
	r := c.rule
	r.First = c.days[from]
	if r.Count > 0 {
		r.Count -= from
	}
	r = r.Canonical()
	days, _ := r.Pattern()
	if c.exact = c.exact && slices.Equal(days, c.days[from:]); c.exact {
		e.rule = r.Recur(c.w.loc)
		e.last, _ = onWall(c.w.loc, days[len(days)-1], c.rule.At)
	}
	return e
}

// add puts a day of the pattern into the series, events[0].
func (c *course) add(events []event, day wall.Date) []event {
	o, e := c.at[day], &events[0]
	s, fit := onWall(c.w.loc, day, c.rule.At)
	switch {
	case !c.exact:
		if o != nil {
			return append(events, c.single(o))
		}
	case o == nil:
		e.skipped = append(e.skipped, s)
	case c.plain(o, day):
	case fit == zone.Skipped:
		e.skipped = append(e.skipped, s)
		return append(events, c.single(o))
	default:
		m := moved{of: s, text: o.text()}
		m.start, m.end = c.w.ends(o.busy)
		e.moved = append(e.moved, m)
		c.noteLead(e, o)
	}
	return events
}

// addExtra puts a date beside the pattern into the series, as an RDATE where it has
// the series' length, is after its start, and is not at an instant that is taken out.
// At another time of day it has words of its own. Without an RRULE every date is an event
// of its own: RFC 5545 3.8.5.2 lets RDATE stand alone, but ical.js then loses DTSTART.
func (c *course) addExtra(events []event, o *occurrence) []event {
	e, s := &events[0], instant(c.w.loc, o.busy.From)
	taken := slices.ContainsFunc(e.skipped, func(k stamp) bool { return k.t.Equal(s.t) })
	if e.rule == "" || s.form != local || taken || !s.t.After(e.start.t) || o.busy.To.Sub(o.busy.From) != c.length {
		return append(events, c.single(o))
	}
	e.extra = append(e.extra, s)
	c.noteLead(e, o)
	if t := o.text(); t != e.text {
		m := moved{of: s, text: t}
		m.start, m.end = c.w.ends(o.busy)
		e.moved = append(e.moved, m)
	}
	return events
}

// single is an event for one date alone.
func (c *course) single(o *occurrence) event {
	e := c.base
	e.key += dateKey(o.duty.On)
	if e.part == "" {
		e.part = partDate
	}
	e.start, e.end = c.w.ends(o.busy)
	e.lead = o.lead()
	e.text = o.text()
	return e
}

// dateKey is what a date that stands alone has at the end of its key.
func dateKey(on repeat.Occurrence) string {
	key := "." + on.Of.String()
	if on.Kind == repeat.Added {
		key += "." + on.At.String()
	}
	return key
}

// singles writes a duty of which no date is where the wall clock says. The first one
// has the duty's own UID.
func (c *course) singles(all []occurrence) []event {
	var events []event
	for i := range all {
		e := c.single(&all[i])
		if i == 0 {
			e.key, e.part = c.base.key, c.base.part
		}
		events = append(events, e)
	}
	return events
}
