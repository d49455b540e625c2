package desk

import (
	"cmp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/wall"
)

func TestDates(t *testing.T) {
	c := newCalendarWords(voices())
	for text, want := range map[string]string{
		"2026-11-30": "2026-11-30", "20261130": "2026-11-30", // ISO 8601, calendar date, extended and basic
		"11/30/2026": "2026-11-30", "11-30-26": "2026-11-30", "1/5/27": "2027-01-05", "01/05/2027": "2027-01-05", "11.30.2026": "2026-11-30",
		"2026/11/30":  "2026-11-30",
		"Nov 30 2026": "2026-11-30", "Nov. 30, 2026": "2026-11-30", "November 30th, 2026": "2026-11-30", "30 nov 2026": "2026-11-30",
		"30-Nov-26": "2026-11-30", "30-Nov-2026": "2026-11-30", "2026 Nov 30": "2026-11-30", "30 de noviembre de 2026": "2026-11-30",
		"1º de diciembre de 2026": "2026-12-01", "5 ene 2027": "2027-01-05", "9 sept 2027": "2027-09-09", "Sept 9 2027": "2027-09-09", "9 set 2027": "",
		"Monday, November 30, 2026": "2026-11-30", "Mon 11/30/2026": "2026-11-30", "Mon, 11/30/26": "2026-11-30", "lun 30 nov 2026": "2026-11-30",
		"lunes, 30 de noviembre de 2026": "2026-11-30", "Thurs 12/3/2026": "2026-12-03", "mar 9 de marzo de 2027": "2027-03-09", "Mar 9 2027": "2027-03-09",
		"sábado 28 nov 2026": "2026-11-28", "SABADO 28 NOV 2026": "2026-11-28",
		"2026-11-30T00:00:00": "2026-11-30", "2026-11-30T00:00:00.000Z": "2026-11-30", "11/30/2026 0:00": "2026-11-30", "11/30/2026 12:00:00 AM": "2026-11-30",
		"2/29/2028":  "2028-02-29",
		"1999-01-01": "date-outside", "11/30/226": "date-outside", "Nov 30 2101": "date-outside",
		"2/30/2027": "", "2/29/2027": "", "11/31/2026": "", "0/1/2027": "", "2027-13-01": "", "soon": "", "Nov Dec 2026": "", "30 Foo 2026": "",
		"1/2/3/4": "", "11/30/20266": "",
	} {
		d := c.date(text, today)
		if want == "" || want == "date-outside" {
			require.Equal(t, cmp.Or(want, "date-unreal"), d.fault, text)
			require.False(t, d.ask, text)
			continue
		}
		require.Empty(t, d.fault, text)
		require.Equal(t, want, d.day.String(), text)
	}
}

func TestDatesThatAreAskedAbout(t *testing.T) {
	c := newCalendarWords(voices())
	for _, e := range []struct {
		text, fault string
		ask         bool
		read        string
	}{
		{"13/04/2026", "date-month", false, "2026-04-13"},
		{"30.11.2026", "date-month", false, "2026-11-30"},
		{"Tue 11/30/2026", "date-weekday", false, "2026-11-30"}, // a Monday
		{"martes 30 de noviembre de 2026", "date-weekday", false, "2026-11-30"},
		{"11/30", "date-year", true, "2026-11-30"},
		{"1/5", "date-year", true, "2027-01-05"},
		{"30-Nov", "date-year", true, "2026-11-30"},
		{"2/29", "date-year", true, "2028-02-29"},
		{"11/30/2026 7:30 AM", "date-clock", true, "2026-11-30"},
		{"2026-11-30T07:30", "date-clock", true, "2026-11-30"},
	} {
		d := c.date(e.text, today)
		require.Equal(t, e.fault, d.fault, e.text)
		require.Equal(t, e.ask, d.ask, e.text)
		require.Equal(t, e.read, d.read, e.text)
	}
}

// Every day that the page itself writes, in each language, long and short, is read back.
func TestDatesAsThePageWritesThem(t *testing.T) {
	all := voices()
	c := newCalendarWords(all)
	for d := today - 400; d < today+400; d++ {
		for _, v := range all {
			v.Today = 0 // so that the year is written
			for _, text := range []string{v.Day(d), v.ShortDay(d), d.String()} {
				got := c.date(text, today)
				require.Equal(t, dateRead{day: d}, got, text)
			}
		}
	}
}

// The hours of the parts of the day in Spanish are those of Unicode CLDR 48 (as ICU 78.2 in Node 24
// writes them with Intl.DateTimeFormat(locale, {hour: "numeric", dayPeriod: "long"}), alike in es,
// es-MX and es-US): 12, 1, 5 de la madrugada; 6 de la mañana; 12 del mediodía; 1 de la tarde; 8, 11 de
// la noche. Twelve: "doce de la noche" is midnight, "doce del día" and "doce de la mañana" are noon
// (Real Academia Española, Ortografía de la lengua española 2010, as quoted in El Universo, 24 February
// 2019). Some say "12:30 de la mañana" for half past midnight (common practice, no published source),
// so it is asked about.
func TestTimes(t *testing.T) {
	c := newClockWords(voices())
	for text, want := range map[string]string{
		"5:30": "05:30", "05:30": "05:30", "5:30 AM": "05:30", "5:30am": "05:30", "5:30 a.m.": "05:30", "5:30 a. m.": "05:30", "5.30am": "05:30", "5.30": "05:30",
		"0530": "05:30", "530": "05:30", "0530 hrs": "05:30", "5:30a": "05:30", "05:30:00": "05:30", "5:30:00 AM": "05:30", "5 AM": "05:00", "5am": "05:00",
		"5:30\u202fAM": "05:30", "6:15 de la mañana": "06:15", "5 h": "05:00",
		"1:00 PM": "13:00", "13:00": "13:00", "1300": "13:00", "12:00 PM": "12:00", "12:15": "12:15", "12:30 AM": "00:30", "1:15 p. m.": "13:15", "noon": "12:00", "mediodía": "12:00",
		"midnight": "00:00", "4:00": "04:00", "0:59": "00:59",
		"12 del día": "12:00", "12:15 del mediodía": "12:15", "1 del mediodía": "13:00", "11 de la noche": "23:00", "8:30 de la noche": "20:30", "5 de la madrugada": "05:00",
		"12 de la madrugada": "00:00", "12 de la tarde": "12:00", "12 de la medianoche": "00:00", "10 at night": "22:00", "6:15 in the morning": "06:15", "11 del día": "11:00",
		"": "", "-": "", "—": "", "?": "", "unknown": "", "Pending": "", "TBD": "", "tba": "", "pendiente": "", "no se sabe": "", "N/A": "",
	} {
		got := c.clock(text)
		require.Empty(t, got.fault, text)
		require.Equal(t, want, got.clock.String(), text)
		require.Equal(t, strings.Trim(text, "-—?") != "", got.said, text)
	}
	for _, text := range []string{"25:00", "24:00", "5:60", "5:3", "half past five", "13:30 AM", "5:30 XM", "5:30:99", "55555", "-5:30", "5:30 AM CST", "99999999999999999999", "."} {
		if text == "." {
			continue // nothing at all
		}
		require.Equal(t, "time-unreal", c.clock(text).fault, text)
		require.Equal(t, wall.NoClock, c.clock(text).clock, text)
	}
	for text, want := range map[string]string{"1:00": "01:00", "2:30": "02:30", "3:59": "03:59", "0300": "03:00", "5": "05:00",
		"12 de la noche": "00:00", "12:30 de la noche": "00:30", "2 de la noche": "02:00", "12 de la mañana": "12:00", "12:30 de la mañana": "12:30", "12 in the morning": "12:00", "12 at night": "00:00"} {
		got := c.clock(text)
		require.Equal(t, "time-half", got.fault, text)
		require.True(t, got.ask, text)
		require.Equal(t, want, got.clock.String(), text)
	}
}
