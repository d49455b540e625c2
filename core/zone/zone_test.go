package zone

import (
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

func TestLoadKnowsEveryNameThatDevicesReport(t *testing.T) {
	// Source: the list that ICU gives out through Intl, see the head of the file. Not in that
	// list but reported all the same: "UTC", and the new spelling of a renamed place.
	text, err := os.ReadFile("../../testdata/zone/intl_names.txt")
	require.NoError(t, err)
	names := []string{"UTC", "Europe/Kyiv", "America/Nuuk", "Asia/Kolkata", "US/Eastern", "Etc/GMT+5"}
	for line := range strings.Lines(string(text)) {
		if !strings.HasPrefix(line, "#") {
			names = append(names, strings.TrimSpace(line))
		}
	}
	require.Greater(t, len(names), 400)
	for _, name := range names {
		loc, err := Load(name)
		require.NoError(t, err)
		require.Equal(t, name, loc.String())
	}
}

func TestLoadGivesTheSameZoneAgain(t *testing.T) {
	first, err := Load("Europe/Paris")
	require.NoError(t, err)
	again, err := Load("Europe/Paris")
	require.NoError(t, err)
	require.Same(t, first, again)
}

func TestAnUnknownNameIsOneSentence(t *testing.T) {
	kept := len(loaded)
	for name, want := range map[string]string{
		"":                        "no time zone is given: choose the hospital’s, such as America/New_York",
		"Local":                   "the time zone “Local” is not known: choose one from the list, such as America/New_York",
		"america/new_york":        "the time zone “america/new_york” is not known: choose one from the list, such as America/New_York",
		"America/New_York ":       "the time zone “America/New_York ” is not known: choose one from the list, such as America/New_York",
		"America/New_Yor\xff":     "the time zone “America/New_Yor\xff” is not known: choose one from the list, such as America/New_York",
		"../../etc/passwd":        "the time zone “../../etc/passwd” is not known: choose one from the list, such as America/New_York",
		"Factory":                 "the time zone “Factory” is not known: choose one from the list, such as America/New_York",
		strings.Repeat("é", 5000): "the time zone “" + strings.Repeat("é", 40) + "…” is not known: choose one from the list, such as America/New_York",
	} {
		loc, err := Load(name)
		require.EqualError(t, err, want)
		require.Nil(t, loc)
		_, err = Data(name)
		require.EqualError(t, err, want)
	}
	require.Len(t, loaded, kept, "a name that is not known must not be remembered")
}

func TestADamagedRecordIsAnError(t *testing.T) {
	records := open().records
	good := records["Asia/Tokyo"]
	t.Cleanup(func() { delete(records, "Test/Damaged") })
	for _, size := range []int{0, 4, 40, 60, 100} {
		records["Test/Damaged"] = good[:size]
		_, err := Load("Test/Damaged")
		require.ErrorContains(t, err, "the data for the time zone “Test/Damaged” is damaged")
	}
}

func TestADamagedPackPanics(t *testing.T) {
	require.Panics(t, func() { unpack(packed[:len(packed)-100]) })
	require.Panics(t, func() { unpack("") })
}

func TestNamesAreThePlacesInOrder(t *testing.T) {
	names := Names()
	require.True(t, slices.IsSorted(names))
	require.Equal(t, names, slices.Compact(slices.Clone(names)), "no name twice")
	// zone.tab of release 2025b has 418 rows.
	require.GreaterOrEqual(t, len(names), 418)
	for _, name := range []string{"America/New_York", "America/Puerto_Rico", "Asia/Kolkata", "Europe/Kyiv", "Pacific/Honolulu"} {
		require.Contains(t, names, name)
	}
	for _, name := range names {
		require.Contains(t, name, "/")
		require.False(t, strings.HasPrefix(name, "Etc/") || strings.HasPrefix(name, "US/"), name)
		_, err := Load(name)
		require.NoError(t, err)
	}
	for _, old := range []string{"US/Eastern", "Asia/Calcutta", "America/Buenos_Aires", "EST5EDT", "UTC", "Australia/ACT"} {
		require.NotContains(t, names, old)
	}
	names[0] = "changed"
	require.NotEqual(t, "changed", Names()[0], "the caller's slice is its own")
}

func TestDataIsAWholeTZifFile(t *testing.T) {
	for name := range open().records {
		data, err := Data(name)
		require.NoError(t, err)
		require.Equal(t, "TZif2", string(data[:5]), name)
		_, err = time.LoadLocationFromTZData(name, data)
		require.NoError(t, err, name)
		require.Equal(t, byte('\n'), data[len(data)-1], name)
	}
}
