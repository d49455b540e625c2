package wall

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// The calendar is compared with Go's time package, which follows the proleptic
// Gregorian calendar.

func TestEveryDateOfTheRangeAgreesWithTheCalendar(t *testing.T) {
	for d := FirstDate; d <= LastDate; d++ {
		want := time.Date(1970, time.January, 1+int(d), 0, 0, 0, 0, time.UTC)
		year, month, day := d.YMD()
		if year != want.Year() || month != int(want.Month()) || day != want.Day() || d.Weekday() != want.Weekday() {
			t.Fatalf("day %d is %d-%d-%d, the calendar says %s", d, year, month, day, want.Format(time.DateOnly))
		}
		again, err := NewDate(year, month, day)
		read, errRead := ParseDate(want.Format(time.DateOnly))
		if err != nil || errRead != nil || again != d || read != d || d.String() != want.Format(time.DateOnly) || DateOf(want) != d {
			t.Fatalf("%s does not come back: NewDate %d %v, ParseDate %d %v, String %s", want.Format(time.DateOnly), again, err, read, errRead, d)
		}
	}
}

func TestTheEndsOfTheRange(t *testing.T) {
	require.Equal(t, "2000-01-01", FirstDate.String())
	require.Equal(t, "2100-12-31", LastDate.String())
	for _, outside := range []string{"1999-12-31", "2101-01-01", "0000-01-01", "0001-01-01", "9999-12-31", "1996-02-29"} {
		_, err := ParseDate(outside)
		require.ErrorIs(t, err, ErrYears, outside)
	}
}

// A year has a 29 February when 4 divides it, unless 100 does and 400 does not
// (the Gregorian rule, bull Inter gravissimas of 1582).
func TestLeapDays(t *testing.T) {
	for year := 2000; year <= 2100; year++ {
		_, err := NewDate(year, 2, 29)
		require.Equal(t, year%4 == 0 && (year%100 != 0 || year%400 == 0), err == nil, year)
	}
}

func TestDaysThatDoNotExistAreRefusedAndNeverSlide(t *testing.T) {
	for _, s := range []string{
		"2027-02-29", "2027-02-30", "2027-04-31", "2027-06-31", "2027-09-31", "2027-11-31",
		"2027-00-10", "2027-13-10", "2027-01-00", "2027-01-32", "2100-02-29", "1900-02-29",
	} {
		_, err := ParseDate(s)
		require.ErrorIs(t, err, ErrDate, s)
	}
	_, err := NewDate(2027, -1, 5)
	require.ErrorIs(t, err, ErrDate)
	_, err = NewDate(2027, 1, -5)
	require.ErrorIs(t, err, ErrDate)
}

// ISO 8601 extended calendar date, which is what HTML's date field sends
// (WHATWG HTML, "valid date string").
func TestOnlyISO8601TextIsADate(t *testing.T) {
	for _, s := range []string{
		"", "2027", "2027-3-9", "27-03-09", "2027/03/09", "03/09/2027", "20270309", "2027-03-09 ", " 2027-03-09",
		"2027-03-09T00:00", "+027-03-09", "2027-+3-09", "2027--3-09", "2027-03--9", "2O27-03-09", "２０２７-03-09", "2027-W10-2",
	} {
		_, err := ParseDate(s)
		require.ErrorIs(t, err, ErrDate, "%q", s)
	}
}

func TestDateOfTakesTheDayOnTheWall(t *testing.T) {
	east := time.FixedZone("", 13*3600)
	instant := time.Date(2027, time.March, 8, 23, 30, 0, 0, time.UTC)
	require.Equal(t, "2027-03-08", DateOf(instant).String())
	require.Equal(t, "2027-03-09", DateOf(instant.In(east)).String())
}
