package link

import (
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
	"newel/core/wall"
)

// The links in testdata/link/v1 were packed by another program. A family keeps its
// link for months: every one of them opens for ever, and the files never change.
func TestLinksOfVersion1OpenForEver(t *testing.T) {
	files, err := filepath.Glob("../../testdata/link/v1/*.txt")
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(files), 5)
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txt"), func(t *testing.T) {
			fragment, want := golden(t, file)
			read, err := decodeOld(fragment)
			require.NoError(t, err)
			require.Equal(t, want, read)
			require.Equal(t, fragment, encodeOld(want))
			d, err := Decode(fragment)
			require.NoError(t, err)
			p := d.Plan()
			require.Equal(t, want.Plan, p)
			for _, problem := range plan.Check(&p, p.Surgery) {
				require.True(t, problem.Ask, "a golden plan has a problem: %+v", problem)
			}
		})
	}
}

// golden reads a vector: a header, the plan's fields, the fragment; every line is
// "key: value".
func golden(t *testing.T, file string) (fragment string, p old) {
	data, err := os.ReadFile(file)
	require.NoError(t, err)
	read := map[string]bool{}
	for line := range strings.SplitSeq(strings.TrimSpace(string(data)), "\n") {
		if line == "" {
			continue
		}
		key, value, ok := strings.Cut(line, ":")
		require.True(t, ok, line)
		require.False(t, read[key], "%s stands twice", key)
		read[key] = true
		value = strings.TrimSpace(value)
		if key == "fragment" {
			fragment = value
		} else {
			fillIn(t, &p, key, value)
		}
	}
	require.Len(t, read, 3+17+1, "source, why and promise, seventeen fields, and the fragment")
	return fragment, p
}

func fillIn(t *testing.T, p *old, key, value string) {
	choice := func(answers ...string) uint8 {
		i := slices.Index(answers, value)
		require.GreaterOrEqual(t, i, 0, "%s: %s", key, value)
		return uint8(i)
	}
	switch key {
	case "source", "why", "promise":
		require.NotEmpty(t, value)
	case "number":
		p.Number = uint32(whole(t, value))
	case "edition":
		p.edition = uint32(whole(t, value))
	case "patient":
		p.Patient = value
	case "surgery":
		p.Surgery = day(t, value)
	case "arrival":
		p.Arrival = clock(t, value)
	case "joint":
		p.Joint = plan.Joint(choice("knee", "hip"))
	case "operation":
		p.Operation = plan.Operation(choice("first", "revision", "both"))
	case "stay":
		p.Stay = plan.Stay(choice("one-night", "same-day", "undecided"))
	case "zone":
		p.Zone = value
	case "drive":
		p.Drive = whole(t, value)
	case "parking":
		p.Parking = whole(t, value)
	case "facts":
		p.Facts = facts(t, value)
	case "hospital":
		p.Program.Hospital = value
	case "address":
		p.Program.Address = value
	case "phone":
		p.Program.Phone = value
	case "rules":
		fillRules(t, p, value)
	case "ticks":
		fillTicks(t, p, value)
	default:
		require.Fail(t, "no such key", key)
	}
}

func whole(t *testing.T, s string) int {
	if s == "unknown" {
		return plan.Unknown
	}
	n, err := strconv.Atoi(s)
	require.NoError(t, err)
	return n
}

func clock(t *testing.T, s string) wall.Clock {
	if s == "unknown" {
		return wall.NoClock
	}
	c, err := wall.ParseClock(s)
	require.NoError(t, err)
	return c
}

func facts(t *testing.T, keys string) (f plan.Facts) {
	for _, key := range strings.Fields(keys) {
		fact, ok := plan.FactByKey(key)
		if key == "home-answered" {
			fact, ok = plan.HomeAnswered, true
		}
		require.True(t, ok, key)
		f |= fact
	}
	return f
}

func fillRules(t *testing.T, p *old, rules string) {
	for _, rule := range strings.Fields(rules) {
		key, value, _ := strings.Cut(rule, "=")
		r, ok := plan.RuleByKey(key)
		require.True(t, ok, key)
		require.True(t, p.Program.Set(r, whole(t, value)), rule)
	}
}

func fillTicks(t *testing.T, p *old, ticks string) {
	for _, tick := range strings.Fields(ticks) {
		code, n, _ := strings.Cut(tick, ".")
		p.Ticked = append(p.Ticked, plan.Tick{Code: uint16(whole(t, code)), N: uint8(whole(t, n))})
	}
}
