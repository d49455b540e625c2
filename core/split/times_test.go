package split

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/wall"
)

// What was laid out before is given again for the same only: another rule, length, zone or time is
// laid out anew. The measure is each date put on the clock by itself (RFC 5545 3.3.5).
func TestTimesAreThoseThatWereAskedFor(t *testing.T) {
	var zones []*time.Location
	for _, name := range []string{"America/Chicago", "Europe/Madrid"} {
		loc, err := time.LoadLocation(name)
		require.NoError(t, err)
		zones = append(zones, loc)
	}
	rapid.Check(t, func(t *rapid.T) {
		for range 40 { // few values of each part, so that many are asked for twice and differ in one part
			loc := rapid.SampledFrom(zones).Draw(t, "zone")
			first := wall.Date(20400 + rapid.IntRange(0, 1).Draw(t, "first"))
			times := plan.Times{
				Use: plan.Work, Length: 60 * rapid.SampledFrom([]int{9, 30}).Draw(t, "hours"),
				Rule: repeat.Rule{First: first, At: wall.Clock(90 * rapid.IntRange(0, 1).Draw(t, "at")), Freq: repeat.Daily, Every: rapid.IntRange(1, 2).Draw(t, "every"), Count: 700}.Canonical(),
			}
			from := (20390 + rapid.SampledFrom([]int{130, 140}).Draw(t, "from")) * dayMinutes
			within := stretch{from, from + rapid.SampledFrom([]int{1, 11}).Draw(t, "days")*dayMinutes + 7}
			require.Equal(t, oneByOne(&times, loc, within), appendTimes(nil, &times, loc, within))
		}
	})
}

// oneByOne lists the dates within a stretch and a day around it.
func oneByOne(times *plan.Times, loc *time.Location, within stretch) (all []stretch) {
	days, _ := times.Rule.Pattern()
	for _, d := range days {
		begins := int(d)*dayMinutes + int(times.Rule.At)
		if begins > within.to+dayMinutes || begins+times.Length < within.from-dayMinutes {
			continue
		}
		wallTime := func(minutes int) int {
			u := time.Unix(int64(minutes)*60, 0).UTC()
			at, _ := wall.DateOf(u).At(loc, wall.Clock(u.Hour()*60+u.Minute()))
			return int(at.Unix() / 60)
		}
		on := stretch{wallTime(begins), wallTime(begins + times.Length)}
		if on.to <= on.from {
			on.to = on.from + times.Length
		}
		all = append(all, on)
	}
	return all
}
