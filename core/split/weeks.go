package split

import (
	"newel/core/repeat"
	"newel/core/wall"
)

// mostDays is how many days the dates of a time without an end go on at most, from the first
// that matters: a link that was made to be a burden can be about centuries. Ours.
const mostDays = 2 * repeat.Year

// daysWithin gives the days of a helper's repeating time, those from one day to another among
// them. One without an end goes on as far as it matters, and not for one year from when it
// was told: somebody works on Mondays until they say otherwise, however often the surgery is
// put off.
func daysWithin(r repeat.Rule, from, to wall.Date) []wall.Date {
	if !r.Endless() {
		days, _ := r.Pattern()
		return days
	}
	r = forward(r, from)
	days, _ := r.Pattern()
	to = min(to, max(r.First, from)+mostDays)
	for n := len(days); n > 0 && days[n-1] < to; n = len(days) {
		r.First = days[n-1] // one of its own days, so what follows is the same
		more, _ := r.Pattern()
		if len(more) < 2 {
			break
		}
		days = append(days, more[1:]...)
	}
	return days
}

// forward puts the first day of a daily or weekly rule off to near a day, by whole periods.
func forward(r repeat.Rule, to wall.Date) repeat.Rule {
	period := wall.Date(r.Every)
	switch {
	case r.Freq == repeat.Weekly:
		period *= 7
	case r.Freq != repeat.Daily:
		return r
	}
	if period > 0 && to > r.First {
		r.First += (to - r.First) / period * period
	}
	return r
}
