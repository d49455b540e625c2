package split

import "newel/core/wall"

// granted is the helper of a wish as if it were granted, on some days.
func (v *view) granted(w wish, days []wall.Date) person {
	p := v.people[w.helper]
	switch w.why {
	case IsOut:
		p.out = false
	case AtWork, NotThen, IsAway:
		v.grantTimes(&p, w, days)
	default:
		for _, l := range lacks {
			if l.why == w.why {
				p.can |= l.ability
			}
		}
	}
	return p
}

func (v *view) grantTimes(p *person, w wish, days []wall.Date) {
	if w.why == IsAway {
		begin, _ := w.day.At(v.s.Loc, 0)
		end, _ := (w.day + 2).At(v.s.Loc, 0) // a night goes on into the next day
		p.gone = subtract(p.gone, []stretch{{minuteOf(begin), minuteOf(end)}})
		return
	}
	var less, more []stretch
	for _, day := range days {
		if int(day.Weekday()) != w.weekday {
			continue
		}
		t, _ := day.At(v.s.Loc, wall.Clock(w.clock))
		switch at := minuteOf(t); {
		case w.length > 0:
			all := v.wholeTime(day, at, w.clock+w.length)
			less, more = append(less, all...), append(more, all...)
		case w.why == AtWork:
			less = append(less, lessWork(p.work, at, w.starts)...)
		default:
			more = append(more, moreFree(p.free, at, w.starts)...)
		}
	}
	if w.why == AtWork && len(less) > 0 {
		p.work = subtract(p.work, joined(less))
	}
	if w.why == NotThen && len(more) > 0 {
		p.free = joined(append(more, p.free...))
	}
}

// wholeTime is from a minute to a clock on the wall, which may be that of the next day.
func (v *view) wholeTime(day wall.Date, from, until int) []stretch {
	end, _ := (day + wall.Date(until/(24*60))).At(v.s.Loc, wall.Clock(until%(24*60)))
	if minuteOf(end) <= from {
		return nil // the clocks leave nothing of it
	}
	return []stretch{{from, minuteOf(end)}}
}

// days are the days on which anything is to do, with one on either side.
func (v *view) days() []wall.Date {
	if v.busyDays != nil {
		return v.busyDays
	}
	var days []wall.Date
	for i := range v.needs {
		for _, t := range v.needs[i].takes {
			first, last := wall.DateOf(timeAt(t.From, v.s.Loc))-1, wall.DateOf(timeAt(t.To, v.s.Loc))+1
			if n := len(days); n > 0 {
				first = max(first, days[n-1]+1)
			}
			for day := first; day <= last; day++ {
				days = append(days, day)
			}
		}
	}
	v.busyDays = days
	return days
}

// lessWork is what falls away if the work around a minute ends there, or begins there.
func lessWork(work []stretch, minute int, ends bool) []stretch {
	i := after(work, minute-1)
	switch {
	case i == len(work) || work[i].from > minute:
		return nil
	case ends:
		return []stretch{{minute, work[i].to}}
	}
	return []stretch{{work[i].from, minute}}
}

// moreFree is what is added if the free time that is next after a minute begins there, or
// the one before it lasts until then.
func moreFree(free []stretch, minute int, starts bool) []stretch {
	i := after(free, minute)
	switch {
	case i < len(free) && free[i].from <= minute: // they can then
	case starts && i < len(free) && free[i].from-minute <= mostFar:
		return []stretch{{minute, free[i].from}}
	case !starts && i > 0 && minute-free[i-1].to <= mostFar:
		return []stretch{{free[i-1].to, minute}}
	}
	return nil
}
