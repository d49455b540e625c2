package guide

import (
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/wall"
)

// day reads a date such as 2027-03-15.
func day(t *testing.T, iso string) wall.Date {
	t.Helper()
	d, err := wall.ParseDate(iso)
	require.NoError(t, err)
	return d
}

// moment reads a day with a time, such as 2027-03-15 10:30, and gives what is left.
func moment(t *testing.T, text string) (m repeat.Moment, rest string) {
	t.Helper()
	d, clock, ok := strings.Cut(text, " ")
	require.True(t, ok, text)
	clock, rest, _ = strings.Cut(clock, " ")
	at, err := wall.ParseClock(clock)
	require.NoError(t, err, text)
	return repeat.Moment{Day: day(t, d), At: at}, rest
}

// exampleRule reads one block of testdata/guide/rules_LANGUAGE.txt.
func exampleRule(t *testing.T, block string) (r repeat.Rule, says string) {
	for line := range strings.SplitSeq(strings.TrimSpace(block), "\n") {
		key, value, _ := strings.Cut(line, ": ")
		switch key {
		case "rule":
			first, recur := moment(t, value)
			r = repeat.Rule{First: first.Day, At: first.At}
			if recur != "" {
				var err error
				r, err = repeat.Parse(recur, first, time.UTC)
				require.NoError(t, err, line)
				require.Equal(t, first.Day, r.First, "an example starts on its own first date: %s", line)
			}
		case "not":
			r.Skipped = append(r.Skipped, day(t, value))
		case "moved":
			from, to, _ := strings.Cut(value, " ")
			m, _ := moment(t, to)
			r.Moved = append(r.Moved, repeat.Move{From: day(t, from), To: m})
		case "also":
			m, _ := moment(t, value)
			r.Extra = append(r.Extra, m)
		case "says":
			says = value
		default:
			require.Fail(t, "no such line", line)
		}
	}
	return r, says
}

// Sentences written by hand; their numbers and last dates are python-dateutil's.
func TestRulesReadBackInWords(t *testing.T) {
	for _, language := range Languages {
		data, err := os.ReadFile("../../testdata/guide/rules_" + language + ".txt")
		require.NoError(t, err)
		v := Voice{Book: Open(language), Today: day(t, "2027-03-01")}
		tried := map[repeat.Freq]int{}
		for _, block := range strings.Split(string(data), "\n\n")[1:] { // before them stands what the file is
			r, says := exampleRule(t, block)
			given := r
			r = r.Canonical()
			require.NoError(t, r.Check(), block)
			require.Equal(t, []int{len(given.Skipped), len(given.Moved), len(given.Extra)},
				[]int{len(r.Skipped), len(r.Moved), len(r.Extra)}, "each date of the lists counts: %s", block)
			require.Equal(t, says, v.Rule(r, "count.rides"))
			tried[r.Freq]++
		}
		require.Equal(t, map[repeat.Freq]int{repeat.Once: 3, repeat.Daily: 5, repeat.Weekly: 9, repeat.Monthly: 11}, tried)
	}
}

// A rule in words on a clock of twelve hours, in Spanish: the article of the hour, noon, midnight.
func TestSpanishRulesOnATwelveHourClock(t *testing.T) {
	v := Voice{Book: Open("es"), Today: day(t, "2027-03-01"), Clock12: true}
	r := repeat.Rule{First: day(t, "2027-03-15"), Freq: repeat.Daily, Every: 1, Count: 2, At: 12 * 60}.Canonical()
	for at, want := range map[wall.Clock]string{
		0: "las 12 de la noche (al empezar el día)", 1: "las 12:01\u202fa.m.", 90: "la 1:30\u202fa.m.", 630: "las 10:30\u202fa.m.",
		720: "las 12 del mediodía", 810: "la 1:30\u202fp.m.", 1350: "las 10:30\u202fp.m.",
	} {
		r.At = at
		require.Equal(t, "Cada día a "+want+" desde el lunes, 15 de marzo: 2 veces en total, la última fecha es martes, 16 de marzo", v.Rule(r, "count.times"))
	}
}

func TestRulesOnATwelveHourClock(t *testing.T) {
	v := Voice{Book: Open("en"), Today: day(t, "2027-03-01"), Clock12: true}
	r := repeat.Rule{First: day(t, "2027-03-15"), Freq: repeat.Daily, Every: 1, Count: 2, At: 12 * 60}.Canonical()
	for at, want := range map[wall.Clock]string{0: "midnight (as the day begins)", 1: "12:01\u202fAM", 630: "10:30\u202fAM", 720: "12 noon", 1350: "10:30\u202fPM"} {
		r.At = at
		require.Equal(t, "Every day at "+want+" from Monday, March 15: 2 times in all, the last on Tuesday, March 16", v.Rule(r, "count.times"))
	}
}

// What the dates of a duty are counted as.
func TestThings(t *testing.T) {
	b := Open("en")
	said := map[plan.DutyKind]string{}
	for kind := range plan.DutyKindEnd {
		said[kind] = b.Count(Things(kind), 1) + ", " + b.Count(Things(kind), 2)
	}
	require.Equal(t, map[plan.DutyKind]string{
		plan.TherapyRide: "1 ride, 2 rides", plan.VisitRide: "1 ride, 2 rides", plan.OtherRide: "1 ride, 2 rides",
		plan.PetCare: "1 time, 2 times", plan.Meals: "1 meal, 2 meals", plan.Nights: "1 night, 2 nights", plan.OtherDuty: "1 time, 2 times",
	}, said)
}
