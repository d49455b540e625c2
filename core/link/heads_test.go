package link_test

import (
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/link"
	"newel/core/plan"
	"newel/core/wall"
)

// The files in testdata/link/heads are read by web/test/unit/head.test.mjs as well, so
// that the page before the core has loaded and the core never differ on a head. Each was
// packed by the Python program in its source line, whose checksums are Python's own
// (binascii) and the published one of RFC 9580 6.1.

// headKeys are the keys that every file has, and those of a head that can be read. A
// fragment with a letter that a line of a file cannot have is "quoted" in place of it.
var headKeys = []string{"expect", "comment", "source", "fragment"}
var headFields = []string{"version", "number", "surgery", "arrival", "stay", "joint", "operation", "part"}

// readVector reads one file. A misspelt key must not turn a check off.
func readVector(t *testing.T, file string) map[string]string {
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	found := map[string]string{}
	for line := range strings.Lines(string(text)) {
		key, value, ok := strings.Cut(strings.TrimSuffix(line, "\n"), ": ")
		require.True(t, ok, line)
		require.NotContains(t, found, key)
		found[key] = value
	}
	if quoted, ok := found["quoted"]; ok {
		require.NotContains(t, found, "fragment")
		found["fragment"], err = strconv.Unquote(quoted)
		require.NoError(t, err)
		delete(found, "quoted")
	}
	wanted := slices.Clone(headKeys)
	if found["expect"] == "read" || found["expect"] == "newer" {
		wanted = append(wanted, headFields...)
	}
	var keys []string
	for key := range found {
		keys = append(keys, key)
	}
	require.ElementsMatch(t, wanted, keys)
	return found
}

// headOf is the head that a file says it is.
func headOf(t *testing.T, v map[string]string) link.Head {
	number := func(key string, bits int) uint64 {
		n, err := strconv.ParseUint(v[key], 0, bits)
		require.NoError(t, err, key)
		return n
	}
	surgery, err := wall.ParseDate(v["surgery"])
	require.NoError(t, err)
	arrival := wall.NoClock
	if v["arrival"] != "unknown" {
		arrival, err = wall.ParseClock(v["arrival"])
		require.NoError(t, err)
	}
	return link.Head{
		Version: int(number("version", 6)), Number: uint32(number("number", 32)), Surgery: surgery, Arrival: arrival,
		Stay: plan.Stay(number("stay", 2)), Joint: plan.Joint(number("joint", 1)), Operation: plan.Operation(number("operation", 2)),
		Part: number("part", 1) == 1,
	}
}

// said leaves the fields of a head that others see.
func said(h link.Head) link.Head {
	return link.Head{
		Version: h.Version, Number: h.Number, Surgery: h.Surgery, Arrival: h.Arrival,
		Stay: h.Stay, Joint: h.Joint, Operation: h.Operation, Locked: h.Locked, Part: h.Part,
	}
}

func TestHeads(t *testing.T) {
	files, err := filepath.Glob("../../testdata/link/heads/*.txt")
	require.NoError(t, err)
	require.Greater(t, len(files), 50)
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txt"), func(t *testing.T) {
			v := readVector(t, file)
			h, err := link.ReadHead(v["fragment"])
			switch v["expect"] {
			case "read":
				require.NoError(t, err)
				require.Equal(t, headOf(t, v), said(h))
			case "newer":
				require.ErrorIs(t, err, link.ErrNewer)
				require.Equal(t, headOf(t, v), said(h))
			case "beyond":
				require.ErrorIs(t, err, link.ErrNewer)
				require.Equal(t, link.Head{Version: h.Version}, said(h), "nothing is known of its head")
			case "locked":
				require.NoError(t, err)
				require.Equal(t, link.Head{Version: h.Version, Locked: true}, said(h), "it says only that it is locked")
			case "older":
				require.NoError(t, err)
				require.Equal(t, link.Head{}, said(h))
			case "damaged":
				require.ErrorIs(t, err, link.ErrDamaged)
			default:
				t.Fatalf("no check expects %q", v["expect"])
			}
		})
	}
}
