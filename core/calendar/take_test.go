package calendar

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
	"newel/core/repeat"
)

func TestImportingTwiceChangesAndNeverDoubles(t *testing.T) {
	p := family(t)
	loc := load(t, p.Zone)
	file, _ := write(t, p, everything(), "")
	for range 2 {
		found, err := Read(file, &p, loc)
		require.NoError(t, err)
		require.Empty(t, found.Left)
		before := len(p.Duties)
		for _, d := range found.Duties {
			require.NotZero(t, d.ID)
			require.True(t, p.Duty(d.ID).Equal(d))
			p = p.WithDuty(d)
		}
		require.Len(t, p.Duties, before)
	}
	// The same where another program dropped our properties.
	found, err := Read(withoutOurs(file), &p, loc)
	require.NoError(t, err)
	require.Empty(t, found.Left)
	require.Len(t, found.Duties, 4)
	for _, d := range found.Duties {
		require.True(t, p.Duty(d.ID).Equal(d))
	}
	// Into another plan they are new, and nobody's.
	other := family(t, func(p *plan.Plan) { p.Number, p.Duties = 99, nil })
	found, err = Read(file, &other, loc)
	require.NoError(t, err)
	require.Len(t, found.Duties, 3) // the one that was taken out is nothing there
	require.Equal(t, "cancelled", why(found))
	for _, d := range found.Duties {
		require.Zero(t, int(d.ID)+int(d.Who)+int(d.Revision))
	}
}

func TestAnEventThatWasMovedInTheCalendar(t *testing.T) {
	p := family(t)
	file, _ := write(t, p, Choice{Duty: "f1", Alarm: -1}, "")
	// Somebody moved the whole series an hour on, in another program that writes lists.
	moved := strings.NewReplacer("T093000", "T103000", "T120500", "T130500").Replace(file)
	found, err := Read(moved, &p, load(t, p.Zone))
	require.NoError(t, err)
	require.Empty(t, found.Left)
	d := found.Duties[0]
	want := p.Duties[0]
	want.Rule.At = 11*60 + 30
	want.Rule.Extra = []repeat.Moment{{Day: want.Rule.Extra[0].Day, At: 11*60 + 30}}
	require.True(t, d.Equal(want), "%+v\n%+v", d, want)
	// An old file does not undo what the plan has learnt since.
	newer := family(t)
	newer.Duties[0].Revision++
	found, err = Read(file, &newer, load(t, p.Zone))
	require.NoError(t, err)
	require.Empty(t, found.Duties)
	require.Equal(t, "older", why(found))
}

func TestOurOwnPropertyIsReadAsAStrangers(t *testing.T) {
	p := family(t)
	file, _ := write(t, p, Choice{Duty: "f1", Alarm: -1}, "")
	text := unescape(parse(t, file).Children[1].Props.Get(propDuty).Value)
	n, ok := readDuty(text)
	require.True(t, ok)
	want := p.Duties[0]
	want.Who = 0 // who has it is not in it
	require.True(t, n.duty.Equal(want))
	for _, change := range [][2]string{
		{"id 1 1", "id 0 1"}, {"id 1 1", "id 1"}, {"id 1 1", "id 4294967296 1"}, {"id 1 1", "id 1 65536"}, {"kind therapy", "kind x"},
		{"minutes 45", "minutes 1441"}, {"minutes 45", "minutes x"}, {"ride 10 20 5 10", "ride 10 20 5"}, {"ride 10 20 5 10", "ride 10 721 5 10"},
		{"ride 10 20 5 10", "ride -1 20 5 10"}, {"ride 10 20 5 10", "ride 10 20 181 10"}, {"ride 10 20 5 10", "ride 10 20 5 181"},
		{"lead 60", "lead 99999"}, {"first 2027", "first 1927"}, {"FREQ=WEEKLY", "FREQ=SECONDLY"}, {"COUNT=18", "COUNT=1800"},
		{"not 2027-04-05", "not 2027-04-06"}, {"moved 2027-03-26>", "moved 2027-03-27>"}, {"also 2027-04-06T10:30", "also 2027-04-06T24:00"},
		{"recur FREQ", "recur X"}, {"first 2027-03-15", "first 2027-03-14"},
	} {
		require.Contains(t, text, change[0])
		_, ok := readDuty(strings.Replace(text, change[0], change[1], 1))
		require.False(t, ok, "%v", change)
	}
}
