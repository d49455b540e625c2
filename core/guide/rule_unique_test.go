package guide

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/repeat"
	"newel/core/wall"
)

// No two different rules read the same, on either clock, whatever this year is.
func TestNoTwoRulesReadTheSame(t *testing.T) {
	for i, today := range []string{"2026-12-31", "2027-01-01", "2028-06-15", "2040-01-01"} {
		v := Voice{Book: Open("en"), Today: day(t, today), Clock12: i%2 == 0}
		read := map[string]repeat.Rule{}
		eachRule(t, int64(i), 500, func(r repeat.Rule) {
			words := v.Rule(r, "count.rides")
			if other, ok := read[words]; ok && !other.Equal(r) {
				require.Equal(t, other, r, words)
			}
			read[words] = r
		})
		require.Greater(t, len(read), 8000, "so many rules were read")
	}
}

var (
	saidDate  = regexp.MustCompile(`(Sun|Mon|Tues|Wednes|Thurs|Fri|Satur)day, [A-Z][a-z]+ \d+(, \d{4})?`)
	saidCount = regexp.MustCompile(`(\d+) rides?\b`)
	saidLast  = regexp.MustCompile(`(?:the last on|rides?, on|until|up to) (` + saidDate.String() + `)(?:, a year ahead)?(?:;|$|: \d+ rides?(?:;|$))`)
)

// The number of dates and the last one are those that the rule has; and every date
// that is said is one of the rule's, as Voice.Day writes it.
func TestWhatIsSaidOfARuleIsSo(t *testing.T) {
	v := Voice{Book: Open("en"), Today: day(t, "2027-03-01")}
	eachRule(t, 5, 300, func(r repeat.Rule) {
		words := v.Rule(r, "count.rides")
		require.NotContains(t, words, "{")
		require.ElementsMatch(t, v.datesOf(r), unique(saidDate.FindAllString(words, -1)), words)
		if r.Freq == repeat.Once {
			return
		}
		dates, _ := r.All()
		counts := saidCount.FindAllStringSubmatch(words, -1)
		require.Len(t, counts, 1, words)
		require.Equal(t, strconv.Itoa(len(dates)), counts[0][1], words)
		last := saidLast.FindAllStringSubmatch(words, -1)
		require.Len(t, last, 1, words)
		require.Equal(t, v.Day(dates[len(dates)-1].Day), last[0][1], words)
		require.Equal(t, r.Endless(), strings.Contains(words, "no end was given"), words)
	})
}

// datesOf lists the dates that a sentence about a rule has to name.
func (v Voice) datesOf(r repeat.Rule) []string {
	days := append([]wall.Date{r.First}, r.Skipped...)
	for _, m := range r.Moved {
		days = append(days, m.From, m.To.Day)
	}
	for _, m := range r.Extra {
		days = append(days, m.Day)
	}
	if r.Freq != repeat.Once {
		dates, _ := r.All()
		days = append(days, dates[len(dates)-1].Day)
	}
	weeks := r.Freq != repeat.Monthly && (r.Last-r.First+1)%7 == 0
	switch {
	case r.Endless():
		days = append(days, r.First+repeat.Year)
	case r.Last != 0 && !weeks:
		days = append(days, r.Last)
	}
	var said []string
	for _, d := range days {
		said = append(said, v.Day(d))
	}
	return unique(said)
}

func unique(list []string) []string {
	slices.Sort(list)
	return slices.Compact(list)
}
