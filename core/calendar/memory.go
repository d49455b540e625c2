package calendar

import (
	"strconv"
	"strings"

	"newel/core/wall"
)

// The memory is a line for each UID: UID, SEQUENCE, fingerprint of the timing, DTSTART
// in UTC or as a date, and "-" once it was cancelled. It is kept on the device: it can
// be damaged or of another version, so a line that does not fit is passed over.

// mostKept bounds the memory, in lines; a line has about 80 bytes.
const mostKept = 400

// maxSequence bounds what is read; INTEGER goes to 2147483647 (RFC 5545 3.3.8).
const maxSequence = 1 << 30

type kept struct {
	uid, print, start string
	sequence          int
	gone              bool
}

// remember sets the sequence of every event, adds the cancellations, and gives the new
// memory.
func (w *writer) remember() string {
	before := readMemory(w.Before)
	known := map[string]kept{}
	for _, k := range before {
		known[k.uid] = k
	}
	var now []kept
	for i := range w.events {
		e := &w.events[i]
		id := e.id(w.plan.Number)
		print := hash(e.timing().print() + e.start.text() + w.loc.String() + e.status())
		if old, ok := known[id]; ok {
			n := old.sequence
			if old.print != print {
				n++
			}
			e.sequence = max(e.sequence, n)
		}
		delete(known, id)
		now = append(now, kept{id, print, e.start.memory(), e.sequence, false})
	}
	for _, k := range before {
		if _, left := known[k.uid]; left {
			now = append(now, w.cancel(k))
		}
	}
	return writeMemory(now)
}

// cancel writes what is no longer in the file once more, as cancelled.
func (w *writer) cancel(k kept) kept {
	if k.gone {
		return k
	}
	k.gone = true
	k.sequence, k.print = k.sequence+1, "0" // no timing has that: what comes back is changed
	s := w.remembered(k.start)
	w.events = append(w.events, event{
		uid: k.uid, sequence: k.sequence, start: s, end: s, cancelled: true, free: s.form == date,
		text: text{summary: w.Voice.Say("calendar.cancelled")},
	})
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

func writeMemory(list []kept) string {
	var b strings.Builder
	for i, k := range list {
		if i == mostKept {
			break
		}
		b.WriteString(k.uid + " " + strconv.Itoa(k.sequence) + " " + k.print + " " + k.start)
		if k.gone {
			b.WriteString(" -")
		}
		b.WriteString("\n")
	}
	return b.String()
}

func readMemory(text string) []kept {
	var list []kept
	seen := map[string]bool{}
	for line := range strings.Lines(text) {
		f := strings.Fields(line)
		if len(list) == mostKept {
			break
		}
		if len(f) < 4 || len(f) > 5 || !isUID(f[0]) || seen[f[0]] || len(f[2]) > 16 {
			continue
		}
		n, err := strconv.ParseUint(f[1], 10, 32)
		v, ok := readValue(f[3])
		if err != nil || n > maxSequence || !ok || v.form == local {
			continue
		}
		seen[f[0]] = true
		list = append(list, kept{uid: f[0], print: f[2], start: f[3], sequence: int(n), gone: len(f) == 5})
	}
	return list
}
