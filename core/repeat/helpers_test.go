package repeat

import (
	"math/rand"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/wall"
)

// day reads 2027-03-15; it also knows the years before 2000, in which the examples of
// RFC 5545 lie.
func day(t require.TestingT, iso string) wall.Date {
	d, err := time.Parse(time.DateOnly, iso)
	require.NoError(t, err)
	return wall.DateOf(d)
}

// randomRule makes a canonical rule of any kind.
func randomRule(rnd *rand.Rand) Rule {
	r := Rule{
		First: wall.Date(10_000 + rnd.Intn(16_000)), At: wall.Clock(rnd.Intn(1440)),
		Freq: Freq(rnd.Intn(int(freqEnd))), Every: 1,
	}
	if rnd.Intn(2) == 0 {
		r.Every = 1 + rnd.Intn(6)
	}
	switch r.Freq {
	case Weekly:
		r.Days, r.Week = Days(1+rnd.Intn(int(AllDays))), time.Weekday(rnd.Intn(7))
	case Monthly:
		for range 1 + rnd.Intn(3) {
			if rnd.Intn(2) == 0 && r.Nth == nil || r.MonthDays != nil {
				r.MonthDays = append(r.MonthDays, int8([]int{1 + rnd.Intn(31), -1 - rnd.Intn(31)}[rnd.Intn(2)]))
			} else {
				r.Nth = append(r.Nth, Nth{int8(rnd.Intn(11) - 5), time.Weekday(rnd.Intn(7))})
			}
		}
	}
	switch rnd.Intn(3) {
	case 0:
		r.Count = 1 + rnd.Intn(30)
	case 1:
		r.Last = r.First + 250 + wall.Date(rnd.Intn(800))
	}
	return r.Canonical()
}

// withExceptions adds skipped, moved and extra dates.
func withExceptions(rnd *rand.Rand, r Rule) Rule {
	days, _ := r.Pattern()
	for range rnd.Intn(4) {
		r.Skipped = append(r.Skipped, days[rnd.Intn(len(days))])
	}
	for range rnd.Intn(3) {
		r.Moved = append(r.Moved, Move{days[rnd.Intn(len(days))], Moment{r.First + wall.Date(rnd.Intn(60)), wall.Clock(rnd.Intn(1440))}})
	}
	for range rnd.Intn(3) {
		r.Extra = append(r.Extra, Moment{r.First + wall.Date(rnd.Intn(60)), wall.Clock(rnd.Intn(1440))})
	}
	return r.Canonical()
}
