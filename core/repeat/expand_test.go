package repeat

import (
	"math/rand"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"github.com/teambition/rrule-go"

	"newel/core/wall"
)

// byTheDay expands a pattern the slow way: it looks at every day in turn and asks
// whether the words of RFC 5545 3.3.10 hold for it.
func byTheDay(r Rule) []wall.Date {
	end := r.First + MaxSpan
	switch {
	case r.Endless():
		end = r.First + Year
	case r.Last != 0:
		end = r.Last
	}
	var days []wall.Date
	for d := r.First; d <= end && len(days) < MaxCount && (r.Count == 0 || len(days) < r.Count); d++ {
		if holds(r, d) {
			days = append(days, d)
		}
	}
	return days
}

func holds(r Rule, d wall.Date) bool {
	since := int(d - r.First)
	y0, m0, _ := r.First.YMD()
	y, m, inMonth := d.YMD()
	switch r.Freq {
	case Once:
		return since == 0
	case Daily:
		return since%r.Every == 0
	case Weekly:
		weekOf := func(d wall.Date) int { return (int(d) + 3 - (int(r.Week)+6)%7 + 7000) / 7 } // day 0 was a Thursday
		return r.Days.Has(d.Weekday()) && (weekOf(d)-weekOf(r.First))%r.Every == 0
	}
	if ((y-y0)*12+m-m0)%r.Every != 0 {
		return false
	}
	length := time.Date(y, time.Month(m)+1, 0, 0, 0, 0, 0, time.UTC).Day()
	for _, want := range r.MonthDays {
		if int(want) == inMonth || length+1+int(want) == inMonth {
			return true
		}
	}
	for _, n := range r.Nth {
		if n.Day == d.Weekday() && (n.N == 0 || int(n.N) == (inMonth+6)/7 || -int(n.N) == (length-inMonth)/7+1) {
			return true
		}
	}
	return false
}

// byLibrary expands the pattern with rrule-go alone, in UTC.
func byLibrary(t *testing.T, r Rule) []wall.Date {
	o := rrule.ROption{Dtstart: midnight(r.First), Interval: r.Every, Count: r.Count, Until: midnight(r.First + MaxSpan)}
	switch r.Freq {
	case Once:
		o.Count = 1
	case Daily:
		o.Freq = rrule.DAILY
	case Weekly:
		o.Freq, o.Wkst = rrule.WEEKLY, weekdays[r.Week]
		for d, name := range weekdays {
			if r.Days.Has(time.Weekday(d)) {
				o.Byweekday = append(o.Byweekday, name)
			}
		}
	case Monthly:
		o.Freq = rrule.MONTHLY
		for _, d := range r.MonthDays {
			o.Bymonthday = append(o.Bymonthday, int(d))
		}
		o.Byweekday = monthWeekdays(r.Nth)
	}
	switch {
	case r.Endless():
		o.Until = midnight(r.First + Year)
	case r.Last != 0:
		o.Until = midnight(r.Last)
	}
	rule, err := rrule.NewRRule(o)
	require.NoError(t, err)
	var days []wall.Date
	for next := rule.Iterator(); len(days) < MaxCount; {
		at, ok := next()
		if !ok {
			break
		}
		days = append(days, wall.DateOf(at))
	}
	return days
}

// The ways of counting are our own, for their speed and their size; here they are
// held against the library and against the slow way, on every kind of rule.
func TestPatternAgreesWithTheLibraryAndWithEachDay(t *testing.T) {
	rnd := rand.New(rand.NewSource(3))
	for range 4000 {
		r := randomRule(rnd)
		days, _ := r.Pattern()
		require.NotEmpty(t, days)
		require.Equal(t, byTheDay(r), days, "%+v", r)
		require.Equal(t, byLibrary(t, r), days, "%+v", r)
	}
}

func TestARuleWithoutAnEndIsCutAtAYearAndSaysSo(t *testing.T) {
	for _, r := range []Rule{
		{First: day(t, "2027-03-15"), At: 630, Freq: Daily, Every: 1},
		{First: day(t, "2027-03-15"), At: 630, Freq: Weekly, Every: 1, Days: DaysOf(time.Monday), Week: time.Monday},
		{First: day(t, "2027-03-15"), At: 630, Freq: Monthly, Every: 1, MonthDays: []int8{15}},
	} {
		require.NoError(t, r.Check())
		days, cut := r.Pattern()
		require.True(t, cut)
		require.LessOrEqual(t, days[len(days)-1], r.First+Year)
		require.Greater(t, days[len(days)-1], r.First+Year-31)
		r.Count = 5
		_, cut = r.Pattern()
		require.False(t, cut)
		r.Count, r.Last = 0, r.First+100
		_, cut = r.Pattern()
		require.False(t, cut)
	}
}

func TestSkippedMovedAndExtraDates(t *testing.T) {
	r := Rule{
		First: day(t, "2027-03-15"), At: 630, Freq: Weekly, Every: 1, Days: DaysOf(time.Monday, time.Wednesday, time.Friday), Week: time.Monday,
		Last:    day(t, "2027-03-26"),
		Skipped: []wall.Date{day(t, "2027-03-19")},
		Moved:   []Move{{day(t, "2027-03-24"), Moment{day(t, "2027-03-25"), 840}}},
		Extra:   []Moment{{day(t, "2027-03-16"), 540}},
	}
	require.NoError(t, r.Check())
	dates, cut := r.All()
	require.False(t, cut)
	require.Equal(t, []Occurrence{
		{Moment{day(t, "2027-03-15"), 630}, day(t, "2027-03-15"), Regular},
		{Moment{day(t, "2027-03-16"), 540}, day(t, "2027-03-16"), Added},
		{Moment{day(t, "2027-03-17"), 630}, day(t, "2027-03-17"), Regular},
		{Moment{day(t, "2027-03-22"), 630}, day(t, "2027-03-22"), Regular},
		{Moment{day(t, "2027-03-25"), 840}, day(t, "2027-03-24"), WasMoved},
		{Moment{day(t, "2027-03-26"), 630}, day(t, "2027-03-26"), Regular},
	}, dates)
}

func TestAllComesInOrderWithoutTwins(t *testing.T) {
	rnd := rand.New(rand.NewSource(4))
	for range 2000 {
		r := withExceptions(rnd, randomRule(rnd))
		pattern, _ := r.Pattern()
		dates, _ := r.All()
		require.Len(t, dates, len(pattern)-len(r.Skipped)+len(r.Extra), "%+v", r)
		for i := 1; i < len(dates); i++ {
			require.False(t, dates[i].before(dates[i-1].Moment))
		}
	}
}
