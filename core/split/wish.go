package split

import (
	"newel/core/schedule"
	"newel/core/wall"
)

// wish is one thing that could be otherwise with one helper.
type wish struct {
	helper  int
	why     Why
	weekday int       // of the date on which the clock is; -1: about no weekday
	day     wall.Date // IsAway: that day
	starts  bool
	on      wall.Date // the date on which the clock is, of the duty that it is about
	clock   int       // minutes after midnight, whole fives
	length  int       // where both ends of the time would have to be otherwise: minutes from the clock to the end
	far     int       // minutes that it is from what they said, where it is about times
}

// group is what of a wish has to be the same for two wishes to be one with another clock.
func (w wish) group() wish {
	w.on, w.clock, w.far = 0, 0, 0
	return w
}

// within tells whether a wish holds whatever another of its group does.
func (w wish) within(other wish) bool {
	if w.starts {
		return w.clock >= other.clock
	}
	return w.clock <= other.clock
}

// mostFar is how many minutes a helper can be asked to be free earlier or later than they
// said. Ours: beyond it nobody would call it a small change.
const mostFar = 12 * 60

// wishFor gives the one thing that stands between a helper and some needs; ok is false where
// nothing does, more than one thing, or nothing that is small.
func (v *view) wishFor(helper int, needs []int) (wish, bool) {
	var w, whole wish
	var ok, may bool
	p := &v.people[helper]
	var room [8]obstacle
	for _, i := range needs {
		n := &v.needs[i]
		for _, o := range p.obstacles(v.s, n, room[:0]) {
			if w.why != 0 && o.why != w.why {
				return wish{}, false
			}
			if w.why == 0 {
				w, ok = v.wishAgainst(helper, n, o, false)
				whole, may = v.wishAgainst(helper, n, o, true)
			}
		}
	}
	for _, try := range [...]struct {
		wish
		small bool
	}{{w, ok}, {whole, may}} {
		if !try.small {
			continue
		}
		if granted := v.granted(try.wish, []wall.Date{try.on}); v.able(&granted, needs) {
			return try.wish, true
		}
	}
	return wish{}, false
}

// wishAgainst is the wish that would take an obstacle away; of times the whole of what a duty
// takes, or only one end of what they said. Nobody is asked to drive, to steady or to lift who
// said that they cannot: somebody could be hurt.
func (v *view) wishAgainst(helper int, n *need, o obstacle, whole bool) (wish, bool) {
	w := wish{helper: helper, why: o.why, weekday: -1}
	switch o.why {
	case NoCar, NoSteady:
		return w, false
	case NoNight, NoPets, IsOut:
		return w, !whole
	}
	p := &v.people[helper]
	spans, count := spansOf(v.s, v.duty(n), p.ownWay(v.duty(n)))
	for _, span := range spans[:count] {
		if len(p.notAt(span, nil)) == 0 {
			continue
		}
		if o.why == IsAway {
			w.day = wall.DateOf(timeAt(span.from, v.s.Loc))
			return w, !whole
		}
		if whole {
			return v.wishForAll(w, span, o)
		}
		return v.wishAtTimes(w, span, o)
	}
	return w, false
}

// wishAtTimes asks for the beginning or the end of a time to be otherwise: whichever is the
// smaller change where both would do.
func (v *view) wishAtTimes(w wish, span stretch, o obstacle) (wish, bool) {
	early, late := o.in.to-span.from, span.to-o.in.from // to be free from, or until
	canStart, canStay := o.in.from <= span.from, span.to <= o.in.to
	if o.why == NotThen {
		early, late = o.in.from-span.from, span.to-o.in.to
		canStart, canStay = early > 0 && span.to <= o.in.to, late > 0 && o.in.from <= span.from
	}
	w.starts = canStart && (!canStay || early <= late)
	minute := span.to
	w.far = late
	if w.starts {
		minute, w.far = span.from, early
	}
	w.onWall(minute, v.s)
	return w, (canStart || canStay) && w.far <= mostFar && o.in != (stretch{})
}

// wishForAll asks for the whole of a time: for nothing of it to be work, or for all of it to
// be free beside a free time that it overlaps.
func (v *view) wishForAll(w wish, span stretch, o obstacle) (wish, bool) {
	w.far = min(o.in.to, span.to) - max(o.in.from, span.from)
	if o.why == NotThen {
		w.far = span.to - span.from - w.far
	}
	end := w
	end.onWall(span.to, v.s)
	w.starts = true
	w.onWall(span.from, v.s)
	w.length = int(end.on-w.on)*24*60 + end.clock - w.clock
	return w, w.far <= mostFar && w.length <= 24*60 && o.in.from < span.to && span.from < o.in.to
}

// onWall rounds a minute to the five that are needed: a beginning down, an end up. The
// midnight that ends a day is that day's.
func (w *wish) onWall(minute int, s *schedule.Schedule) {
	t := timeAt(minute, s.Loc)
	day := wall.DateOf(t)
	w.clock = t.Hour()*60 + t.Minute()
	switch {
	case w.starts:
		w.clock -= w.clock % 5
	case w.clock == 0:
		day, w.clock = day-1, 24*60
	default:
		w.clock += (5 - w.clock%5) % 5
	}
	w.on, w.weekday = day, int(day.Weekday())
}
