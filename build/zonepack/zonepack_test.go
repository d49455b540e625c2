package main

import (
	"bytes"
	"go/build"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

func goZones(t *testing.T) map[string][]byte {
	zones, err := readZones(filepath.Join(build.Default.GOROOT, "lib", "time", "zoneinfo.zip"))
	require.NoError(t, err)
	return zones
}

func TestTwoRunsGiveTheSameBytesAndTheTrackedFile(t *testing.T) {
	first, second := filepath.Join(t.TempDir(), "a"), filepath.Join(t.TempDir(), "b")
	require.NoError(t, run(build.Default.GOROOT, first))
	require.NoError(t, run(build.Default.GOROOT, second))
	a, err := os.ReadFile(first)
	require.NoError(t, err)
	b, err := os.ReadFile(second)
	require.NoError(t, err)
	require.True(t, bytes.Equal(a, b), "two runs differ")

	tracked, err := os.ReadFile("../../core/zone/zones.bin")
	require.NoError(t, err)
	here, _, _ := strings.Cut(string(a), "\n")
	packed, _, _ := strings.Cut(string(tracked), "\n")
	if here != packed {
		t.Logf("the zone data here is release %s, core/zone/zones.bin holds %s: the bytes may differ, only the "+
			"size is compared. To catch up: go run ./build/zonepack", here, packed)
		require.InEpsilon(t, len(tracked), len(a), 0.2)
		return
	}
	require.True(t, bytes.Equal(tracked, a), "core/zone/zones.bin is out of date: go run ./build/zonepack")
}

func TestThePackStaysSmall(t *testing.T) {
	packed, err := pack("test", goZones(t))
	require.NoError(t, err)
	require.Less(t, len(packed), 40_000)
	require.True(t, bytes.HasPrefix(packed, []byte("test\n")))
}

func TestShortenKeepsWhatAPlanNeeds(t *testing.T) {
	// Source for the length: RFC 9636, section 3: 51 bytes for the smallest 32-bit block, 44 for
	// the header, 6 for a type, 4 for "EST\0", 24 for the footer and its line ends. The footer is
	// the rule of testdata/zone/new_york_changes.json as POSIX writes it.
	zones := goZones(t)
	short, err := shorten("America/New_York", zones["America/New_York"])
	require.NoError(t, err)
	require.Len(t, short, 51+44+6+4+24)
	require.True(t, bytes.HasSuffix(short, []byte("EST\x00\nEST5EDT,M3.2.0,M11.1.0\n")))

	// Morocco's changes run on to 2087 in the input; the pack stops at the end of 2045.
	short, err = shorten("Africa/Casablanca", zones["Africa/Casablanca"])
	require.NoError(t, err)
	changes, footer, err := parse(short)
	require.NoError(t, err)
	require.Equal(t, "<+01>-1", footer)
	require.Equal(t, 2020, time.Unix(changes[0], 0).UTC().Year())
	require.Equal(t, 2045, time.Unix(changes[len(changes)-1], 0).UTC().Year())
}

func TestShortenRefusesWhatItCannotRead(t *testing.T) {
	good := goZones(t)["America/New_York"]
	for name, bad := range map[string][]byte{
		"empty":          nil,
		"not a zone":     []byte("GIF89a"),
		"cut short":      good[:len(good)/2],
		"version 1 only": append([]byte("TZif\x00"), good[5:]...),
		"no footer":      good[:bytes.LastIndexByte(good[:len(good)-1], '\n')],
	} {
		_, err := pack("test", map[string][]byte{"Test/Bad": bad})
		require.ErrorContains(t, err, "zone Test/Bad: ", name)
	}
}

func TestARecordThatReadsDifferentlyIsRefused(t *testing.T) {
	zones := goZones(t)
	whole, err := time.LoadLocationFromTZData("America/New_York", zones["America/New_York"])
	require.NoError(t, err)
	other, err := shorten("America/Havana", zones["America/Havana"])
	require.NoError(t, err)
	require.ErrorContains(t, sameClock(whole, other, nil), "the shortened record shows")
}

func TestAnUnknownReleaseIsSaidSo(t *testing.T) {
	require.Equal(t, "unknown", dataVersion(t.TempDir()))
	require.Regexp(t, `^20\d\d[a-z]+$`, dataVersion(build.Default.GOROOT))
}

func TestAMissingArchiveIsAnError(t *testing.T) {
	err := run(t.TempDir(), filepath.Join(t.TempDir(), "out"))
	require.ErrorContains(t, err, "reading the zones that come with Go")
}
