package guide

import (
	"os"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/wall"
)

// testdata/guide/intl_LANGUAGE.txt is what Intl.DateTimeFormat writes, that is CLDR. What
// is done otherwise here, on purpose:
//   - noon and midnight are words on a twelve-hour clock, since nobody is sure what
//     12 AM means (for es, Intl with dayPeriod long writes "12 del mediodía", too; its
//     "12 de la madrugada" for midnight is not what people say, "12 de la noche" is);
//   - between a time and AM or PM stands U+202F, as in CLDR; Node's engine writes
//     a plain space in its place for the sake of old web pages, though not in a range;
//   - a range has no thin spaces (U+2009) around its dash.
func TestDatesAndTimesAreWrittenAsCLDRDoes(t *testing.T) {
	for _, language := range Languages {
		data, err := os.ReadFile("../../testdata/guide/intl_" + language + ".txt")
		require.NoError(t, err)
		tried := map[string]int{}
		for line := range strings.SplitSeq(strings.TrimSpace(string(data)), "\n") {
			if line[0] == '#' {
				continue
			}
			col := strings.Split(line, "\t")
			require.Len(t, col, 4, line)
			want, err := strconv.Unquote(`"` + col[3] + `"`)
			require.NoError(t, err)
			tried[col[0]]++
			v := Voice{Book: Open(language), Clock12: col[1] == "12"}
			switch col[0] {
			case "day":
				require.Equal(t, want, writtenDay(t, v, col[1], col[2]), line)
			case "time":
				require.Equal(t, ours(v, col[2], want), v.Time(clockAt(t, col[2])), line)
			case "span":
				from, to, _ := strings.Cut(col[2], " ")
				want = strings.ReplaceAll(want, "\u2009", "")
				require.Equal(t, want, v.Span(clockAt(t, from), clockAt(t, to)), line)
			default:
				require.Fail(t, "no such kind", line)
			}
		}
		require.Equal(t, map[string]int{"day": 80, "time": 36, "span": 16}, tried)
	}
}

func ours(v Voice, clock, intl string) string {
	words := map[string][2]string{"en": {"midnight", "12 noon"}, "es": {"12 de la noche", "12 del mediodía"}}[v.Language]
	switch {
	case v.Clock12 && clock == "00:00":
		return words[0]
	case v.Clock12 && clock == "12:00":
		return words[1]
	}
	return strings.Replace(intl, " ", narrow, 1)
}

func writtenDay(t *testing.T, v Voice, form, iso string) string {
	d, err := wall.ParseDate(iso)
	require.NoError(t, err)
	year, _, _ := d.YMD()
	v.Today, err = wall.NewDate(year, 6, 15)
	require.NoError(t, err)
	if strings.HasSuffix(form, "-year") {
		v.Today -= 366
	}
	if strings.HasPrefix(form, "short") {
		return v.ShortDay(d)
	}
	return v.Day(d)
}

func clockAt(t *testing.T, clock string) time.Time {
	at, err := time.Parse("2006-01-02 15:04", "2027-03-09 "+clock)
	require.NoError(t, err)
	return at
}

func TestSpans(t *testing.T) {
	v := Voice{Book: Open("en"), Clock12: true, Today: wall.DateOf(clockAt(t, "00:00"))}
	require.Equal(t, "6:30\u202fAM", v.Span(clockAt(t, "06:30"), clockAt(t, "06:30")), "one time is said once")
	require.Equal(t, "11:30\u202fAM–12 noon", v.Span(clockAt(t, "11:30"), clockAt(t, "12:00")))
	require.Equal(t, "12 noon–1:30\u202fPM", v.Span(clockAt(t, "12:00"), clockAt(t, "13:30")))
	require.Equal(t, "Tuesday, March 9, 11:00\u202fPM – Wednesday, March 10, 1:00\u202fAM",
		v.Span(clockAt(t, "23:00"), clockAt(t, "23:00").Add(2*time.Hour)))
	require.Equal(t, "Tuesday, March 9, 11:00\u202fPM – Wednesday, March 10, 11:00\u202fPM",
		v.Span(clockAt(t, "23:00"), clockAt(t, "23:00").Add(24*time.Hour)), "the same time a day later is another time")
}

func TestTheMidnightThatEndsADay(t *testing.T) {
	require.Equal(t, "midnight", Voice{Book: Open("en"), Clock12: true}.Clock(24, 0))
	require.Equal(t, "24:00", Voice{Book: Open("en")}.Clock(24, 0))
}

func TestDaysNearBy(t *testing.T) {
	v := Voice{Book: Open("en"), Today: wall.DateOf(clockAt(t, "12:00"))}
	require.Equal(t, []string{"Yesterday", "Today", "Tomorrow", "Thursday, March 11"},
		[]string{v.Near(v.Today - 1), v.Near(v.Today), v.Near(v.Today + 1), v.Near(v.Today + 2)})
}
