package calendar

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
	"newel/core/repeat"
)

// twoWays is the family's therapy with Dana, who lives 10 minutes away, and Wednesdays with
// Lee, who lives 40 minutes away.
func twoWays(t testing.TB) plan.Plan {
	p := family(t)
	p.Duties = p.Duties[:1]
	p.Duties[0].On[3] = 2
	p.Duties[0].Ride.Leaves = false
	return p.WithAbout(1, plan.About{Told: true, Away: 10}).WithAbout(2, plan.About{Told: true, Away: 40})
}

// Each helper's file begins when they leave their own home: 10:30 less 10 early, 5 to walk,
// 25 of drive with more for traffic, 10 into the car, and the own way.
func TestEachFileHasItsHelpersOwnWay(t *testing.T) {
	p := twoWays(t)
	dana, _ := write(t, p, Choice{Who: 1, Alarm: -1}, "")
	require.Equal(t, "America/New_York:20270315T093000", line(events(t, dana, "Ride to therapy")[0], "DTSTART"))
	lee, _ := write(t, p, Choice{Who: 2, Alarm: -1}, "")
	e := events(t, lee, "Ride to therapy")[0]
	require.Equal(t, "America/New_York:20270317T090000", line(e, "DTSTART"))
	require.Contains(t, line(e, "DESCRIPTION"), "Leave home by 09:00.")
	require.Contains(t, line(e, "DESCRIPTION"), "Pick up the patient at 09:40.")
}

// In everybody's file the series has the way that most dates have, and the others are moved
// (RECURRENCE-ID, RFC 5545 3.8.4.4). Unchanged it is read as the plan has it, and where
// somebody moved one date in their calendar, as that alone.
func TestDifferentWaysInOneFile(t *testing.T) {
	p := twoWays(t)
	file, _ := write(t, p, Choice{All: true, Alarm: -1}, "")
	loc := load(t, p.Zone)
	all := events(t, file, "herapy")
	require.Equal(t, "America/New_York:20270315T093000", line(all[0], "DTSTART"))
	ways := 0
	for _, e := range all[1:] {
		if strings.HasSuffix(line(e, "DTSTART"), "T090000") {
			ways++
		}
	}
	require.Equal(t, 6, ways, "six Wednesdays")
	for name, text := range map[string]string{"as it is": file, "without our properties": withoutOurs(file)} {
		found, err := Read(text, &p, loc)
		require.NoError(t, err)
		require.Empty(t, found.Left, name)
		require.Len(t, found.Duties, 1)
		require.True(t, found.Duties[0].Equal(p.Duties[0]), name)
	}
	// Lee's first Wednesday is moved by an hour in a calendar.
	moved := strings.Replace(file, "DTSTART;TZID=America/New_York:20270317T090000", "DTSTART;TZID=America/New_York:20270317T100000", 1)
	require.NotEqual(t, file, moved)
	found, err := Read(moved, &p, loc)
	require.NoError(t, err)
	require.Empty(t, found.Left)
	want := p.Duties[0]
	to := repeat.Moment{Day: day(t, "2027-03-17"), At: 11*60 + 30}
	want.Rule.Moved = append([]repeat.Move{{From: to.Day, To: to}}, want.Rule.Moved...)
	require.True(t, found.Duties[0].Equal(want), "%+v", found.Duties[0].Rule)
}

// SEQUENCE rises with the times (RFC 5546 2.1.4), also where only the helper's way moved them
// and the plan did not count it.
func TestANewWayRaisesTheSequence(t *testing.T) {
	p := twoWays(t)
	file, memory := write(t, p, Choice{Who: 2, Alarm: -1}, "")
	before := events(t, file, "Ride to therapy")[0]
	p = p.WithAbout(2, plan.About{Told: true, Away: 45})
	file, _ = write(t, p, Choice{Who: 2, Alarm: -1}, memory)
	after := events(t, file, "Ride to therapy")[0]
	require.Equal(t, line(before, "UID"), line(after, "UID"))
	require.Equal(t, "America/New_York:20270317T085500", line(after, "DTSTART"))
	require.Equal(t, "1", line(before, "SEQUENCE"))
	require.Equal(t, "2", line(after, "SEQUENCE"))
}

// What every plan has begins at the patient's time in all files, and says when its helper
// leaves their own home.
func TestTheOwnWayIsSaidBesideThePatientsTime(t *testing.T) {
	p := twoWays(t)
	file, _ := write(t, p, Choice{Who: 1, Alarm: -1}, "")
	e := one(t, file, "Drive to the hospital")
	require.Equal(t, "America/New_York:20270309T041500", line(e, "DTSTART"))
	require.Contains(t, line(e, "DESCRIPTION"), "From your own home\\, leave by 04:05.")
	file, _ = write(t, p, Choice{All: true, Alarm: -1}, "")
	require.Contains(t, line(one(t, file, "Drive to the hospital"), "DESCRIPTION"), "From where Dana lives\\, leave by 04:05.")
}
