package calendar

import (
	"encoding/json"
	"os"
	"strings"
	"testing"
	"time"

	ical "github.com/emersion/go-ical"
	"github.com/stretchr/testify/require"
	"github.com/teambition/rrule-go"

	"newel/core/zone"
)

var (
	from2024  = time.Date(2024, 1, 1, 0, 0, 0, 0, time.UTC)
	until2036 = time.Date(2036, 1, 1, 0, 0, 0, 0, time.UTC)
)

func describe(t *testing.T, name string, from, to time.Time) *ical.Component {
	data, err := zone.Data(name)
	require.NoError(t, err)
	return timezone(load(t, name), data, from, to)
}

func valueOf(c *ical.Component, name string) string {
	if p := c.Props.Get(name); p != nil {
		return p.Value
	}
	return ""
}

// expandZone works a VTIMEZONE out with go-ical's properties and rrule-go: the seconds
// ahead of UTC from each change on.
func expandZone(t *testing.T, c *ical.Component) map[int64]int {
	seconds := func(s string) int {
		d, err := time.ParseDuration(strings.TrimLeft(s[:3], "+-") + "h" + s[3:] + "m")
		require.NoError(t, err)
		if s[0] == '-' {
			d = -d
		}
		return int(d.Seconds())
	}
	changes := map[int64]int{}
	for _, o := range c.Children {
		start, err := time.Parse("20060102T150405", valueOf(o, "DTSTART"))
		require.NoError(t, err)
		walls := []time.Time{start}
		if r := valueOf(o, "RRULE"); r != "" {
			option, err := rrule.StrToROption(r)
			require.NoError(t, err)
			option.Dtstart, option.Until = start, until2036
			rule, err := rrule.NewRRule(*option)
			require.NoError(t, err)
			walls = rule.All()
			require.Equal(t, start, walls[0], "DTSTART is the first of its rule (RFC 5545 3.8.5.3)")
		}
		for _, w := range walls {
			changes[w.Unix()-int64(seconds(valueOf(o, "TZOFFSETFROM")))] = seconds(valueOf(o, "TZOFFSETTO"))
		}
	}
	return changes
}

func TestDescribedZonesHaveTheClocksOfTheZoneData(t *testing.T) {
	rules := 0
	for _, name := range append(changing, "Europe/Paris", "America/Chicago", "Asia/Tokyo", "UTC", "Asia/Kolkata", "America/Asuncion") {
		c := describe(t, name, from2024, until2036)
		require.Equal(t, name, valueOf(c, "TZID"))
		changes, loc := expandZone(t, c), load(t, name)
		if valueOf(c.Children[0], "RRULE") != "" {
			rules++
			require.Len(t, c.Children, 2)
		}
		read := readClock(c)
		offset := latest(t, changes, from2024.Unix()) // what holds at the beginning
		for at := from2024; at.Before(until2036); at = at.Add(15 * time.Minute) {
			if o, ok := changes[at.Unix()]; ok {
				offset = o
			}
			_, want := at.In(loc).Zone()
			if want != offset {
				require.Equal(t, want, offset, "%s at %s", name, at)
			}
		}
		// Our own reader comes to the same.
		for at := from2024; at.Before(until2036); at = at.Add(7 * time.Hour) {
			_, want := at.In(loc).Zone()
			if got, ok := read.offset(at.Unix()); !ok || got != want {
				require.Equal(t, want, got, "read: %s at %s", name, at)
			}
		}
	}
	require.GreaterOrEqual(t, rules, 8) // those with a plain yearly rule have one
}

func latest(t *testing.T, changes map[int64]int, at int64) (offset int) {
	best := int64(-1 << 62)
	for unix, o := range changes {
		if unix <= at && unix > best {
			best, offset = unix, o
		}
	}
	require.NotEqual(t, int64(-1<<62), best, "nothing is said about 1 January 2024")
	return offset
}

func TestNewYorkIsDescribedAsInRFC5545(t *testing.T) {
	// Source: RFC 5545 3.6.5, the observances of New York since 2007, and the changes in
	// testdata/zone/new_york_changes.json (its head names the law).
	c := describe(t, "America/New_York", from2024, until2036)
	require.Len(t, c.Children, 2)
	for _, o := range c.Children {
		want := map[string]string{"TZOFFSETFROM": "-0500", "TZOFFSETTO": "-0400", "TZNAME": "EDT", "RRULE": "FREQ=YEARLY;BYMONTH=3;BYDAY=2SU"}
		if o.Name == "STANDARD" {
			want = map[string]string{"TZOFFSETFROM": "-0400", "TZOFFSETTO": "-0500", "TZNAME": "EST", "RRULE": "FREQ=YEARLY;BYMONTH=11;BYDAY=1SU"}
		}
		for name, value := range want {
			require.Equal(t, value, valueOf(o, name))
		}
	}
	var file struct {
		Years []struct {
			Start string `json:"dst_start_utc"`
			End   string `json:"dst_end_utc"`
		}
	}
	data, err := os.ReadFile("../../testdata/zone/new_york_changes.json")
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(data, &file))
	require.Len(t, file.Years, 12)
	changes := expandZone(t, c)
	for _, y := range file.Years {
		for text, offset := range map[string]int{y.Start: -4 * 3600, y.End: -5 * 3600} {
			at, err := time.Parse("2006-01-02T15:04Z", text)
			require.NoError(t, err)
			got, ok := changes[at.Unix()]
			require.True(t, ok, text)
			require.Equal(t, offset, got, text)
		}
	}
}

func TestZonesWithoutARuleAreDescribedChangeByChange(t *testing.T) {
	morocco := describe(t, "Africa/Casablanca", from2024, from2024.AddDate(2, 0, 0))
	require.Greater(t, len(morocco.Children), 3)
	for _, o := range morocco.Children {
		require.Empty(t, valueOf(o, "RRULE"))
	}
	phoenix := describe(t, "America/Phoenix", from2024, until2036)
	require.Len(t, phoenix.Children, 1)
	require.Equal(t, "STANDARD", phoenix.Children[0].Name)
	require.Equal(t, "19700101T000000", valueOf(phoenix.Children[0], "DTSTART"))
	require.Equal(t, valueOf(phoenix.Children[0], "TZOFFSETFROM"), valueOf(phoenix.Children[0], "TZOFFSETTO"))
}

func TestOffsets(t *testing.T) {
	// Source: RFC 5545 3.3.14.
	require.Equal(t, "-0500", offsetText(-5*3600))
	require.Equal(t, "+0100", offsetText(3600))
	require.Equal(t, "+0545", offsetText(5*3600+45*60))
	require.Equal(t, "-002502", offsetText(-25*60-2))
	for _, s := range []string{"", "0500", "+5", "+2400", "+0060", "+05:00", "+050"} {
		c := ical.NewComponent("STANDARD")
		c.Props.Set(&ical.Prop{Name: "TZOFFSETTO", Value: s})
		_, ok := readOffset(c, "TZOFFSETTO")
		require.False(t, ok, s)
	}
}

// Source: POSIX.1, the variable TZ; the lines are those of IANA's data.
func TestFooters(t *testing.T) {
	forward, back, ok := readFooter([]byte("TZif…\nEST5EDT,M3.2.0,M11.1.0\n"))
	require.True(t, ok)
	require.Equal(t, yearDay{3, 2, 0, 7200}, forward)
	require.Equal(t, yearDay{11, 1, 0, 7200}, back)
	_, back, ok = readFooter([]byte("\n<+1030>-10:30<+11>-11,M10.1.0,M4.1.0/1:30\n"))
	require.True(t, ok)
	require.Equal(t, yearDay{4, 1, 0, 5400}, back)
	for _, not := range []string{"MST7", "<-02>2<-01>,M3.5.0/-1,M10.5.0/0", "EET-2EEST,M4.4.5/0,M10.5.4/24", "X1Y,J60,J300", "X1Y,M3.6.0,M10.5.0", "X1Y,M3.2,M4.1.0", ""} {
		_, _, ok := readFooter([]byte("\n" + not + "\n"))
		require.False(t, ok, not)
	}
}
