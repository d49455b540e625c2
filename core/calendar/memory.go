package calendar

import (
	"slices"
	"time"

	"newel/core/repeat"
	"newel/core/schedule"
	"newel/core/wall"
)

// The memory is a line for each UID: UID, SEQUENCE, fingerprint of the timing, DTSTART
// in UTC or as a date, "-" once it was cancelled, the dates that were ever written as
// moved, in UTC, and behind a tab the words of an own line, of which nothing else would tell
// what it was once it is taken out. It is kept on the device: it can be damaged or of another version, so a
// line that does not fit is passed over.
//
// What was cancelled is written as cancelled in every later file, since nobody knows
// which of the files was taken in. So is a date that was moved and no longer is: some
// calendars replace a series with all its dates, others each date by itself (UID and
// RECURRENCE-ID, RFC 5546 2.1.5), and those would keep the old time.

// mostKept bounds the memory, in lines; a line has about 80 bytes. Of an own line's words the
// first plan.MaxName characters are kept.
const mostKept = 400

// maxSequence bounds what is read; INTEGER goes to 2147483647 (RFC 5545 3.3.8).
const maxSequence = 1 << 30

type kept struct {
	uid, print, start string
	sequence          int
	gone              bool
	moved             []time.Time // in order
	words             string      // of an own line
}

// mostMoved bounds the dates of a line.
const mostMoved = repeat.MaxList

// remember sets the sequence of every event, adds the cancellations, and gives the new
// memory.
func (w *writer) remember() string {
	before := readMemory(w.Before)
	known := map[string]kept{}
	for _, k := range before {
		known[k.uid] = k
	}
	others := w.others()
	var now []kept
	for i := range w.events {
		e := &w.events[i]
		id := e.id(w.plan.Number)
		print := w.number(e, others[id])
		if old, ok := known[id]; ok {
			w.number(e, []kept{old})
		}
		ever := everMoved(e, known[id].moved)
		delete(known, id)
		now = append(now, kept{id, print, e.start.memory(), e.sequence, false, ever, firstWords(e.own)})
		w.again(e, ever)
	}
	if len(known) == 0 { // nothing is left over
		return writeMemory(now)
	}
	stands := w.leftOvers()
	for _, k := range before {
		if _, left := known[k.uid]; left {
			now = append(now, w.leftOver(k, stands[k.uid], others[k.uid]))
		}
	}
	return writeMemory(now)
}

// number gives an event a SEQUENCE that is not below what was written of it before, and
// above it where its timing is another (RFC 5546 2.1.4). print is its fingerprint.
func (w *writer) number(e *event, before []kept) (print string) {
	print = w.print(e)
	for _, old := range before {
		n := old.sequence
		if old.print != print {
			n++
		}
		e.sequence = max(e.sequence, n)
	}
	return print
}

// leftOver deals with what was in an earlier file and is not in this one. What the plan
// does not have any more is cancelled. A duty that somebody else has now, or the dates of
// it that are no longer this helper's, say so and take no time: cancelling them would take
// them out of a calendar that both look at. Nobody else's file has the part of a duty that
// was this helper's alone; that is cancelled where it is no longer needed. A step
// that was only not asked for this time is left as it is; nobody may read "cancelled"
// beside a time to stop eating.
func (w *writer) leftOver(k kept, e *event, others []kept) kept {
	switch {
	case e == nil || e.cancelled:
		return w.cancel(k)
	case e.duty == nil && !e.builtIn:
		return k
	}
	w.number(e, others)
	print := w.number(e, []kept{k})
	e.free, e.quiet = true, true
	notYours := func(t *text) { t.summary = w.Voice.Say("calendar.not-yours", arg("what", t.summary)) }
	notYours(&e.text)
	for i := range e.moved {
		notYours(&e.moved[i].text)
	}
	k.print, k.sequence, k.gone, k.start = print, e.sequence, false, e.start.memory()
	k.moved = everMoved(e, k.moved)
	w.again(e, k.moved)
	w.events = append(w.events, *e)
	return k
}

// print is the fingerprint of when an event is, and of its status.
func (w *writer) print(e *event) string {
	return hash(e.timing().print() + e.start.text() + w.loc.String() + e.status())
}

// everMoved adds the dates that an event has moved to those that it ever had.
func everMoved(e *event, before []time.Time) []time.Time {
	ever := slices.Clone(before)
	for _, m := range e.moved {
		if at, found := slices.BinarySearchFunc(ever, m.of.t, time.Time.Compare); !found && len(ever) < mostMoved {
			ever = slices.Insert(ever, at, m.of.t)
		}
	}
	return ever
}

// again writes the dates that were moved once and are not now: at the series' own time
// where it has them, else as cancelled.
func (w *writer) again(e *event, ever []time.Time) {
	length := e.end.t.Sub(e.start.t)
	for _, t := range ever {
		at := func(s stamp) bool { return s.t.Equal(t) }
		if slices.ContainsFunc(e.moved, func(m moved) bool { return m.of.t.Equal(t) }) {
			continue
		}
		of := instant(w.loc, t)
		m := moved{of: of, start: of, end: of, text: e.text, gone: true}
		if slices.ContainsFunc(e.regular, at) {
			m.gone = false
			m.start, m.end = w.ends(schedule.Span{From: t, To: t.Add(length)})
		}
		e.moved = append(e.moved, m)
	}
}

// cancel writes what is no longer in the file, as cancelled.
func (w *writer) cancel(k kept) kept {
	if !k.gone {
		k.gone = true
		k.sequence, k.print = k.sequence+1, "0" // no timing has that: what comes back is changed
	}
	s := w.remembered(k.start)
	e := event{
		uid: k.uid, sequence: k.sequence, start: s, end: s, cancelled: true, free: true,
		text: text{summary: w.goneTitle(k)},
	}
	w.again(&e, k.moved)
	w.events = append(w.events, e)
	return k
}

// memory writes a time in a form that needs no zone.
func (s stamp) memory() string {
	if s.form == date {
		return s.text()
	}
	return utcText(s.t)
}

// remembered reads it again.
func (w *writer) remembered(text string) stamp {
	v, _ := readValue(text)
	if v.form == date {
		return onDay(w.loc, wall.DateOf(v.wall))
	}
	return stamp{form: utc, t: v.wall}
}

// others is what the device remembers of its other files: an entry has one SEQUENCE,
// whichever file it comes in.
func (w *writer) others() map[string][]kept {
	found := map[string][]kept{}
	for _, memory := range w.Others {
		for _, k := range readMemory(memory) {
			found[k.uid] = append(found[k.uid], k)
		}
	}
	return found
}
