package peers

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/repeat"
	"newel/core/wall"
	"newel/core/zone"
)

// Every change of the clocks from 2024 to 2035 in these zones: both halves of the world,
// changes at midnight (Havana, Santiago), by half an hour (Lord Howe), around Ramadan
// (Casablanca), in zones off the hour (Adelaide, Chatham, St. John's), and zones that
// never change.
var changing = []string{
	"America/New_York", "America/Chicago", "America/Los_Angeles", "America/St_Johns", "America/Havana", "America/Santiago",
	"Europe/London", "Europe/Berlin", "Africa/Casablanca", "Africa/Cairo", "Asia/Jerusalem", "Asia/Beirut",
	"Australia/Sydney", "Australia/Adelaide", "Australia/Lord_Howe", "Pacific/Auckland", "Pacific/Chatham",
}

var unchanging = []string{"America/Phoenix", "Asia/Kathmandu", "Asia/Kolkata", "Pacific/Honolulu", "UTC"}

// timesOfDay stand on both sides of every hour at which clocks change, and in between.
var timesOfDay = []wall.Clock{0, 15, 30, 59, 60, 90, 119, 120, 135, 150, 165, 179, 180, 225, 240, 9 * 60, 12*60 + 30, 23 * 60, 23*60 + 30}

var (
	firstChange = time.Date(2024, 1, 1, 0, 0, 0, 0, time.UTC)
	lastChange  = time.Date(2036, 1, 1, 0, 0, 0, 0, time.UTC)
)

// changesOf finds the changes that our own zone data knows, in the way the peer does.
func changesOf(loc *time.Location) []int64 {
	offset := func(second int64) int { _, o := time.Unix(second, 0).In(loc).Zone(); return o }
	var found []int64
	for low := firstChange.Unix(); low < lastChange.Unix(); low += 86400 {
		if from, to := low, low+86400; offset(from) != offset(to) {
			for to-from > 1 {
				if middle := (from + to) / 2; offset(middle) == offset(from) {
					from = middle
				} else {
					to = middle
				}
			}
			found = append(found, to)
		}
	}
	return found
}

// sameChanges gives the changes of a zone that we and the machine both know. Where the
// two are of one release these are all; a newer release may have news of some zone.
func sameChanges(t *testing.T, p *Peer, name string) []int64 {
	loc, err := zone.Load(name)
	require.NoError(t, err)
	theirs, err := p.Changes(name, firstChange, lastChange)
	require.NoError(t, err)
	ours := changesOf(loc)
	if p.Zones == zone.Version() {
		require.Equal(t, theirs, ours, "%s, both of release %s", name, p.Zones)
	}
	return slices.DeleteFunc(ours, func(c int64) bool { return !slices.Contains(theirs, c) })
}

// releases says what the two sides of a failed comparison stand on.
func releases(p *Peer) string {
	return fmt.Sprintf("our zones are of release %s, the machine's (Debian's tzdata) of %s", zone.Version(), p.Zones)
}

// placed is one date of a daily rule in a zone.
type placed struct {
	wall   string
	second int64
	fit    zone.Fit
	change int64 // the change of the clocks that it is near
}

// around gives the dates of daily rules at every time of day, from two days before each
// change to two days after it.
func around(t *testing.T, loc *time.Location, changes []int64) []placed {
	var all []placed
	for _, change := range changes {
		for _, at := range timesOfDay {
			day := wall.DateOf(time.Unix(change, 0).In(loc))
			rule := repeat.Rule{First: day - 2, At: at, Freq: repeat.Daily, Every: 1, Count: 5}
			require.NoError(t, rule.Check())
			dates, _ := rule.All()
			require.Len(t, dates, 5)
			for _, date := range dates {
				instant, fit := date.Place(loc)
				all = append(all, placed{isoOf(date.Moment), instant.Unix(), fit, change})
			}
		}
	}
	return all
}

func (p placed) String() string { return fmt.Sprintf("%s (fit %d)", p.wall, p.fit) }

func walls(all []placed) []string {
	var list []string
	for _, p := range all {
		list = append(list, p.wall)
	}
	return list
}

// A daily date stays at its time on the wall through every change of the clocks, and
// its instant is the one that Python's zoneinfo finds. A time that is skipped or
// repeated is read as RFC 5545 3.3.5 says.
func TestDailyDatesThroughEveryChangeOfTheClocks(t *testing.T) {
	p := start(t, Dateutil)
	fits := map[zone.Fit]int{}
	changes := 0
	for _, name := range changing {
		loc, err := zone.Load(name)
		require.NoError(t, err)
		same := sameChanges(t, p, name)
		changes += len(same)
		all := around(t, loc, same)
		seconds, err := p.Place(name, walls(all))
		require.NoError(t, err)
		for i, date := range all {
			fits[date.fit]++
			require.Equal(t, seconds[i], date.second, "%s %s; %s", name, date, releases(p))
			onTheWall := time.Unix(date.second, 0).In(loc).Format("2006-01-02T15:04")
			require.Equal(t, date.fit != zone.Skipped, onTheWall == date.wall, "%s %s: the wall stays", name, date)
		}
		instantsMove(t, name, all)
	}
	require.GreaterOrEqual(t, changes, 12*2*(len(changing)-1), releases(p))
	require.Len(t, fits, 3, "%v", fits)
}

// instantsMove checks that over each change the instants are not whole days apart.
func instantsMove(t *testing.T, name string, all []placed) {
	for ; len(all) > 0; all = all[5:] {
		require.NotEqual(t, int64(4*86400), all[4].second-all[0].second, "%s %s to %s", name, all[0], all[4])
	}
}

func TestDailyDatesWhereTheClocksNeverChange(t *testing.T) {
	p := start(t, Dateutil)
	for _, name := range unchanging {
		loc, err := zone.Load(name)
		require.NoError(t, err)
		require.Empty(t, sameChanges(t, p, name), "%s; %s", name, releases(p))
		for day := firstChange; day.Before(lastChange); day = day.AddDate(0, 0, 30) {
			all := around(t, loc, []int64{day.Unix()})
			seconds, err := p.Place(name, walls(all[:5]))
			require.NoError(t, err)
			for i, date := range all[:5] {
				require.Equal(t, seconds[i], date.second, "%s %s; %s", name, date, releases(p))
				require.Equal(t, zone.Exact, date.fit)
			}
		}
	}
}

// libical agrees wherever a time is on the clock exactly once. Where it is skipped or
// repeated, libical takes the other reading than RFC 5545 3.3.5 does: "If the local time
// described occurs more than once (when changing from daylight to standard time), the
// DATE-TIME value refers to the first occurrence of the referenced time"; "If the local
// time described does not occur (when changing from standard to daylight time), the
// DATE-TIME value is interpreted using the UTC offset before the gap in local times".
func TestLibicalPlacesDatesThroughEveryChangeOfTheClocks(t *testing.T) {
	p, other := start(t, Libical), start(t, Dateutil)
	for _, name := range changing {
		loc, err := zone.Load(name)
		require.NoError(t, err)
		all := around(t, loc, sameChanges(t, other, name))
		seconds, err := p.Place(name, walls(all))
		require.NoError(t, err)
		for i, date := range all {
			want := date.second
			if date.fit != zone.Exact && !startsStandard(loc, date) {
				want -= step(loc, date.change)
			}
			require.Equal(t, want, seconds[i], "%s %s; %s", name, date, releases(p))
		}
	}
}

// startsStandard tells whether a repeated time comes first in standard time, as when
// Casablanca puts its clocks back for Ramadan. libical means the one in standard time.
func startsStandard(loc *time.Location, date placed) bool {
	return date.fit == zone.Repeated && !time.Unix(date.change-1, 0).In(loc).IsDST()
}

// step is by how many seconds a change puts the clocks forward.
func step(loc *time.Location, change int64) int64 {
	_, before := time.Unix(change-1, 0).In(loc).Zone()
	_, after := time.Unix(change, 0).In(loc).Zone()
	return int64(after - before)
}
