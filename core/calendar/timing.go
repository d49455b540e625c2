package calendar

import (
	"slices"
	"sort"
	"strconv"
	"strings"
	"time"
)

// timing is when an event or a series is, as instants: what RFC 5546 2.1.4 counts as a
// change that needs a new SEQUENCE, its status aside.
type timing struct {
	start, end     time.Time
	rule           string
	skipped, extra []time.Time
	moved          [][3]time.Time // of, start, end
}

// print is a fingerprint. It does not depend on the order of dates, nor on whether one
// is written in UTC, since other programs change both.
func (t timing) print() string {
	var b strings.Builder
	add := func(label string, list []time.Time) {
		seconds := make([]int64, len(list))
		for i := range list {
			seconds[i] = list[i].Unix()
		}
		// Through package sort: a generic sort is compiled anew for each type.
		sort.Slice(seconds, func(i, j int) bool { return seconds[i] < seconds[j] })
		b.WriteString(label)
		for _, s := range slices.Compact(seconds) {
			b.WriteString(" " + strconv.FormatInt(s, 10))
		}
	}
	add("from", []time.Time{t.start})
	add(" to", []time.Time{t.end})
	b.WriteString(" " + strings.ToUpper(t.rule))
	add(" not", t.skipped)
	add(" also", t.extra)
	list := slices.Clone(t.moved)
	sort.Slice(list, func(i, j int) bool { return list[i][0].Before(list[j][0]) })
	for _, m := range list {
		add(" of", m[:1])
		add(" at", m[1:2])
		add(" to", m[2:])
	}
	return hash(b.String())
}

func (e *event) timing() timing {
	t := timing{start: e.start.t, end: e.end.t, rule: e.rule}
	for _, s := range e.skipped {
		t.skipped = append(t.skipped, s.t)
	}
	for _, s := range e.extra {
		t.extra = append(t.extra, s.t)
	}
	for _, m := range e.moved {
		if m.gone { // as it is read again, without a time of its own
			m.start.t, m.end.t = time.Time{}, time.Time{}
		}
		t.moved = append(t.moved, [3]time.Time{m.of.t, m.start.t, m.end.t})
	}
	return t
}
