package calendar

import (
	"strconv"
	"strings"

	"newel/core/guide"
	"newel/core/schedule"
	"newel/core/wall"
)

// steps writes the lines of the lists. What has a time of day is at that time and
// takes none; the rest is all day and leaves the day free.
func (w *writer) steps() {
	type due struct {
		list string
		day  wall.Date
	}
	var order []due
	together := map[due][]*schedule.Step{}
	for i := range w.Schedule.Steps {
		s := &w.Schedule.Steps[i]
		if s.Due == schedule.Undated {
			continue
		}
		if !schedule.Gathered[s.List] || s.Line != nil { // own lines come and go, and must not change whose day is whose
			w.events = append(w.events, w.step(s))
			continue
		}
		for day := s.First; day <= s.Last; day++ {
			k := due{s.List, day}
			if together[k] == nil {
				order = append(order, k)
			}
			together[k] = append(together[k], s)
		}
	}
	count := map[string]int{}
	for _, k := range order {
		w.events = append(w.events, w.list(k.list, count[k.list], k.day, together[k]))
		count[k.list]++
	}
}

// stepKey is what the UID of a line is made from.
func stepKey(s *schedule.Step) string {
	if s.Line != nil {
		return "line." + strconv.FormatUint(uint64(s.Line.ID), 10)
	}
	return "step." + s.ID + "." + strconv.Itoa(s.N)
}

// words are those of a line; an own one has no more than its text.
func (w *writer) words(s *schedule.Step) guide.Entry {
	if s.Line != nil {
		return guide.Entry{Title: s.Line.In(w.Voice.Language)}
	}
	return w.Voice.Entry(s.ID, s.Variant, append(w.Voice.Fills(w.plan, s.N, s.Of),
		arg("heavy", w.Voice.Time(w.Schedule.Fasting.HeavyStop)), arg("early", w.Voice.Time(w.Schedule.EarlyArrival())))...)
}

// step writes one line.
func (w *writer) step(s *schedule.Step) event {
	e := w.allDay(stepKey(s), s.First, s.Last)
	words := w.words(s)
	e.text.summary = words.Title
	if s.Line != nil {
		e.own = s.Line.In(w.Voice.Language)
	}
	var l lines
	switch {
	case s.Due == schedule.AtTime && s.BeforeLeaving: // it is done by then; at that time it would be too late
		e.text.summary = w.Voice.Say("calendar.before-leaving", arg("what", words.Title), arg("time", w.Voice.Time(s.Until)))
	case s.Due == schedule.AtTime:
		e.start, e.end = w.ends(schedule.Span{From: s.Until, To: s.Until})
		e.free = false
		e.text.summary = w.Voice.Say("calendar.by", arg("what", words.Title), arg("time", w.Voice.Time(s.Until)))
		if s.List == "eat" {
			l.add(w.Voice.Say("team-first"))
		}
	case s.Due == schedule.Through:
		l.add(w.Voice.Span(s.From, s.Until))
	case s.Due == schedule.Onward:
		l.add(w.Voice.Until(s.ID))
	case s.Evening:
		l.add(w.Voice.Say("label.evening"))
	}
	if s.Due == schedule.Onward {
		e.text.summary = w.Voice.Say("calendar.from-today", arg("what", words.Title))
	}
	if s.Who == schedule.Patient { // in a helper's calendar it would read as the helper's
		e.text.summary = w.Voice.Say("calendar.of", arg("who", w.Voice.Patient(w.plan)), arg("what", e.text.summary))
	}
	for _, line := range words.How {
		l.add(line.Text)
	}
	w.close(&l)
	if s.Due == schedule.AtTime || s.Due == schedule.Through {
		l.add(w.Voice.Say("calendar.zone", arg("zone", w.plan.Zone)))
	}
	e.text.description = l.text()
	if s.AtHospital {
		e.text.location = w.hospital()
	}
	return e
}

// list writes the lines of a list that are due on one day.
func (w *writer) list(name string, n int, day wall.Date, steps []*schedule.Step) event {
	if len(steps) == 1 { // a line alone needs no list around it
		alone := *steps[0]
		alone.First, alone.Last = day, day
		e := w.step(&alone)
		e.key = "list." + name + "." + strconv.Itoa(n)
		return e
	}
	e := w.allDay("list."+name+"."+strconv.Itoa(n), day, day)
	e.text.summary = w.Voice.Say("do." + name)
	var l lines
	for _, s := range steps {
		l.add("- " + strings.TrimSpace(w.words(s).Title))
	}
	w.close(&l)
	e.text.description = l.text()
	return e
}

// allDay covers the days from first to last; the end of an all-day event is the day
// after its last (RFC 5545 3.6.1).
func (w *writer) allDay(key string, first, last wall.Date) event {
	return event{
		key: key, sequence: int(w.plan.Revision), free: true,
		start: onDay(w.loc, first), end: onDay(w.loc, last+1),
	}
}
