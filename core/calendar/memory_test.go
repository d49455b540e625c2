package calendar

import (
	"strings"
	"testing"

	ical "github.com/emersion/go-ical"
	"github.com/stretchr/testify/require"

	"newel/core/guide"
	"newel/core/plan"
	"newel/core/wall"
)

func sequenceOf(t *testing.T, file, summary string) string {
	return line(one(t, file, summary), "SEQUENCE")
}

// Source: RFC 5546 2.1.4: SEQUENCE rises with DTSTART, DTEND, RRULE, EXDATE, RDATE and
// STATUS; other changes may leave it.
func TestSequenceRisesWithTheTimesOnly(t *testing.T) {
	p := family(t)
	file, memory := write(t, p, everything(), "")
	require.Equal(t, "1", line(events(t, file, "therapy")[0], "SEQUENCE")) // the duty's own
	require.Equal(t, "2", sequenceOf(t, file, "Drive to the hospital"))

	words := family(t)
	words.Duties[0].Note, words.Helpers[0], words.Duties[1].Title = "other shoes", "Dana B.", "Cat, mornings"
	file, after := write(t, words, everything(), memory)
	require.Equal(t, "1", line(events(t, file, "therapy")[0], "SEQUENCE"))
	require.Equal(t, "0", sequenceOf(t, file, "Cat"))
	require.Equal(t, memory, after)

	for name, change := range map[string]func(*plan.Plan){
		"the time":  func(p *plan.Plan) { p.Duties[0].Rule.At = 11 * 60 },
		"the end":   func(p *plan.Plan) { p.Duties[0].Length = 60 },
		"a rule":    func(p *plan.Plan) { p.Duties[0].Rule.Count = 17 },
		"a skip":    func(p *plan.Plan) { p.Duties[0].Rule.Skipped = nil },
		"an extra":  func(p *plan.Plan) { p.Duties[0].Rule.Extra = nil },
		"a move":    func(p *plan.Plan) { p.Duties[0].Rule.Moved[0].To.At++ },
		"the drive": func(p *plan.Plan) { p.Duties[0].Ride.Drive = 30 },
		"the zone":  func(p *plan.Plan) { p.Zone = "America/Chicago" },
	} {
		changed := family(t)
		change(&changed)
		file, after := write(t, changed, everything(), memory)
		require.Equal(t, "2", line(events(t, file, "therapy")[0], "SEQUENCE"), name) // though the plan did not count it
		again, _ := write(t, changed, everything(), after)
		require.Equal(t, file, again, name)
		changed.Duties[0].Revision = 7 // the plan's own number wins where it is higher
		file, _ = write(t, changed, everything(), after)
		require.Equal(t, "7", line(events(t, file, "therapy")[0], "SEQUENCE"), name)
	}
}

// Nobody knows which of the files somebody took in, so a cancellation is in every
// later one, with the number that it got at first.
func TestWhatIsNoLongerInThePlanIsCancelled(t *testing.T) {
	file, memory := write(t, family(t), Choice{Who: 1, Alarm: 30}, "")
	ride := events(t, file, "therapy")[0]
	without := family(t, func(p *plan.Plan) { p.Duties = p.Duties[1:] }) // a copy that never had it
	file, memory = write(t, without, Choice{Who: 1, Alarm: 30}, memory)
	both := events(t, file, "Taken out of the plan")
	require.Len(t, both, 2)
	gone, date := both[0], both[1]
	require.Equal(t, line(ride, "UID"), line(gone, "UID"))
	require.Equal(t, line(ride, "UID"), line(date, "UID"))
	require.NotEmpty(t, line(date, "RECURRENCE-ID"), "the moved date, for calendars that take each date by itself")
	require.Equal(t, "CANCELLED", line(date, "STATUS"))
	require.Equal(t, "CANCELLED", line(gone, "STATUS"))
	require.Equal(t, "2", line(gone, "SEQUENCE"))
	require.Equal(t, "20270315T133000Z", line(gone, "DTSTART"))
	require.Empty(t, gone.Children)

	file, memory = write(t, without, Choice{Who: 1, Alarm: 30}, memory)
	require.Equal(t, "2", line(events(t, file, "Taken out of the plan")[0], "SEQUENCE"))
	file, _ = write(t, family(t), Choice{Who: 1, Alarm: 30}, memory) // and back again
	require.Equal(t, "3", line(events(t, file, "therapy")[0], "SEQUENCE"))
	require.Equal(t, "CONFIRMED", line(events(t, file, "therapy")[0], "STATUS"))
}

// What somebody else has now stays in a calendar that both may look at: it says so, takes
// no time and does not remind. It is not cancelled, since the plan has it still.
func TestWhatSomebodyElseHasNowIsNotCancelled(t *testing.T) {
	file, memory := write(t, family(t), Choice{Who: 1, Alarm: 30}, "")
	ride := events(t, file, "therapy")[0]
	given := family(t, func(p *plan.Plan) { p.Duties[0].Who = 2 })
	file, memory = write(t, given, Choice{Who: 1, Alarm: 30}, memory)
	now := events(t, file, "Not yours now: Lee: ")[0]
	require.Equal(t, line(ride, "UID"), line(now, "UID"))
	require.Equal(t, line(ride, "SEQUENCE"), line(now, "SEQUENCE"), "its times are as they were")
	require.Equal(t, []string{"CONFIRMED", "TRANSPARENT"}, []string{line(now, "STATUS"), line(now, "TRANSP")})
	require.Empty(t, now.Children)
	found, err := Read(file, &given, load(t, given.Zone))
	require.NoError(t, err)
	for _, d := range found.Duties {
		if d.ID == 1 {
			require.Equal(t, given.Duties[0], d, "taken in again it changes nothing")
		}
	}
	file, _ = write(t, family(t), Choice{Who: 1, Alarm: 30}, memory) // and back again
	require.NotContains(t, file, "Not yours now")
}

// A file without the steps leaves those of an earlier one alone: "cancelled" beside a
// time to stop eating could be believed.
func TestStepsThatWereNotAskedForAgainAreNotCancelled(t *testing.T) {
	_, memory := write(t, family(t), everything(), "")
	file, after := write(t, family(t), Choice{All: true, Alarm: 30}, memory)
	require.Empty(t, events(t, file, "Taken out of the plan"))
	require.NotContains(t, file, "Stop eating")
	again, _ := write(t, family(t), everything(), after)
	first, _ := write(t, family(t), everything(), "")
	require.Equal(t, first, again)
}

// An entry has one SEQUENCE, whichever of a device's files it comes in.
func TestFilesOfOneDeviceShareTheirNumbers(t *testing.T) {
	_, mine := write(t, family(t), Choice{Who: 1, Alarm: 30}, "")
	moved := family(t, func(p *plan.Plan) { p.Duties[0].Rule.At += 30 }) // the plan did not count it
	file, mine := write(t, moved, Choice{Who: 1, Alarm: 30}, mine)
	want := line(events(t, file, "therapy")[0], "SEQUENCE")
	require.Equal(t, "2", want)
	s := build(t, moved)
	file, _ = Write(Input{Schedule: s, Voice: guide.Voice{Book: guide.Open("en")}, Now: now, Choice: everything(), Others: []string{mine}})
	require.Equal(t, want, line(events(t, file, "therapy")[0], "SEQUENCE"))
}

func TestAnAllDayEventIsCancelledAsOne(t *testing.T) {
	_, memory := write(t, family(t), everything(), "")
	file, _ := write(t, family(t, func(p *plan.Plan) { p.Facts = plan.SoapGiven | plan.HomeAnswered; p.Program.Set(plan.WashDays, 1) }), everything(), memory)
	gone := events(t, file, "Taken out of the plan")
	require.NotEmpty(t, gone)
	dates := 0
	for _, c := range gone {
		if strings.HasPrefix(line(c, "DTSTART"), "DATE:") {
			dates++
		}
	}
	require.Greater(t, dates, 2)
}

func TestADutyThatWasTakenOutIsAlwaysCancelled(t *testing.T) {
	file, _ := write(t, family(t), Choice{Who: 1, Alarm: 30}, "")
	gone := one(t, file, "Another ride")
	require.Equal(t, "CANCELLED", line(gone, "STATUS"))
	require.Equal(t, "2", line(gone, "SEQUENCE"))
	require.Equal(t, "FREQ=WEEKLY;BYDAY=SA;COUNT=3", line(gone, "RRULE"))
	require.Empty(t, gone.Children)
	p := family(t)
	p.Duties[3].Dropped = false
	found, err := Read(file, &p, load(t, p.Zone))
	require.NoError(t, err)
	dropped := 0
	for _, d := range found.Duties {
		if d.ID == 4 {
			require.True(t, d.Dropped)
			dropped++
		}
	}
	require.Equal(t, 1, dropped)
}

func TestADamagedMemoryIsPassedOver(t *testing.T) {
	_, memory := write(t, family(t), everything(), "")
	good := strings.Split(strings.TrimSpace(memory), "\n")
	for _, bad := range []string{
		"x", "a b c d", good[0] + " - -", strings.Replace(good[0], " 2 ", " -2 ", 1), strings.Replace(good[0], " 2 ", " 99999999999 ", 1),
		good[0][:36] + " 2 1234567890123456 20270230", good[0][:36] + " 2 12345678901234567 20270309", strings.Repeat("y ", 3000),
	} {
		require.Empty(t, readMemory(bad+"\n"), bad)
		file, _ := write(t, family(t), everything(), bad)
		plain, _ := write(t, family(t), everything(), "")
		require.Equal(t, plain, file)
	}
	require.Len(t, readMemory(strings.Repeat(memory, 3)), len(good))
}

func TestTheMemoryIsBounded(t *testing.T) {
	p := family(t)
	memory := ""
	for n := range 40 { // the plan's number changes all UIDs, as if everything were new each time
		p.Number = uint32(n + 1000)
		_, memory = write(t, p, everything(), memory)
		require.LessOrEqual(t, strings.Count(memory, "\n"), mostKept)
	}
	require.Less(t, len(memory), 40<<10)
}

func TestAFarFutureDateStillHasAZone(t *testing.T) {
	p := family(t, func(p *plan.Plan) { p.Surgery = wall.Date(47000) })
	file, _ := write(t, p, everything(), "")
	require.Contains(t, file, "BEGIN:VTIMEZONE")
}

// A date that was moved and moved back is written once more at its own time; one whose
// series is at another time now is cancelled by itself (RFC 5546 2.1.5: UID and
// RECURRENCE-ID tell events apart).
func TestADateThatWasMovedIsNotForgotten(t *testing.T) {
	file, memory := write(t, family(t), everything(), "")
	moved := events(t, file, "therapy")[1]
	id := line(moved, "RECURRENCE-ID")
	require.NotEmpty(t, id)

	back := family(t, func(p *plan.Plan) { p.Duties[0].Rule.Moved = nil })
	file, after := write(t, back, everything(), memory)
	again := withID(events(t, file, "therapy"), id)
	require.Equal(t, line(again, "DTSTART"), id, "at its own time")
	require.Equal(t, "CONFIRMED", line(again, "STATUS"))
	third, _ := write(t, back, everything(), after)
	require.Equal(t, file, third)
	found, err := Read(file, &back, load(t, back.Zone))
	require.NoError(t, err)
	require.Equal(t, back.Duties[0], found.Duties[0])

	later := family(t, func(p *plan.Plan) { p.Duties[0].Rule.Moved, p.Duties[0].Rule.At = nil, p.Duties[0].Rule.At+30 })
	file, _ = write(t, later, everything(), memory)
	gone := withID(events(t, file, "therapy"), id)
	require.Equal(t, "CANCELLED", line(gone, "STATUS"))
	require.Empty(t, gone.Children)
	found, err = Read(file, &later, load(t, later.Zone))
	require.NoError(t, err)
	require.Equal(t, later.Duties[0], found.Duties[0])
}

func withID(list []*ical.Component, id string) *ical.Component {
	for _, c := range list {
		if line(c, "RECURRENCE-ID") == id {
			return c
		}
	}
	return nil
}
