package families

import (
	"fmt"
	"sort"

	"newel/core/assign"
)

// The axis of time counts minutes from midnight before the day of surgery.
const (
	hour = 60
	day  = 24 * hour
)

// What a helper has only one of: they are in one place at a time, and they have two hands.
// Who keeps the patient company at home can feed the cat meanwhile.
const (
	there assign.Uses = 1 << iota
	hands
	both = there | hands
)

// task is a kind of work, which decides who can do it and who likes it.
type task int

const (
	ride task = iota
	hospital
	company
	night
	pets
	meals
	other
	tasks
)

// duty is one date of one series.
type duty struct {
	key    string
	series int
	task   task
	tier   assign.Tier
	weight int
	load   int
	takes  []assign.Take
}

// series is one duty with its dates. Its times are minutes of a day.
type series struct {
	name   string
	task   task
	tier   assign.Tier
	weight int
	load   int
	takes  []assign.Take
	days   []int
}

// at gives the take of a time of the day.
func at(fromHour, fromMinute, minutes int, uses assign.Uses) assign.Take {
	from := fromHour*hour + fromMinute
	return assign.Take{From: from, To: from + minutes, Uses: uses}
}

// onDays gives the days from first to last that fall on the weekdays; the day of surgery is
// weekday 0, so that 7 later it is the same one.
func onDays(first, last int, weekdays ...int) (days []int) {
	for d := first; d <= last; d++ {
		for _, w := range weekdays {
			if d%7 == w {
				days = append(days, d)
			}
		}
	}
	return days
}

// everyDay gives the days from first to last.
func everyDay(first, last int) []int { return onDays(first, last, 0, 1, 2, 3, 4, 5, 6) }

// someDuties makes as many dates of duties as a family has: the days around the surgery
// first, then rides, pets and meals in turn until there are enough.
func someDuties(r *Random, count int) (all []duty) {
	kept := aroundSurgery(r)
	later := afterwards(r, count)
	for s := range kept {
		all = dates(all, &kept[s], s, len(kept[s].days))
	}
	// A share of each later series, so that a small family has some of everything.
	total := 0
	for s := range later {
		total += len(later[s].days)
	}
	room := count - len(all)
	for s := range later {
		n := min(len(later[s].days), max(1, (len(later[s].days)*room+total-1)/total), count-len(all))
		all = dates(all, &later[s], len(kept)+s, n)
	}
	sort.SliceStable(all, func(a, b int) bool { return all[a].takes[0].From < all[b].takes[0].From })
	return all
}

// dates adds the first n dates of a series.
func dates(all []duty, s *series, place, n int) []duty {
	for _, d := range s.days[:max(0, n)] {
		one := duty{
			key: fmt.Sprintf("%s-%02d", s.name, d), series: place,
			task: s.task, tier: s.tier, weight: s.weight, load: s.load,
		}
		for _, t := range s.takes {
			one.takes = append(one.takes, assign.Take{From: d*day + t.From, To: d*day + t.To, Uses: t.Uses})
		}
		all = append(all, one)
	}
	return all
}
