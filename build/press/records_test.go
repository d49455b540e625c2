package press

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"
)

// The table of functions of a real program is parted; of one with something in it that does not follow
// from its records, nothing is lost: it goes as it is.
func TestTheTableOfFunctions(t *testing.T) {
	_, trimmed := compiled(t, faults)
	all, err := sections(trimmed)
	require.NoError(t, err)
	last := 0
	for i, s := range all {
		if s.id == sectionCode {
			last = i
		}
	}
	before, table, rest := parted(all[last+1:])
	require.Greater(t, table.count, 1000)
	require.Greater(t, len(table.bytes()), 60*table.count)
	whole := join(all[last+1:])[len(preamble):]
	require.True(t, bytes.Equal(whole, append(append(before[:len(before):len(before)], table.bytes()...), rest...)))

	without, err := Press(trimmed)
	require.NoError(t, err)
	// The word behind the index and the filling between two records are what no record says.
	m := table.bytes()
	place := bytes.Index(trimmed, m)
	require.Positive(t, place)
	gap := firstGap(t, table, m)
	broken := bytes.Clone(trimmed)
	broken[place+gap] = 1
	again, err := sections(broken)
	require.NoError(t, err)
	_, none, _ := parted(again[last+1:])
	require.Zero(t, none.count)
	pressed, err := Press(broken)
	require.NoError(t, err)
	require.NotEqual(t, without, pressed)
	back, err := Unpress(pressed)
	require.NoError(t, err)
	sameInstructions(t, broken, back)
}

// firstGap is where in the table's bytes a record is followed by filling.
func firstGap(t *testing.T, table region, m []byte) int {
	t.Helper()
	for i := 1; i < table.count-1; i++ {
		from, next := order.Uint32(m[8*(i-1)+4:])-8, order.Uint32(m[8*i+4:])-8
		end := from + uint32(recordSize) + 4*(order.Uint32(m[from+atStepLists:])+uint32(m[from+atDataCount]))
		if end < next {
			return int(end)
		}
	}
	t.Fatal("no record is followed by filling")
	return 0
}
