package split

import (
	"sync"
	"time"

	"newel/core/plan"
	"newel/core/wall"
)

const dayMinutes = 24 * 60

// occasion is one date of a repeating time.
type occasion struct {
	begins int     // on the wall, in minutes from 1970
	on     stretch // in elapsed time
}

// appendTimes lists the dates of a repeating time that may touch a stretch.
func appendTimes(all []stretch, t *plan.Times, loc *time.Location, within stretch) []stretch {
	until := int(t.Rule.At) + t.Length
	days := laidTimes{times: *t, loc: loc, from: wall.Date((within.from-until)/dayMinutes - 2), to: wall.Date(within.to/dayMinutes + 2)}
	for _, o := range occasionsOf(days) {
		// A zone is at most 14 hours from UTC, so a day on either side is enough; from and to leave two.
		if o.begins-dayMinutes > within.to || o.begins+t.Length+dayMinutes < within.from {
			continue
		}
		all = append(all, o.on)
	}
	return all
}

// laidTimes are the dates of a repeating time from one day to another, in a zone.
type laidTimes struct {
	times    plan.Times
	loc      *time.Location
	from, to wall.Date
	all      []occasion
}

func (l *laidTimes) same(m *laidTimes) bool {
	return l.loc == m.loc && l.from == m.from && l.to == m.to && l.times.Equal(m.times)
}

// lastLaid are those that were laid out last: a family's working hours are the same in each
// answer, and to place hundreds of them on the clocks of a zone is most of a look at its plan.
// They are known by all that they are made of, so what is in here changes no answer.
var lastLaid struct {
	sync.Mutex
	all  [mostLaid]laidTimes
	next int
}

// mostLaid is enough for a dozen helpers with a few times each, of two states of a plan.
const mostLaid = 64

func occasionsOf(days laidTimes) []occasion {
	l := &lastLaid
	l.Lock()
	defer l.Unlock()
	for i := range l.all {
		if l.all[i].same(&days) {
			return l.all[i].all
		}
	}
	days.layOut()
	l.all[l.next] = days
	l.next = (l.next + 1) % mostLaid
	return days.all
}

// layOut places the dates. They begin and end on the clock of the wall (RFC 5545 3.3.5): a shift
// until six is until six in the night in which the clocks change too. Where the clocks leave
// nothing of it, its length counts from its beginning.
func (l *laidTimes) layOut() {
	t := &l.times
	until := int(t.Rule.At) + t.Length
	for _, d := range daysWithin(t.Rule, l.from, l.to) {
		if d < l.from || d > l.to {
			continue
		}
		begin, _ := d.At(l.loc, t.Rule.At)
		end, _ := (d + wall.Date(until/dayMinutes)).At(l.loc, wall.Clock(until%dayMinutes))
		on := stretch{minuteOf(begin), minuteOf(end)}
		if on.to <= on.from {
			on.to = on.from + t.Length
		}
		l.all = append(l.all, occasion{int(d)*dayMinutes + int(t.Rule.At), on})
	}
}
