package link

import (
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/merge"
	"newel/core/plan"
	"newel/core/wall"
)

// A link that names a program carries none of its lines: it stays as short as the desk's goal for
// a starter link (issue of the desk: 16 to 22 characters; the count is ours, no published source).
func TestTheLinkOfAProgramWithLinesIsShort(t *testing.T) {
	const number = 2
	_, taken := plan.Programs[number]
	require.False(t, taken)
	known := plan.Known{Zone: "America/Chicago", Given: plan.SoapGiven}
	known.Program.Number = number
	for i, text := range []string{"Bring the blue folder", "Do not kneel", "Park in the north garage"} {
		known.Lines = append(known.Lines, plan.Line{ID: plan.FirstKnownLine + uint32(i), List: plan.Packing, Day: plan.NoDay, Hospital: true, Text: text})
	}
	plan.Programs[number] = known
	t.Cleanup(func() { delete(plan.Programs, number) })
	p := plan.Plan{
		Number: 0xabcdef12, Surgery: 20886, Arrival: wall.NoClock, Zone: known.Zone,
		Drive: plan.Unknown, Parking: plan.Unknown, Program: known.Program, Lines: known.Lines,
	}
	fragment := Encode(merge.New(p))
	t.Logf("%d characters: %s", len(fragment), fragment)
	require.GreaterOrEqual(t, len(fragment), 16)
	require.LessOrEqual(t, len(fragment), 22)
	got, err := Decode(fragment)
	require.NoError(t, err)
	require.Equal(t, p, got.Plan())
}
