package repeat

import (
	"encoding/json"
	"fmt"
	"os"
	"testing"
	"time"
	_ "time/tzdata" // the examples are of 1997, which the page's own zone data leaves out

	"github.com/stretchr/testify/require"
	"github.com/teambition/rrule-go"

	"newel/core/wall"
)

// The 42 rules of RFC 5545 3.8.5.3 and the 774 dates that it prints under them
// (testdata/repeat/rfc5545_examples.json).

// example is one of the rules. An endless one is printed with its first dates.
type example struct {
	N, Alt    int
	Rule      string
	DTStart   string
	TZID      string
	EXDate    []string
	Expect    []string
	ExpectTZ  []string `json:"expect_tz"`
	OpenEnded bool     `json:"open_ended"`
}

func (e example) String() string { return fmt.Sprintf("example %d.%d %s", e.N, e.Alt, e.Rule) }

// refused are the examples that no rule of ours can say, and why, by their numbers.
var refused = map[string]string{
	"5.2":  NotYearly,   // every day in January, without saying so of a month
	"21.0": NotYearly,   // in June and July
	"22.0": NotYearly,   // in January, February and March, every other year
	"23.0": NotYearly,   // on days of the year
	"24.0": NotYearly,   // the 20th Monday of the year
	"25.0": NotYearly,   // in week 20
	"27.0": NotYearly,   // Thursdays of three months
	"28.0": NotThatPart, // Friday the 13th
	"29.0": NotThatPart, // the Saturday after the first Sunday
	"30.0": NotThatPart, // the Tuesday after the first Monday of November, every four years
	"31.0": NotThatPart, // the third one of several weekdays
	"32.0": NotThatPart, // the last working day but one
	"33.0": TooOften,
	"34.0": TooOften,
	"35.0": TooOften,
	"36.1": OtherTime,
	"36.2": TooOften,
}

func examples(t *testing.T) []example {
	text, err := os.ReadFile("../../testdata/repeat/rfc5545_examples.json")
	require.NoError(t, err)
	var file struct{ Examples []example }
	require.NoError(t, json.Unmarshal(text, &file))
	require.Len(t, file.Examples, 42)
	return file.Examples
}

func (e example) zone(t *testing.T) *time.Location {
	loc, err := time.LoadLocation(e.TZID)
	require.NoError(t, err)
	return loc
}

// wallTime reads a date of the file; UTC stands for no zone.
func wallTime(t *testing.T, iso string) time.Time {
	at, err := time.Parse("2006-01-02T15:04:05", iso)
	require.NoError(t, err)
	return at
}

func (e example) first(t *testing.T) Moment {
	at := wallTime(t, e.DTStart)
	return Moment{wall.DateOf(at), wall.Clock(at.Hour()*60 + at.Minute())}
}

func TestEveryExampleOfRFC5545IsReadOrRefusedByItsNumber(t *testing.T) {
	found := map[string]string{}
	dates := 0
	for _, e := range examples(t) {
		dates += len(e.Expect)
		if _, err := Parse(e.Rule, e.first(t), e.zone(t)); err != nil {
			require.IsType(t, Fault{}, err)
			found[fmt.Sprintf("%d.%d", e.N, e.Alt)] = err.(Fault).Code
		}
	}
	require.Equal(t, refused, found)
	require.Equal(t, 774, dates)
}

// Those that are read have exactly the RFC's dates. An endless one is cut at a year;
// with the last printed date for its last day it has exactly the printed ones too.
func TestTheExamplesOfRFC5545HaveItsDates(t *testing.T) {
	for _, e := range examples(t) {
		r, err := Parse(e.Rule, e.first(t), e.zone(t))
		if err != nil {
			continue // the test above knows which
		}
		require.Empty(t, e.EXDate, e)
		require.Equal(t, e.OpenEnded, r.Endless(), e)
		if e.OpenEnded {
			checkCut(t, e, r)
			r.Last = wall.DateOf(wallTime(t, e.Expect[len(e.Expect)-1]))
			require.NoError(t, r.Check(), e)
		}
		dates, cut := r.All()
		require.False(t, cut, e)
		require.Equal(t, e.Expect, shown(dates), e)
		for i, o := range dates {
			placed, _ := o.Place(e.zone(t))
			require.Equal(t, e.ExpectTZ[i]+" "+e.Expect[i], placed.Format("MST 2006-01-02T15:04:05"), e)
		}
	}
}

// checkCut holds the year against the RFC's list: the one is the start of the other.
func checkCut(t *testing.T, e example, r Rule) {
	dates, cut := r.All()
	require.True(t, cut, e)
	ours := shown(dates)
	both := min(len(ours), len(e.Expect))
	require.Equal(t, e.Expect[:both], ours[:both], e)
	if both < len(e.Expect) {
		require.Greater(t, wall.DateOf(wallTime(t, e.Expect[both])), r.First+Year, "%s: cut too early", e)
	}
	require.LessOrEqual(t, dates[len(dates)-1].Day, r.First+Year, e)
}

func shown(dates []Occurrence) []string {
	var list []string
	for _, o := range dates {
		list = append(list, o.Day.String()+"T"+o.At.String()+":00")
	}
	return list
}

func TestTheExamplesOfRFC5545GoOutAndComeBack(t *testing.T) {
	for _, e := range examples(t) {
		r, err := Parse(e.Rule, e.first(t), e.zone(t))
		if err != nil {
			continue
		}
		text := r.Recur(e.zone(t))
		again, err := Parse(text, Moment{r.First, r.At}, e.zone(t))
		require.NoError(t, err, "%s: %s", e, text)
		require.Equal(t, r, again, "%s: %s", e, text)
	}
}

// The library underneath, handed the rules as it is in this package (times on the
// wall, in UTC), has all 774 dates, also those of the rules that are refused.
func TestTheLibraryHasTheDatesOfRFC5545(t *testing.T) {
	for _, e := range examples(t) {
		o, err := rrule.StrToROption(e.Rule)
		require.NoError(t, err, e)
		o.Dtstart = wallTime(t, e.DTStart)
		if !o.Until.IsZero() {
			o.Until = wallTime(t, o.Until.In(e.zone(t)).Format("2006-01-02T15:04:05"))
		}
		rule, err := rrule.NewRRule(*o)
		require.NoError(t, err, e)
		next := rule.Iterator()
		var dates []string
		for len(dates) < len(e.Expect) {
			at, ok := next()
			require.True(t, ok, "%s ends after %d dates", e, len(dates))
			dates = append(dates, at.Format("2006-01-02T15:04:05"))
		}
		require.Equal(t, e.Expect, dates, e)
		if !e.OpenEnded {
			_, more := next()
			require.False(t, more, e)
		}
	}
}
