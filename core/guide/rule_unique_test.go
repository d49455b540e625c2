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
	for _, language := range Languages {
		for i, today := range []string{"2026-12-31", "2027-01-01", "2028-06-15", "2040-01-01"} {
			if language != english && i > 1 || testing.Short() && i > 0 {
				continue // one of each clock, for the time it takes; in WebAssembly one
			}
			v := Voice{Book: Open(language), Today: day(t, today), Clock12: i%2 == 0}
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
}

// sayings are how a language writes a date, counts rides, says which the last one is, and
// says that no end was given.
type sayings struct{ date, count, last, endless string }

var saidOf = map[string]sayings{
	"en": {
		`(?:Sun|Mon|Tues|Wednes|Thurs|Fri|Satur)day, [A-Z][a-z]+ \d+(?:, \d{4})?`, `(\d+) rides?\b`,
		`(?:the last on|rides?, on|until|up to) (DATE)(?:, a year ahead)?(?:;|$|: \d+ rides?(?:;|$))`, "no end was given",
	},
	"es": {
		`(?:[Dd]omingo|[Ll]unes|[Mm]artes|[Mm]iércoles|[Jj]ueves|[Vv]iernes|[Ss]ábado), \d+ de [a-z]+(?: de \d{4})?`, `(\d+) viajes?\b`,
		`(?:la última fecha es|viajes?, el|hasta el) (DATE)(?:, un año después)?(?:;|$|: \d+ viajes?(?:;|$))`, "no tiene fin",
	},
}

// The number of dates and the last one are those that the rule has; and every date
// that is said is one of the rule's, as Voice.Day writes it.
func TestWhatIsSaidOfARuleIsSo(t *testing.T) {
	for _, language := range Languages {
		how, ok := saidOf[language]
		require.True(t, ok, language)
		date, count := regexp.MustCompile(how.date), regexp.MustCompile(how.count)
		last := regexp.MustCompile(strings.ReplaceAll(how.last, "DATE", how.date))
		v := Voice{Book: Open(language), Today: day(t, "2027-03-01")}
		eachRule(t, 5, 300, func(r repeat.Rule) {
			words := v.Rule(r, "count.rides")
			require.NotContains(t, words, "{")
			var said []string
			for _, d := range date.FindAllString(words, -1) {
				said = append(said, asInside(v, d))
			}
			require.ElementsMatch(t, v.datesOf(r), unique(said), words)
			if r.Freq == repeat.Once {
				return
			}
			dates, _ := r.All()
			counts := count.FindAllStringSubmatch(words, -1)
			require.Len(t, counts, 1, words)
			require.Equal(t, strconv.Itoa(len(dates)), counts[0][1], words)
			ends := last.FindAllStringSubmatch(words, -1)
			require.Len(t, ends, 1, words)
			require.Equal(t, v.Day(dates[len(dates)-1].Day), ends[0][1], words)
			require.Equal(t, r.Endless(), strings.Contains(words, how.endless), words)
		})
	}
}

// asInside gives a date as it stands inside a sentence: where the language writes the days of
// the week with a small letter, so does this.
func asInside(v Voice, date string) string {
	if day := v.Say("weekday.1"); day == strings.ToLower(day) {
		return strings.ToLower(date[:1]) + date[1:]
	}
	return date
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
