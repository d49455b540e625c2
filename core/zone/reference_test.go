package zone

import (
	"archive/zip"
	"go/build"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// The reference is the whole IANA time zone database as it comes with Go
// (lib/time/zoneinfo.zip), read by Go's own time.LoadLocationFromTZData.

var (
	from  = time.Date(2020, 1, 1, 0, 0, 0, 0, time.UTC)
	until = time.Date(2046, 1, 1, 0, 0, 0, 0, time.UTC)
)

// shown is what the clock in a zone shows beside the digits.
type shown struct {
	offset int
	abbr   string
	isDST  bool
}

func at(loc *time.Location, unix int64) shown {
	t := time.Unix(unix, 0).In(loc)
	abbr, offset := t.Zone()
	return shown{offset, abbr, t.IsDST()}
}

// changes returns the seconds at which loc's clock changes between from and until: looked for
// every so many days, then halved down to the second.
func changes(loc *time.Location, days int64) []int64 {
	step := days * 24 * 60 * 60
	var found []int64
	for start := from.Unix(); start < until.Unix(); start += step {
		before, low, high := at(loc, start), start, start+step
		if at(loc, high) == before {
			continue
		}
		for high-low > 1 {
			if middle := (low + high) / 2; at(loc, middle) == before {
				low = middle
			} else {
				high = middle
			}
		}
		found = append(found, high)
	}
	return found
}

func TestEveryZoneShowsWhatTheWholeDatabaseShows(t *testing.T) {
	zones := wholeDatabase(t)
	delete(zones, "Factory") // "this device has not been told its zone"
	var differ, missing []string
	for name, whole := range zones {
		short, err := Load(name)
		if err != nil {
			missing = append(missing, name)
		} else if unlike(whole, short) {
			differ = append(differ, name)
		}
	}
	if version := databaseVersion(t); version != Version() {
		t.Logf("the zone data here is release %s and zones.bin holds %s: %d names differ %v, %d are new %v. "+
			"To catch up: go run ./build/zonepack", version, Version(), len(differ), differ, len(missing), missing)
		// A release changes a handful of places; a fault in the packing would change most.
		require.Less(t, len(differ)+len(missing), 60)
		return
	}
	require.Empty(t, missing)
	require.Empty(t, differ)
	require.Len(t, open().records, len(zones))
}

// unlike compares a second before, at, and a second after each change in either zone, and at
// noon of the 1st and 15th of each month.
func unlike(a, b *time.Location) bool {
	var times []int64
	for _, change := range append(changes(a, 7), changes(b, 7)...) {
		times = append(times, change-1, change, change+1)
	}
	for month := from; month.Before(until); month = month.AddDate(0, 1, 0) {
		times = append(times, month.Unix()+12*60*60, month.AddDate(0, 0, 14).Unix()+12*60*60)
	}
	for _, unix := range times {
		if at(a, unix) != at(b, unix) {
			return true
		}
	}
	return false
}

func TestNoZoneChangesTwiceWithinTheReachOfAt(t *testing.T) {
	all, done := 0, map[string]bool{}
	for name, record := range open().records {
		if done[record] {
			continue
		}
		done[record] = true
		loc, err := Load(name)
		require.NoError(t, err)
		found := changes(loc, 1)
		all += len(found)
		require.Equal(t, found, changes(loc, 7), "a search by the week finds no less than by the day")
		for i := 1; i < len(found); i++ {
			require.Greater(t, found[i]-found[i-1], int64(2*reach/time.Second), name)
		}
	}
	require.NotZero(t, all)
}

// wholeDatabase loads every zone that comes with Go.
func wholeDatabase(t *testing.T) map[string]*time.Location {
	files, err := zip.OpenReader(filepath.Join(build.Default.GOROOT, "lib", "time", "zoneinfo.zip"))
	require.NoError(t, err)
	defer files.Close()
	zones := map[string]*time.Location{}
	for _, file := range files.File {
		if file.FileInfo().IsDir() {
			continue
		}
		content, err := file.Open()
		require.NoError(t, err)
		data, err := io.ReadAll(content)
		require.NoError(t, err)
		zones[file.Name], err = time.LoadLocationFromTZData(file.Name, data)
		require.NoError(t, err)
	}
	require.Greater(t, len(zones), 500)
	return zones
}

// databaseVersion returns the release of the database that comes with Go, from the script that
// fetched it.
func databaseVersion(t *testing.T) string {
	script, err := os.ReadFile(filepath.Join(build.Default.GOROOT, "lib", "time", "update.bash"))
	if err != nil {
		return "unknown"
	}
	found := regexp.MustCompile(`(?m)^DATA=(\S+)$`).FindSubmatch(script)
	require.NotNil(t, found)
	return string(found[1])
}
