package repeat

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"github.com/teambition/rrule-go"

	"newel/core/wall"
	"newel/core/zone"
)

// What rrule-go 1.8.2 gets wrong, each beside the way in which this package does not.
// Where the library's own answer can be had without it hanging, the test asks for it
// too: once the library is mended, the test says so.

func inZone(t *testing.T, name string) *time.Location {
	loc, err := zone.Load(name)
	require.NoError(t, err)
	return loc
}

// libraryIn expands a daily rule as the library would in a zone.
func libraryIn(t *testing.T, loc *time.Location, from wall.Date, at wall.Clock, count int) []string {
	start, _ := from.At(loc, at)
	rule, err := rrule.NewRRule(rrule.ROption{Freq: rrule.DAILY, Count: count, Dtstart: start})
	require.NoError(t, err)
	var dates []string
	for _, date := range rule.All() {
		dates = append(dates, date.Format("01-02T15:04"))
	}
	return dates
}

func oursIn(t *testing.T, loc *time.Location, from wall.Date, at wall.Clock, count int) []string {
	rule := Rule{First: from, At: at, Freq: Daily, Every: 1, Count: count}
	require.NoError(t, rule.Check())
	all, _ := rule.All()
	var dates []string
	for _, date := range all {
		placed, _ := date.Place(loc)
		dates = append(dates, placed.Format("01-02T15:04"))
	}
	return dates
}

// Clocks that change at midnight: 9 March 2025 in Havana and 7 September 2025 in
// Santiago begin at 01:00 (IANA time zone database). The library loses the whole day.
func TestNoDayIsLostWhereClocksChangeAtMidnight(t *testing.T) {
	for name, from := range map[string]string{"America/Havana": "2025-03-08", "America/Santiago": "2025-09-06"} {
		first, loc := day(t, from), inZone(t, name)
		right := []string{}
		for i := range wall.Date(4) {
			right = append(right, (first + i).String()[5:]+"T09:00")
		}
		require.Equal(t, right, oursIn(t, loc, first, 9*60, 4), name)
		require.NotContains(t, libraryIn(t, loc, first, 9*60, 4), right[1], "the library is mended")
	}
}

// RFC 5545 3.3.5: 02:30 on New York's spring day is 03:30 daylight time.
func TestATimeThatIsSkippedIsNotAnHourEarly(t *testing.T) {
	first, loc := day(t, "2027-03-13"), inZone(t, "America/New_York")
	require.Equal(t, []string{"03-13T02:30", "03-14T03:30", "03-15T02:30"}, oursIn(t, loc, first, 150, 3))
	require.Contains(t, libraryIn(t, loc, first, 150, 3), "03-14T01:30", "the library is mended")
}

// An UNTIL without a time means its whole day to those who write it so.
func TestAnUntilWithoutATimeKeepsItsDay(t *testing.T) {
	first := Moment{day(t, "2027-03-01"), 630}
	r, err := Parse("FREQ=DAILY;UNTIL=20270303", first, inZone(t, "America/Chicago"))
	require.NoError(t, err)
	days, _ := r.Pattern()
	require.Len(t, days, 3)
	o, err := rrule.StrToROption("FREQ=DAILY;UNTIL=20270303")
	require.NoError(t, err)
	o.Dtstart = midnight(first.Day).Add(630 * time.Minute)
	library, err := rrule.NewRRule(*o)
	require.NoError(t, err)
	require.Len(t, library.All(), 2, "the library is mended")
}

// A date is skipped by its day, whatever its time, its zone and the clocks.
func TestADateIsSkippedByItsDay(t *testing.T) {
	r := Rule{First: day(t, "2027-03-13"), At: 150, Freq: Daily, Every: 1, Count: 3, Skipped: []wall.Date{day(t, "2027-03-14")}}
	require.NoError(t, r.Check())
	all, _ := r.All()
	require.Equal(t, []string{"2027-03-13T02:30:00", "2027-03-15T02:30:00"}, shown(all))
}

// Every Friday and the first Monday: the library lists the days that are both.
func TestPlainAndNumberedWeekdaysStandSideBySide(t *testing.T) {
	r := Rule{First: day(t, "2027-01-01"), At: 630, Freq: Monthly, Every: 1, Count: 3,
		Nth: []Nth{{1, time.Monday}, {0, time.Friday}}}
	require.NoError(t, r.Check())
	all, _ := r.All()
	require.Equal(t, []string{"2027-01-01T10:30:00", "2027-01-04T10:30:00", "2027-01-08T10:30:00"}, shown(all))
	library, err := rrule.NewRRule(rrule.ROption{Freq: rrule.MONTHLY, Dtstart: midnight(r.First), Until: midnight(r.First + 30),
		Byweekday: []rrule.Weekday{rrule.MO.Nth(1), rrule.FR}})
	require.NoError(t, err)
	require.Empty(t, library.All(), "the library is mended")
}

// Texts on which the library panics, never returns, overflows or looks away.
var hostileTexts = map[string]string{
	"FREQ=MONTHLY;BYDAY=-20MO":                         NotARule,
	"FREQ=MONTHLY;BYDAY=53MO":                          NotARule,
	"FREQ=MONTHLY;BYDAY=0MO":                           NotARule,
	"FREQ=YEARLY;BYEASTER=400":                         NotARule,
	"FREQ=YEARLY;BYDAY=20MO":                           NotYearly,
	"FREQ=MONTHLY;BYMONTHDAY=32":                       NotARule,
	"FREQ=MONTHLY;BYMONTHDAY=0":                        NotARule,
	"FREQ=HOURLY;INTERVAL=2;BYHOUR=1":                  TooOften,
	"FREQ=HOURLY;INTERVAL=2":                           TooOften,
	"FREQ=MINUTELY;COUNT=1000000000":                   TooOften,
	"FREQ=SECONDLY":                                    TooOften,
	"FREQ=DAILY;INTERVAL=1000000000":                   EveryFault,
	"FREQ=DAILY;INTERVAL=9223372036854775807":          EveryFault,
	"FREQ=DAILY;INTERVAL=99999999999999999999999":      EveryFault,
	"FREQ=DAILY;INTERVAL=0":                            EveryFault,
	"FREQ=DAILY;INTERVAL=-1":                           EveryFault,
	"FREQ=DAILY;COUNT=1000000000":                      CountFault,
	"FREQ=DAILY;COUNT=0":                               CountFault,
	"FREQ=DAILY;COUNT=-3":                              CountFault,
	"FREQ=DAILY;COUNT=5;UNTIL=20270401T000000Z":        TwoEnds,
	"FREQ=DAILY;UNTIL=99991231T235959Z":                LastFault,
	"FREQ=DAILY;UNTIL=00010101T000000Z":                LastFault,
	"FREQ=DAILY;FREQ=WEEKLY":                           NotARule,
	"FREQ=DAILY;COUNT=5;COUNT=6":                       NotARule,
	"FREQ=MONTHLY;BYDAY=MO;BYSETPOS=400":               NotThatPart,
	"FREQ=MONTHLY;BYMONTHDAY=31;INTERVAL=99;COUNT=900": TooLong,
	"COUNT=5":        NotARule,
	"FREQ=":          NotARule,
	"FREQ=OFTEN":     NotARule,
	"":               NotARule,
	";;;;":           NotARule,
	"RRULE:":         NotARule,
	"DTSTART=X":      NotARule,
	"FREQ=DAILY\x00": NotARule,
	"FREQ=WEEKLY;BYDAY=" + strings.Repeat("MO,", 1_000_000) + "MO": NotARule,
	strings.Repeat("FREQ=DAILY;", 1_000_000):                       NotARule,
}

// soon fails a test whose work does not come to an end at all. It measures nothing.
func soon(t *testing.T, what string, work func()) {
	t.Helper()
	done := make(chan bool)
	go func() { defer close(done); work() }()
	select {
	case <-done:
	case <-time.After(30 * time.Second):
		t.Fatalf("no answer to %.80q", what)
	}
}

func TestHostileTextsAreRefused(t *testing.T) {
	first := Moment{day(t, "2027-03-01"), 10*60 + 30}
	for text, want := range hostileTexts {
		var err error
		soon(t, text, func() { _, err = Parse(text, first, time.UTC) })
		var fault Fault
		require.ErrorAs(t, err, &fault, "%.80q", text)
		require.Equal(t, want, fault.Code, "%.80q", text)
		require.Less(t, len(fault.Error()), 700, "a fault does not repeat a whole file")
	}
}
