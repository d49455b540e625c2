package split

import (
	"sort"
	"time"

	"newel/core/plan"
	"newel/core/schedule"
)

// stretch is a time from one minute to another, counted from 1970 in elapsed time. All times
// of a plan are whole minutes.
type stretch struct{ from, to int }

func minuteOf(t time.Time) int { return int(t.Unix() / 60) }

// timeAt is the other way round, on the wall of a place.
func timeAt(minute int, loc *time.Location) time.Time {
	return time.Unix(int64(minute)*60, 0).In(loc)
}

// person is what is known of a helper, as far as it matters within some days. Somebody of
// whom nobody told anything can do everything at any time.
type person struct {
	who  uint8
	told bool
	out  bool
	can  plan.Abilities
	own  int // minutes from their own home; -1: not known
	// hospital is the minutes to it from the patient's home, as far as they are known.
	hospital int
	likes    plan.Tasks
	avoids   plan.Tasks
	offer    int  // hours a week
	limited  bool // they can only in the free times
	free     []stretch
	work     []stretch
	gone     []stretch
}

// peopleOf gives all helpers of a plan in their order, with their times as far as they
// touch the stretch.
func peopleOf(s *schedule.Schedule, within stretch) []person {
	people := make([]person, len(s.Plan.Helpers))
	way := hospitalWay(s)
	for i := range people {
		about := s.Plan.AboutOf(uint8(i + 1))
		people[i] = personOf(&about, uint8(i+1))
		people[i].hospital = way
		if about.Told {
			people[i].place(about.Times, s.Loc, within)
		}
	}
	return people
}

func personOf(a *plan.About, who uint8) person {
	if !a.Told {
		return person{who: who, out: a.Out, can: plan.AllAbilities, own: plan.Unknown, offer: plan.OfferHours[plan.Usual]}
	}
	own, known := a.Own()
	if !known {
		own = plan.Unknown
	}
	return person{
		who: who, told: true, out: a.Out, can: a.Can, own: own,
		likes: a.Likes, avoids: a.Avoids, offer: plan.OfferHours[a.Offer],
	}
}

// place puts somebody's times on the axis of minutes. Times of one use that overlap or
// adjoin are one.
func (p *person) place(times []plan.Times, loc *time.Location, within stretch) {
	for i := range times {
		switch t := &times[i]; t.Use {
		case plan.Free:
			p.limited = true
			p.free = appendTimes(p.free, t, loc, within)
		case plan.Work:
			p.work = appendTimes(p.work, t, loc, within)
		case plan.Gone:
			p.gone = appendTimes(p.gone, t, loc, within)
		}
	}
	p.free, p.work, p.gone = joined(p.free), joined(p.work), joined(p.gone)
}

// joined sorts stretches and makes one of those that overlap or adjoin.
func joined(all []stretch) []stretch {
	sort.Sort(byFrom(all))
	out := all[:0]
	for _, next := range all {
		if n := len(out); n > 0 && next.from <= out[n-1].to {
			out[n-1].to = max(out[n-1].to, next.to)
		} else {
			out = append(out, next)
		}
	}
	return out
}

// subtract is what joined stretches leave of others, which are in order.
func subtract(all, taken []stretch) []stretch {
	left := make([]stretch, 0, len(all)+len(taken))
	for _, s := range all {
		for i := after(taken, s.from); i < len(taken) && taken[i].from < s.to; i++ {
			if s.from < taken[i].from {
				left = append(left, stretch{s.from, taken[i].from})
			}
			s.from = taken[i].to
		}
		if s.from < s.to {
			left = append(left, s)
		}
	}
	return left
}

type byFrom []stretch

func (b byFrom) Len() int           { return len(b) }
func (b byFrom) Less(i, j int) bool { return b[i].from < b[j].from }
func (b byFrom) Swap(i, j int)      { b[i], b[j] = b[j], b[i] }

// after is the place of the first of joined stretches that ends after a minute.
func after(all []stretch, minute int) int {
	return sort.Search(len(all), func(i int) bool { return all[i].to > minute })
}

// touching finds the first of joined stretches that a stretch overlaps.
func touching(all []stretch, s stretch) (stretch, bool) {
	if i := after(all, s.from); i < len(all) && all[i].from < s.to {
		return all[i], true
	}
	return stretch{}, false
}
