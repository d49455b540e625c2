package repeat

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/wall"
)

// Each bound of a rule on both of its sides. The bounds are this package's own (rule.go),
// but for those that name RFC 5545.

func codeOf(err error) string {
	if f, ok := err.(Fault); ok {
		return f.Code
	}
	return ""
}

func parse(t *testing.T, text string) (Rule, string) {
	t.Helper()
	r, err := Parse(text, Moment{day(t, "2027-03-12"), 600}, time.UTC)
	return r, codeOf(err)
}

func TestTheLastDayOnItsBounds(t *testing.T) {
	r := Rule{First: day(t, "2027-03-15"), At: 600, Freq: Daily, Every: 2}
	for last, want := range map[wall.Date]string{
		r.First - 1: LastFault, r.First: "", r.First + MaxSpan: "", r.First + MaxSpan + 1: LastFault,
	} {
		r.Last = last
		require.Equal(t, want, codeOf(r.Check()), last-r.First)
	}
}

func TestMovedAndExtraDatesStayNear(t *testing.T) {
	base := Rule{First: day(t, "2027-03-15"), At: 600, Freq: Daily, Every: 1, Count: 5}
	for _, c := range []struct {
		to   Moment
		want string
	}{
		{Moment{base.First + 2*MaxSpan, 600}, ""},
		{Moment{base.First + 2*MaxSpan + 1, 600}, ListFault},
		{Moment{base.First - MaxSpan, 600}, ""},
		{Moment{base.First - MaxSpan - 1, 600}, ListFault},
		{Moment{base.First + 9, 24*60 - 1}, ""},
		{Moment{base.First + 9, 24 * 60}, ListFault},
		{Moment{base.First + 9, -1}, ListFault},
	} {
		moved, extra := base, base
		moved.Moved = []Move{{base.First + 1, c.to}}
		extra.Extra = []Moment{c.to}
		require.Equal(t, c.want, codeOf(moved.Check()), "moved to %v", c.to)
		require.Equal(t, c.want, codeOf(extra.Check()), "extra at %v", c.to)
	}
}

// RFC 5545 3.3.10: a month has at most five of a weekday; a number before a weekday is
// 1 to 5 or -1 to -5 here, for months only.
func TestWeekdaysOfAMonthOnTheirBounds(t *testing.T) {
	for n, want := range map[Nth]string{
		{5, time.Friday}: "", {-5, time.Friday}: "", {6, time.Friday}: DayFault, {-6, time.Friday}: DayFault,
		{1, time.Saturday}: "", {1, time.Sunday}: "", {1, time.Saturday + 1}: DayFault, {1, time.Sunday - 1}: DayFault,
	} {
		r := Rule{First: day(t, "2027-03-12"), At: 600, Freq: Monthly, Every: 1, Nth: []Nth{n}, Count: 2}
		require.Equal(t, want, codeOf(r.Canonical().Check()), n)
	}
	for text, want := range map[string]Nth{
		"FREQ=MONTHLY;BYDAY=5FR": {5, time.Friday}, "FREQ=MONTHLY;BYDAY=-5FR": {-5, time.Friday},
		"FREQ=MONTHLY;BYDAY=FR;BYSETPOS=5": {5, time.Friday}, "FREQ=MONTHLY;BYDAY=FR;BYSETPOS=-5": {-5, time.Friday},
	} {
		r, code := parse(t, text)
		require.Empty(t, code, text)
		require.Equal(t, []Nth{want}, r.Nth, text)
	}
	for text, want := range map[string]string{
		"FREQ=MONTHLY;BYDAY=6FR": NotARule, "FREQ=MONTHLY;BYDAY=-6FR": NotARule, "FREQ=MONTHLY;BYDAY=0FR": NotARule,
		"FREQ=MONTHLY;BYDAY=FR;BYSETPOS=6": NotThatPart, "FREQ=MONTHLY;BYDAY=FR;BYSETPOS=-6": NotThatPart,
		"FREQ=DAILY;BYSETPOS=1": NotThatPart,
	} {
		_, code := parse(t, text)
		require.Equal(t, want, code, text)
	}
}

// RFC 5545 3.3.10: INTERVAL is a positive integer. A year is twelve months here.
func TestIntervalsOnTheirBounds(t *testing.T) {
	for text, every := range map[string]int{
		"FREQ=DAILY;COUNT=2;INTERVAL=1": 1, "FREQ=DAILY;COUNT=2;INTERVAL=99": 99, "FREQ=YEARLY;INTERVAL=8;COUNT=1": 96,
	} {
		r, code := parse(t, text)
		require.Empty(t, code, text)
		require.Equal(t, every, r.Every, text)
	}
	for _, text := range []string{
		"FREQ=DAILY;INTERVAL=0", "FREQ=DAILY;INTERVAL=100", "FREQ=DAILY;INTERVAL=-1", "FREQ=YEARLY;INTERVAL=9",
	} {
		_, code := parse(t, text)
		require.Equal(t, EveryFault, code, text)
	}
}

// RFC 5545 3.3.5: a time without Z and without a zone is the wall's.
func TestAnUntilOnTheWall(t *testing.T) {
	for until, last := range map[string]string{
		"20270320T100000": "2027-03-20", "20270320T095900": "2027-03-19", "20270320T235959": "2027-03-20",
	} {
		r, code := parse(t, "FREQ=DAILY;UNTIL="+until)
		require.Empty(t, code, until)
		require.Equal(t, last, r.Last.String(), until)
	}
	for _, until := range []string{"20270320T", "2027", "20271320", "20270320T250000"} {
		_, code := parse(t, "FREQ=DAILY;UNTIL="+until)
		require.Equal(t, NotARule, code, until)
	}
}

// RFC 5545 3.3.4 writes a day as year, month and day in eight digits.
func TestRecurForAPerson(t *testing.T) {
	r := Rule{First: day(t, "2027-03-12"), At: 600, Freq: Daily, Every: 1, Last: day(t, "2027-04-05")}
	require.Equal(t, "FREQ=DAILY;UNTIL=20270405", r.Recur(nil))
	r.Last = 0
	require.Equal(t, "FREQ=DAILY", r.Recur(nil))
}

func TestEveryDayOfTheWeekIsDaily(t *testing.T) {
	r := Rule{First: day(t, "2027-03-12"), At: 600, Freq: Weekly, Every: 1, Days: AllDays, Week: time.Monday}
	require.Equal(t, Daily, r.Canonical().Freq)
	r.Every = 2
	require.Equal(t, Weekly, r.Canonical().Freq, "every second week is not every day")
	require.Equal(t, 7, AllDays.Len())
	require.Equal(t, 2, DaysOf(time.Sunday, time.Thursday).Len())
	require.Equal(t, 0, Days(0).Len())
}

// A link may hold a rule that no day fits: 30 February, year after year. It has no
// dates, and asking for them comes to an end.
func TestARuleThatNoDayFits(t *testing.T) {
	r := Rule{First: day(t, "2027-02-01"), At: 600, Freq: Monthly, Every: 12, MonthDays: []int8{30}}
	days, _ := r.Pattern()
	require.Empty(t, days)
}

func TestAFaultSaysItsValue(t *testing.T) {
	require.Equal(t, "repeat: every: INTERVAL=0", Fault{EveryFault, "INTERVAL=0"}.Error())
	require.Equal(t, "repeat: no-dates", Fault{Code: NoDates}.Error())
}
