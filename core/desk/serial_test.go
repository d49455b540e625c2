package desk

import (
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/wall"
)

// serials are published pairs of a day and its number. Sources:
//
//	E: ECMA-376, 1st edition, Part 4, 3.17.4.1 "Date Representation" (in later editions Part 1,
//	   18.17.4.1), examples of DATEVALUE, as reprinted at c-rex.net/samples/ooxml/e1/Part3
//	O: openpyxl, openpyxl/utils/tests/test_datetime.py, test_from_excel and test_from_excel_mac
//	R: renenyffenegger.ch, notes on serial numbers, table "Date, Ser. nr."
//	H: a help page on date systems, "July 5, 2011, can have two different serial numbers", as
//	   quoted by the R package erikmisc (e_convert_Date_to_ExcelDate)
var serials = []struct {
	source string
	number string
	in1900 string // "" for not given
	in1904 string
}{
	{"E", "38749", "2006-02-01", ""},
	{"E", "37287", "", "2006-02-01"},
	{"O", "40167", "2009-12-20", ""},
	{"O", "38705", "", "2009-12-20"},
	{"O", "39385", "", "2011-10-31"},
	{"O", "40372.27616898148", "2010-07-13", ""},
	{"O", "40196.5939815", "2010-01-18", ""},
	{"O", "42126.958333333219", "2015-05-02", ""},
	{"R", "39999", "2009-07-05", ""},
	{"R", "40000", "2009-07-06", ""},
	{"R", "40001", "2009-07-07", ""},
	{"R", "44444", "2021-09-05", ""},
	{"H", "40729", "2011-07-05", ""},
	{"H", "39267", "", "2011-07-05"},
}

func TestSerialDatesAsPublished(t *testing.T) {
	for _, s := range serials {
		n, ok := serialOf(s.number)
		require.True(t, ok, s.number)
		d := serialDate(n)
		require.True(t, d.ask, s.number)
		require.Contains(t, []string{"date-serial", "date-serial-clock"}, d.fault, s.number)
		if s.in1900 != "" {
			require.Equal(t, s.in1900, d.day.String(), s.number+" "+s.source)
		} else {
			require.Equal(t, s.in1904, (d.day + serial1904).String(), s.number+" "+s.source)
		}
	}
}

// The first and the last day of the system, by the same standard: 1 is 1 January 1900, 59 and
// 61 are 28 February and 1 March 1900, 2,958,465 is 31 December 9999. No plan has them.
func TestTheEndsOfTheSerialSystem(t *testing.T) {
	for _, text := range []string{"0", "1", "59", "61", "2958465", "2958466", "9999999"} {
		n, ok := serialOf(text)
		require.True(t, ok, text)
		require.Equal(t, "date-number", serialDate(n).fault, text)
		require.False(t, serialDate(n).ask, text)
	}
	n, _ := serialOf("60")
	require.Equal(t, "date-phantom", serialDate(n).fault)
	for d := wall.FirstDate; d <= wall.LastDate; d += 97 {
		require.Equal(t, d, serialDate(serial{whole: int(d - serialEpoch)}).day)
	}
}

// ECMA-376, 1st edition, Part 4, 3.17.4.2 "Time Representation", examples of TIMEVALUE (E),
// and openpyxl's test_from_excel (O), test_from_excel_mac (O). Seconds are rounded to minutes.
func TestSerialTimesAsPublished(t *testing.T) {
	c := newClockWords(voices())
	for text, want := range map[string]string{
		"0.0000000": "00:00", "0.0000115": "00:00", "0.4207639": "10:06" /* 10:05:54 */, "0.5000000": "12:00", "0.9999884": "00:00", /* 23:59:59 */ // E
		"0.125": "03:00", "0.75": "18:00", "40372.27616898148": "06:38" /* 06:37:41 */, "40196.5939815": "14:15" /* 14:15:20 */, "42126.958333333219": "23:00", // O
		".229166666666667": "05:30",
	} {
		got := c.clock(text)
		require.Equal(t, "time-serial", got.fault, text)
		require.True(t, got.ask, text)
		require.Equal(t, want, got.clock.String(), text)
	}
}
