package peers

import (
	"math/rand/v2"
	"time"

	"newel/core/repeat"
	"newel/core/wall"
)

// randomRule makes a canonical rule of any kind that our type can say. It begins
// between 1997 and 2040.
func randomRule(chance *rand.Rand) repeat.Rule {
	from := wall.DateOf(time.Date(1997, 1, 1, 0, 0, 0, 0, time.UTC))
	to := wall.DateOf(time.Date(2041, 1, 1, 0, 0, 0, 0, time.UTC))
	r := repeat.Rule{
		First: from + wall.Date(chance.IntN(int(to-from))), At: wall.Clock(chance.IntN(24 * 60)),
		Freq: repeat.Daily + repeat.Freq(chance.IntN(3)), Every: every(chance),
	}
	if chance.IntN(40) == 0 {
		r.First = leapDay(r.First)
	}
	switch r.Freq {
	case repeat.Weekly:
		r.Days, r.Week = repeat.Days(1+chance.IntN(int(repeat.AllDays))), time.Weekday(chance.IntN(7))
	case repeat.Monthly:
		monthly(chance, &r)
	}
	end(chance, &r)
	return r.Canonical()
}

// every is small in most rules, as in life, and anything up to the bound in the others.
func every(chance *rand.Rand) int {
	if chance.IntN(4) > 0 {
		return 1 + chance.IntN(4)
	}
	return 1 + chance.IntN(repeat.MaxEvery)
}

func monthly(chance *rand.Rand, r *repeat.Rule) {
	either := chance.IntN(2) == 0
	for range 1 + chance.IntN(4) {
		if either {
			day := int8(1 + chance.IntN(31))
			if chance.IntN(3) == 0 {
				day = -day
			}
			r.MonthDays = append(r.MonthDays, day)
			continue
		}
		r.Nth = append(r.Nth, repeat.Nth{N: int8(chance.IntN(11) - 5), Day: time.Weekday(chance.IntN(7))})
	}
}

func end(chance *rand.Rand, r *repeat.Rule) {
	switch chance.IntN(8) {
	case 0: // no end
	case 1, 2, 3:
		r.Last = r.First + wall.Date(chance.IntN(500))
	case 4:
		r.Last = r.First + wall.Date(chance.IntN(repeat.MaxSpan))
	case 5:
		r.Count = 1 + chance.IntN(repeat.MaxCount)
	default:
		r.Count = 1 + chance.IntN(60)
	}
}

// leapDay is the next 29 February from a day on.
func leapDay(day wall.Date) wall.Date {
	for day.String()[len("2028"):] != "-02-29" {
		day++
	}
	return day
}
