package repeat

import (
	"math"
	"math/rand"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/wall"
)

func TestCanonicalOnceIsCanonical(t *testing.T) {
	rnd := rand.New(rand.NewSource(5))
	for range 4000 {
		r := withExceptions(rnd, randomRule(rnd))
		require.True(t, r.Equal(r.Canonical()), "%+v", r)
		if err := r.Check(); err != nil {
			require.Contains(t, []error{Fault{Code: TooLong}, Fault{Code: NoDates}}, err, "%+v", r)
		}
	}
}

// What goes out as RECUR text comes back as the same rule (RFC 5545 3.3.10).
func TestRecurComesBack(t *testing.T) {
	rnd := rand.New(rand.NewSource(6))
	loc, err := time.LoadLocation("America/Chicago")
	require.NoError(t, err)
	for range 4000 {
		r := randomRule(rnd)
		if r.Freq == Once || r.Check() != nil {
			continue
		}
		again, err := Parse(r.Recur(loc), Moment{r.First, r.At}, loc)
		require.NoError(t, err, r.Recur(loc))
		require.Equal(t, r, again, r.Recur(loc))
	}
}

func TestAFirstDayOffThePatternMovesOn(t *testing.T) {
	r := Rule{First: day(t, "2027-03-16"), Freq: Weekly, Every: 2, Days: DaysOf(time.Monday, time.Friday), Week: time.Monday}.Canonical()
	require.Equal(t, day(t, "2027-03-19"), r.First)
	r = Rule{First: day(t, "2027-02-01"), Freq: Monthly, Every: 1, Nth: []Nth{{5, time.Monday}}}.Canonical()
	require.Equal(t, day(t, "2027-03-29"), r.First)
}

// Examples 37 and 38 of RFC 5545 3.8.5.3 differ only in the first day of the week,
// and in their dates. Where it makes no difference it is Monday.
func TestTheFirstDayOfTheWeekCountsOnlyWhereItMakesADifference(t *testing.T) {
	r := Rule{First: day(t, "1997-08-05"), Freq: Weekly, Every: 2, Days: DaysOf(time.Tuesday, time.Sunday), Count: 4, Week: time.Sunday}
	require.Equal(t, time.Sunday, r.Canonical().Week)
	r.Days = DaysOf(time.Tuesday, time.Thursday)
	require.Equal(t, time.Monday, r.Canonical().Week)
	r.Days, r.Every = DaysOf(time.Tuesday, time.Sunday), 1
	require.Equal(t, time.Monday, r.Canonical().Week)
}

func TestExceptionsThatThePatternLostAreTidied(t *testing.T) {
	mon, wed := day(t, "2027-03-15"), day(t, "2027-03-17")
	r := Rule{
		First: mon, At: 630, Freq: Weekly, Every: 1, Days: DaysOf(time.Monday, time.Wednesday), Week: time.Monday, Count: 6,
		Skipped: []wall.Date{mon + 7}, Moved: []Move{{wed, Moment{wed, 840}}}, Extra: []Moment{{mon + 1, 600}, {mon + 1, 600}, {mon + 14, 630}},
	}.Canonical()
	require.Equal(t, []Moment{{mon + 1, 600}}, r.Extra, "a twin and a date of the pattern are none")
	require.NoError(t, r.Check())
	r.Days = DaysOf(time.Tuesday)
	r = r.Canonical()
	require.Empty(t, r.Skipped)
	require.Equal(t, []Moment{{mon + 1, 600}, {wed, 840}}, r.Extra, "somebody agreed to the moved date")
	require.NoError(t, r.Check())
}

// A date that was left out and added again is as before; of two moves of one date the
// later counts, also where it leads back.
func TestTheLaterWordCounts(t *testing.T) {
	mon := day(t, "2027-03-15")
	plain := Rule{First: mon, At: 630, Freq: Weekly, Every: 1, Days: DaysOf(time.Monday), Week: time.Monday, Count: 6}
	r := plain
	r.Skipped, r.Extra = []wall.Date{mon + 7}, []Moment{{mon + 7, 630}}
	require.Equal(t, plain, r.Canonical())
	r = plain
	r.Moved = []Move{{mon, Moment{mon, 840}}, {mon, Moment{mon, 630}}}
	require.Equal(t, plain, r.Canonical())
	r.Moved = []Move{{mon, Moment{mon, 630}}, {mon, Moment{mon, 840}}}
	require.Equal(t, []Move{{mon, Moment{mon, 840}}}, r.Canonical().Moved)
}

// A rule that ends on a day may have MaxCount dates, and not one more.
func TestAsManyDatesAsARuleMayHave(t *testing.T) {
	r := Rule{First: 20_000, At: 630, Freq: Daily, Every: 1, Last: 20_000 + MaxCount - 1}
	require.NoError(t, r.Check())
	days, _ := r.Pattern()
	require.Len(t, days, MaxCount)
	r.Last++
	require.Equal(t, Fault{Code: TooLong}, r.Check())
	days, _ = r.Pattern()
	require.Len(t, days, MaxCount)
}

func TestWhatCheckRefuses(t *testing.T) {
	sound := Rule{First: 20_000, At: 630, Freq: Weekly, Every: 1, Days: DaysOf(wall.Date(20_000).Weekday()), Week: time.Monday, Count: 6}
	require.NoError(t, sound.Check())
	for code, spoil := range map[string]func(*Rule){
		NotARule:   func(r *Rule) { r.Freq = freqEnd },
		TimeFault:  func(r *Rule) { r.At = 1440 },
		EveryFault: func(r *Rule) { r.Every = math.MaxInt },
		DayFault:   func(r *Rule) { r.Days = 0 },
		CountFault: func(r *Rule) { r.Count = 1_000_000_000 },
		TwoEnds:    func(r *Rule) { r.Last = r.First + 10 },
		LastFault:  func(r *Rule) { r.Count, r.Last = 0, r.First-1 },
		TooLong:    func(r *Rule) { r.Every, r.Count = 99, 4 },
		ListFault:  func(r *Rule) { r.Skipped = []wall.Date{r.First + 1} },
		NoDates:    func(r *Rule) { r.Count, r.Skipped = 1, []wall.Date{r.First} },
	} {
		r := sound
		spoil(&r)
		require.Equal(t, Fault{Code: code}, r.Check(), code)
		require.NotPanics(t, func() { r.Canonical() }, code)
	}
}

// Whatever stands in a rule's fields, it is checked and tidied without a panic and
// without end.
func TestAnyFieldsWhatever(t *testing.T) {
	rnd := rand.New(rand.NewSource(7))
	wild := func() int {
		return []int{0, 1, -1, 7, 31, 99, 1000, math.MaxInt32, math.MinInt32, rnd.Int()}[rnd.Intn(10)]
	}
	for range 20_000 {
		r := Rule{
			First: wall.Date(wild()), At: wall.Clock(wild()), Freq: Freq(rnd.Intn(6)), Every: wild(), Days: Days(wild()),
			Week: time.Weekday(wild()), Count: wild(), Last: wall.Date(wild()),
			MonthDays: []int8{int8(wild())}, Nth: []Nth{{int8(wild()), time.Weekday(wild())}},
			Skipped: []wall.Date{wall.Date(wild())}, Moved: []Move{{wall.Date(wild()), Moment{wall.Date(wild()), wall.Clock(wild())}}},
		}
		if rnd.Intn(2) == 0 {
			r.MonthDays = nil
		} else {
			r.Nth = nil
		}
		if r.Canonical().Check() == nil {
			r.Canonical().All()
		}
		_ = r.Check()
	}
}
