package split

import (
	"slices"

	"newel/core/plan"
	"newel/core/wall"
)

// date is one date of a duty, or one slot: who should have it, and who is written for it
// alone at present.
type date struct {
	day     wall.Date
	who     uint8
	written bool
	has     uint8
	stays   bool // who has it does not change, and it is not over
}

func dateOf(takes []plan.Take, day wall.Date, who uint8, stays bool) date {
	d := date{day: day, who: who, stays: stays}
	if i, found := findTake(takes, day); found {
		d.written, d.has = true, takes[i].Who
	}
	return d
}

// findTake finds a day's single date, or where it belongs.
func findTake(takes []plan.Take, day wall.Date) (int, bool) {
	return slices.BinarySearchFunc(takes, day, func(t plan.Take, day wall.Date) int { return int(t.Day - day) })
}

// cost is how many registers are written, and how many settings there are then.
type cost struct{ writes, settings int }

func (c *cost) count(written, set bool) {
	c.writes += yes(written)
	c.settings += yes(set)
}

func (c cost) plus(other cost) cost {
	return cost{c.writes + other.writes, c.settings + other.settings}
}

func (c cost) below(other cost) bool {
	return c.writes < other.writes || c.writes == other.writes && c.settings < other.settings
}

// forbidden is the writes of what must not be written: more than any settings need.
const forbidden = 1 << 20

// mayChange tells whether who usually has some dates may be written anew: where none of them
// stays as it is. Else whoever has one that stays, by that setting or by one of its own, would
// have it by somebody else's hand from then on; and what they say at the same time on
// their own phone, such as that they give it up, would be undone when the two plans join.
func mayChange(dates []date) bool {
	for _, d := range dates {
		if d.stays {
			return false
		}
	}
	return true
}

// setting is what it costs to set who usually has some dates, with the dates that somebody
// else has.
func setting(who, now uint8, dates []date, usual uint8) (c cost) {
	if who != now && !mayChange(dates) {
		return cost{writes: forbidden}
	}
	c.count(who != now, who != 0)
	for _, d := range dates {
		stays := d.written && d.has == d.who
		c.count(!stays && (d.written || usual != d.who), stays || usual != d.who)
	}
	return c
}

// bestSetting is the cheapest one that names somebody; of equal ones the one that there is
// now, else the first helper's.
func bestSetting(now uint8, dates []date) (who uint8, least cost) {
	try := func(choice uint8) {
		if c := setting(choice, now, dates, choice); who == 0 || c.below(least) {
			who, least = choice, c
		}
	}
	if now != 0 {
		try(now)
	}
	var tried [256]bool
	for _, d := range dates {
		tried[d.who] = true
	}
	for choice := 1; choice < len(tried); choice++ {
		if tried[choice] && uint8(choice) != now {
			try(uint8(choice))
		}
	}
	return who, least
}

// bestWhole is who should usually have the dates of a duty without weekdays.
func bestWhole(now uint8, dates []date) uint8 {
	who, least := bestSetting(now, dates)
	if c := setting(0, now, dates, 0); c.below(least) || !least.below(c) && who != now {
		return 0
	}
	return who
}

// withDates gives a duty the settings that its dates need.
func withDates(d plan.Duty, dates []date) plan.Duty {
	week := weekOf(&d, dates)
	best, least := d, cost{}
	try := func(who uint8, first bool) {
		q, c := d, cost{}
		q.Who = who
		c.count(who != d.Who, who != 0)
		for weekday := range q.On {
			on, more := week[weekday].best(who)
			q.On[weekday], c = on, c.plus(more)
		}
		if first || c.below(least) {
			best, least = q, c
		}
	}
	try(d.Who, true)
	var tried [256]bool
	tried[0] = true
	for _, date := range dates {
		tried[date.who] = true
	}
	for who := 0; who < len(tried) && mayChange(dates); who++ {
		if tried[who] && uint8(who) != d.Who {
			try(uint8(who), false)
		}
	}
	best.Takes = takesFor(&best, d.Takes, dates)
	return best
}

// weekday is the dates of one weekday.
type weekday struct {
	now   uint8 // its setting at present
	dates []date
	named uint8 // the cheapest setting that names somebody
	least cost
}

func weekOf(d *plan.Duty, dates []date) (week [7]weekday) {
	for _, date := range dates {
		w := &week[date.day.Weekday()]
		w.dates = append(w.dates, date)
	}
	for i := range week {
		w := &week[i]
		w.now = d.On[i]
		w.named, w.least = bestSetting(w.now, w.dates)
	}
	return week
}

// best is a weekday's setting where somebody has the duty: one that names somebody, or 0.
func (w *weekday) best(who uint8) (on uint8, c cost) {
	c = setting(0, w.now, w.dates, who)
	if w.named != 0 && (w.least.below(c) || w.named == w.now && !c.below(w.least)) {
		return w.named, w.least
	}
	return 0, c
}

// takesFor are the single dates that a duty needs with its other settings. Those of days that
// it has no date on at present stay.
func takesFor(d *plan.Duty, old []plan.Take, dates []date) []plan.Take {
	usual := *d
	usual.Takes = nil
	takes := slices.Clone(old)
	for _, date := range dates {
		who := usual.WhoHas(date.day)
		i, found := findTake(takes, date.day)
		switch {
		case found && date.has == date.who:
		case found && who == date.who:
			takes = slices.Delete(takes, i, i+1)
		case found:
			takes[i].Who = date.who
		case who != date.who:
			takes = slices.Insert(takes, i, plan.Take{Day: date.day, Who: date.who})
		}
	}
	if len(takes) == 0 {
		return nil
	}
	return takes
}
