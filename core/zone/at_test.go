package zone

import (
	"encoding/json"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

func readVectors(t *testing.T, name string, into any) {
	text, err := os.ReadFile("../../testdata/zone/" + name)
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(text, into))
}

func mustLoad(t *testing.T, name string) *time.Location {
	loc, err := Load(name)
	require.NoError(t, err)
	return loc
}

func TestAtGivesTheInstantsOfRFC5545(t *testing.T) {
	// Source: RFC 5545, section 3.3.5. New York's rule of 2007 is today's, so the data covers it.
	var file struct {
		Cases []struct{ Value, UTC, Note string }
	}
	readVectors(t, "rfc5545_instants.json", &file)
	require.Len(t, file.Cases, 4)
	for _, c := range file.Cases {
		name, digits, _ := strings.Cut(strings.TrimPrefix(c.Value, "TZID="), ":")
		w, err := time.Parse("20060102T150405", digits)
		require.NoError(t, err)
		got, fit := At(mustLoad(t, name), w.Year(), w.Month(), w.Day(), w.Hour(), w.Minute())
		require.Equal(t, c.UTC, got.UTC().Format("20060102T150405Z"), c.Note)
		want := Exact
		if strings.HasPrefix(c.Note, "ambiguous") {
			want = Repeated
		} else if strings.HasPrefix(c.Note, "gap") {
			want = Skipped
		}
		require.Equal(t, want, fit, c.Note)
	}
}

func TestNewYorkChangesItsClocksByLaw(t *testing.T) {
	// Source: the head of new_york_changes.json.
	var file struct {
		Years []struct {
			Start string `json:"dst_start_utc"`
			End   string `json:"dst_end_utc"`
		}
	}
	readVectors(t, "new_york_changes.json", &file)
	require.Len(t, file.Years, 12)
	loc := mustLoad(t, "America/New_York")
	for _, year := range file.Years {
		for change, want := range map[string]string{year.Start: "EST EDT", year.End: "EDT EST"} {
			at, err := time.Parse("2006-01-02T15:04Z", change)
			require.NoError(t, err)
			before, after := at.Add(-time.Second).In(loc), at.In(loc)
			require.Equal(t, want, before.Format("MST")+" "+after.Format("MST"), change)
		}
		start, _ := time.Parse("2006-01-02T15:04Z", year.Start)
		got, fit := At(loc, start.Year(), start.Month(), start.Day(), 2, 30)
		require.Equal(t, Skipped, fit)
		require.Equal(t, "03:30 EDT", got.Format("15:04 MST"))
		end, _ := time.Parse("2006-01-02T15:04Z", year.End)
		got, fit = At(loc, end.Year(), end.Month(), end.Day(), 1, 30)
		require.Equal(t, Repeated, fit)
		require.Equal(t, "01:30 EDT", got.Format("15:04 MST"))
	}
}

func TestAtCarriesOverLikeTimeDate(t *testing.T) {
	// Source for the dates: time.Date of Go's standard library, in UTC. What the clocks then do
	// is New York's change of 14 March 2027 (new_york_changes.json).
	loc := mustLoad(t, "America/New_York")
	for _, c := range []struct {
		month             time.Month
		day, hour, minute int
		want              string
		fit               Fit
	}{
		{3, 13, 24, 0, "2027-03-14 00:00 EST", Exact},
		{3, 14, 24, 0, "2027-03-15 00:00 EDT", Exact},
		{3, 14, 1, 59, "2027-03-14 01:59 EST", Exact},
		{3, 14, 1, 90, "2027-03-14 03:30 EDT", Skipped}, // 02:30 on the wall
		{3, 14, 3, -30, "2027-03-14 03:30 EDT", Skipped},
		{3, 14, 3, 0, "2027-03-14 03:00 EDT", Exact},
		{3, 0, 12, 0, "2027-02-28 12:00 EST", Exact},
		{13, 1, 7, 30, "2028-01-01 07:30 EST", Exact},
		{2, 29, 7, 30, "2027-03-01 07:30 EST", Exact},
	} {
		got, fit := At(loc, 2027, c.month, c.day, c.hour, c.minute)
		require.Equal(t, c.want, got.Format("2006-01-02 15:04 MST"))
		require.Equal(t, c.fit, fit, c.want)
		require.Same(t, loc, got.Location())
	}
}

func TestAtAgreesWithAClockWatchedMinuteByMinute(t *testing.T) {
	// The number of clock changes from 2025 to 2028 is from memory of each country's practice:
	// two a year, none, or Morocco's pair round Ramadan (which moves) and Gaza's around its own.
	for name, changing := range map[string]bool{
		"America/New_York": true, "Europe/London": true, "Australia/Sydney": true,
		"Europe/Dublin":       true,  // winter time is the one marked as daylight saving
		"Australia/Lord_Howe": true,  // half an hour
		"Australia/Adelaide":  true,  // half-hour offset, southern
		"America/St_Johns":    true,  // half-hour offset
		"Pacific/Chatham":     true,  // three-quarter-hour offset
		"Antarctica/Troll":    true,  // two hours
		"Africa/Casablanca":   true,  // back for Ramadan
		"Asia/Gaza":           true,  // several changes a year
		"America/Havana":      true,  // at midnight
		"America/Santiago":    true,  // at midnight, southern
		"Asia/Beirut":         true,  // at midnight
		"America/Nuuk":        true,  // on Saturday evening
		"Atlantic/Azores":     true,  // at midnight in spring
		"Asia/Kolkata":        false, // half-hour offset
		"America/Phoenix":     false,
		"Asia/Tokyo":          false,
		"Pacific/Kiritimati":  false, // the farthest east, +14
		"Etc/GMT+12":          false, // the farthest west
	} {
		loc := mustLoad(t, name)
		days := []time.Time{time.Date(2026, 1, 31, 0, 0, 0, 0, time.UTC)}
		for _, change := range changes(loc, 1) {
			if when := time.Unix(change, 0).In(loc); when.Year() >= 2025 && when.Year() <= 2028 {
				days = append(days, time.Date(when.Year(), when.Month(), when.Day(), 0, 0, 0, 0, time.UTC))
			}
		}
		require.Equal(t, changing, len(days) >= 1+2*4, "%s has %d changes", name, len(days)-1)
		fits := map[Fit]int{}
		for _, day := range days {
			watch(t, loc, day, fits)
		}
		require.NotZero(t, fits[Exact], name)
		require.Equal(t, changing, fits[Skipped] > 0 && fits[Repeated] > 0, "%s: %v", name, fits)
	}
}

// watch looks at the clock in loc once a minute for five days of UTC, notes what it shows, and
// asks At about each minute of the middle three days.
func watch(t *testing.T, loc *time.Location, day time.Time, fits map[Fit]int) {
	const minutesADay = 24 * 60
	first := day.Unix()/60 - minutesADay // the wall clock's minute at which the questions start
	seen := map[int64][]int64{}          // minute on the wall → minutes of UTC at which it shows
	for utc := first - minutesADay; utc < first+4*minutesADay; utc++ {
		_, offset := time.Unix(utc*60, 0).In(loc).Zone()
		seen[utc+int64(offset/60)] = append(seen[utc+int64(offset/60)], utc)
	}
	var last, lastWall int64 // the latest minute that the clock did show
	for wall := first; wall < first+3*minutesADay; wall++ {
		want, fit := int64(0), Exact
		switch shows := seen[wall]; len(shows) {
		case 0: // count on from the last minute shown, as if the clock had not jumped
			want, fit = last+wall-lastWall, Skipped
		case 1:
			want = shows[0]
		default:
			want, fit = shows[0], Repeated
		}
		if fit != Skipped {
			last, lastWall = want, wall
		}
		asked := time.Unix(wall*60, 0).UTC()
		got, gotFit := At(loc, asked.Year(), asked.Month(), asked.Day(), asked.Hour(), asked.Minute())
		if got.Unix() != want*60 || gotFit != fit {
			require.Failf(t, "wrong instant", "%s, %s on the wall: got %s (%d), want %s (%d)", loc,
				asked.Format("2006-01-02 15:04"), got, gotFit, time.Unix(want*60, 0).In(loc), fit)
		}
		fits[fit]++
	}
}
