package merge

import "newel/core/wall"

// An arrival time is said for a day. While two days of surgery stand against each other, a time
// that was written together with the other one is not shown with this one, since the last times
// for food and drink are counted from it: the arrival is not known then. Whoever settles the day
// takes the time that came with it. A time that came without a day may be for either.

// DayOf is the day of surgery that was written in the same act as a version of the arrival; ok
// is false where it was written without one that still stands.
func (d *Doc) DayOf(arrival Version) (day wall.Date, ok bool) {
	for _, w := range d.regs[Key{Field: Surgery}] {
		if w.Stamp == arrival.Stamp {
			return wall.Date(numberOr(w.Value, 0)), true
		}
	}
	return 0, false
}

// shownOf is the version of a register that is shown; ok is false where there is none.
func (d *Doc) shownOf(k Key) (v Version, ok bool) {
	versions := d.regs[k]
	if k.Field == Arrival && len(versions) > 0 && len(d.regs[Key{Field: Surgery}]) > 1 {
		versions = d.arrivalsFor(d.value(Key{Field: Surgery}))
	}
	if len(versions) == 0 {
		return Version{}, false
	}
	return shown(k, versions), true
}

// arrivalsFor are the versions of the arrival but for those that were written with another day.
func (d *Doc) arrivalsFor(day string) []Version {
	days := d.regs[Key{Field: Surgery}]
	var fit []Version
	for _, v := range d.regs[Key{Field: Arrival}] {
		said, other := false, false
		for _, w := range days {
			if w.Stamp == v.Stamp {
				said, other = said || w.Value == day, other || w.Value != day
			}
		}
		if said || !other {
			fit = append(fit, v)
		}
	}
	return fit
}

// settleArrival takes the arrival along when the day is settled: the time that was written with
// that day is said again with it, and one that was written with another day goes. Where several
// times are left, all stay and are asked about.
func (c *change) settleArrival(day string) {
	k := Key{Field: Arrival}
	all, fit := c.doc.regs[k], c.doc.arrivalsFor(day)
	switch {
	case len(all) == 0:
	case len(fit) == 0:
		c.write(k, "", false)
	case differ(fit):
	case len(fit) < len(all) || c.doc.writtenWith(fit, day):
		c.write(k, fit[0].Value, true)
	}
}

// writtenWith tells whether one of some arrivals was written in the same act as a day.
func (d *Doc) writtenWith(arrivals []Version, day string) bool {
	for _, v := range arrivals {
		for _, w := range d.regs[Key{Field: Surgery}] {
			if w.Stamp == v.Stamp && w.Value == day {
				return true
			}
		}
	}
	return false
}
