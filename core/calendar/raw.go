package calendar

import (
	"strings"
	"time"

	ical "github.com/emersion/go-ical"

	"newel/core/repeat"
	"newel/core/wall"
	"newel/core/zone"
)

// when is a time of a file, placed. A date alone has only its day.
type when struct {
	t      time.Time
	loc    *time.Location // the zone in which it was written; the plan's for one without
	tzid   string         // where the zone is taken for the plan's
	day    wall.Date      // as written, on the wall of loc
	at     wall.Clock     // the same
	isDate bool
	single bool // it stood alone in an event of ours
}

// raw is an event as it stands in the file, with its times placed.
type raw struct {
	start          when
	end            time.Time // start.t where there is none
	rule           string
	skipped, extra []when
	moved          []rawMove
}

type rawMove struct {
	of         when
	start, end time.Time
	gone       bool
	words      bool // it says something else than the series
}

// place puts a value in a zone. why is a code of Left, and value what it is about.
func (r *reader) place(v value, tzid string) (w when, why, value string) {
	w.day, w.at, w.loc = wall.DateOf(v.wall), wall.Clock(v.wall.Hour()*60+v.wall.Minute()), r.loc
	switch {
	case w.day < wall.FirstDate || w.day > wall.LastDate:
		return w, LeftDate, w.day.String()
	case v.form == date:
		w.isDate = true
		return w, "", ""
	case v.form == utc:
		w.t, w.loc = v.wall, time.UTC
		return w, "", ""
	}
	asPlan := false
	if tzid != "" {
		if w.loc, asPlan = r.zones.load(tzid); w.loc == nil {
			return w, LeftZone, tzid
		}
	}
	year, month, day := v.wall.Date()
	w.t, _ = zone.At(w.loc, year, month, day, v.wall.Hour(), v.wall.Minute())
	w.t = w.t.Add(time.Duration(v.wall.Second()) * time.Second)
	if asPlan {
		w.tzid = tzid
		if !r.zones.same(tzid, w.t) {
			return w, LeftZoneDiff, tzid
		}
	}
	return w, "", ""
}

// times reads a property that may hold a list. A PERIOD gives its start; what is no
// time is told about and passed over.
func (r *reader) times(what string, props []ical.Prop) []when {
	var all []when
	n := 0
	for _, p := range props {
		for text := range strings.SplitSeq(p.Value, ",") {
			text, _, _ = strings.Cut(strings.TrimSpace(text), "/")
			v, ok := readValue(text)
			if n++; n > repeat.MaxCount { // more than a rule can use; see raw
				return all
			}
			if !ok {
				r.left(what, LeftDate, text)
				continue
			}
			w, why, about := r.place(v, p.Params.Get(ical.ParamTimezoneID))
			if why != "" {
				r.left(what, why, about)
				continue
			}
			all = append(all, w)
		}
	}
	return all
}

// time reads a property that holds one time.
func (r *reader) time(c *ical.Component, name string) (w when, why, value string) {
	p := c.Props.Get(name)
	if p == nil {
		return w, LeftNoStart, ""
	}
	v, ok := readValue(strings.TrimSpace(p.Value))
	if !ok {
		return w, LeftNoStart, p.Value
	}
	return r.place(v, p.Params.Get(ical.ParamTimezoneID))
}

// endOf is when an event ends; ok is false where it does not say, or says something
// that is not after its start.
func (r *reader) endOf(c *ical.Component, start time.Time) (end time.Time, ok bool) {
	if w, why, _ := r.time(c, ical.PropDateTimeEnd); why == "" && !w.isDate {
		end = w.t
	} else if d, ok := readDuration(strings.ToUpper(value1(c, ical.PropDuration))); ok {
		end = start.Add(d)
	}
	if !end.After(start) {
		return start, false
	}
	return end, true
}

// raw reads an event with its moved dates. why tells why it cannot be taken over.
func (r *reader) raw(g *group, what string) (e raw, why, value string) {
	if e.start, why, value = r.time(g.main, ical.PropDateTimeStart); why != "" {
		return e, why, value
	}
	if e.start.isDate {
		return e, LeftAllDay, e.start.day.String()
	}
	e.end, _ = r.endOf(g.main, e.start.t)
	rules := g.main.Props[ical.PropRecurrenceRule]
	switch {
	case len(rules) > 1:
		return e, LeftRules, ""
	case len(g.main.Props["EXRULE"]) > 0:
		return e, LeftExRule, ""
	case len(rules) == 1:
		e.rule = strings.TrimSpace(rules[0].Value)
	}
	e.skipped = r.times(what, g.main.Props[ical.PropExceptionDates])
	e.extra = r.times(what, g.main.Props[ical.PropRecurrenceDates])
	if len(e.skipped) >= repeat.MaxCount || len(e.extra) >= repeat.MaxCount {
		return e, repeat.ListFault, ""
	}
	for _, c := range g.rest {
		if m, ok := r.move(c, what); ok {
			m.words = !m.gone && otherWords(c, g.main)
			e.moved = append(e.moved, m)
		}
	}
	return e, "", ""
}

// move reads a moved or cancelled date. What cannot be taken over is told about.
func (r *reader) move(c *ical.Component, what string) (m rawMove, ok bool) {
	of, why, value := r.time(c, ical.PropRecurrenceID)
	if why == "" && c.Props.Get(ical.PropRecurrenceID).Params.Get(ical.ParamRange) != "" {
		why, value = LeftRange, of.isoDay()
	}
	if why != "" {
		r.left(what, why, value)
		return m, false
	}
	m.of, m.gone = of, cancelled(c)
	if m.gone {
		return m, true
	}
	start, why, value := r.time(c, ical.PropDateTimeStart)
	if why == "" && start.isDate {
		why, value = LeftMoveDay, of.isoDay()
	}
	if why != "" {
		r.left(what, why, value)
		return m, false
	}
	m.start = start.t
	m.end, _ = r.endOf(c, start.t)
	return m, true
}

func (w when) isoDay() string { return w.day.String() }

// timing is the event's, in the terms of what Write writes.
func (e *raw) timing() timing {
	t := timing{start: e.start.t, end: e.end, rule: e.rule}
	for _, w := range e.skipped {
		t.skipped = append(t.skipped, w.t)
	}
	for _, w := range e.extra {
		t.extra = append(t.extra, w.t)
	}
	for _, m := range e.moved {
		t.moved = append(t.moved, [3]time.Time{m.of.t, m.start, m.end})
	}
	return t
}

// minutes is how long the event lasts, rounded up; 0 where it does not say.
func (e *raw) minutes() int { return int((e.end.Sub(e.start.t) + time.Minute - 1) / time.Minute) }

// otherWords tells whether a date of a series says something else than the series.
func otherWords(c, main *ical.Component) bool {
	return title(c) != title(main) || location(c) != location(main) || note(c) != note(main)
}
