package calendar

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
)

func TestAStayKeepsItsEventsWhenItIsDecided(t *testing.T) {
	p := family(t, func(p *plan.Plan) { p.Stay = plan.Undecided })
	file, memory := write(t, p, Choice{All: true, Alarm: -1}, "")
	before := events(t, file, "Stay with Rosa")
	require.Len(t, before, 13) // three of the same day alone, three of the one night alone, seven of both
	uids := map[string]bool{}
	ifs := 0
	for _, e := range before {
		uids[line(e, "UID")] = true
		ifs += strings.Count(line(e, "DESCRIPTION"), "If they ")
	}
	require.Len(t, uids, 13)
	require.Equal(t, 6, ifs)
	p.Stay = plan.OneNight
	file, _ = write(t, p, Choice{All: true, Alarm: -1}, memory)
	kept := 0
	for _, e := range events(t, file, ": Stay with Rosa") {
		if line(e, "STATUS") == "CONFIRMED" {
			require.True(t, uids[line(e, "UID")], "the same event")
			kept++
		}
	}
	require.Equal(t, 10, kept)
	require.Len(t, events(t, file, "Taken out of the plan"), 4) // the drive and three parts of the other way
}

// Yesterday's page wrote the whole stay as one event for each branch, under another key. A
// calendar that has it hears that it is over, and says what it was.
func TestTheOneEventOfEarlierFilesIsTakenOut(t *testing.T) {
	p := family(t)
	_, memory := write(t, p, everything(), "")
	old := uid(p.Number, "stay-with.one-night")
	memory += old + " 2 0123456789abcdef 20270310T154000Z\n"
	file, again := write(t, p, everything(), memory)
	gone := one(t, file, "Old entry: Stay with Rosa at home")
	require.Equal(t, old, line(gone, "UID"))
	require.Equal(t, "CANCELLED", line(gone, "STATUS"))
	require.Equal(t, "3", line(gone, "SEQUENCE"))
	require.Contains(t, again, old+" 3 0 20270310T154000Z -")
	require.Len(t, events(t, file, ": Stay with Rosa"), 11) // ten parts and the old one
}

// A night of the family's takes a part's place: its event is taken out by name.
func TestAPartThatANightTakesIsTakenOut(t *testing.T) {
	p := family(t)
	_, memory := write(t, p, everything(), "")
	p = p.WithDuty(plan.Duty{ID: 9, Kind: plan.Nights, Rule: rule(t, "2027-03-11 20:00", ""), Length: 12 * 60})
	file, _ := write(t, p, everything(), memory)
	gone := one(t, file, "Taken out of the plan: Stay with Rosa")
	require.Equal(t, uid(p.Number, plan.SlotOf(2, plan.Night).Name()), line(gone, "UID"))
}
