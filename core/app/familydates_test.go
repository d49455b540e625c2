package app

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestOneDateFallsOutMovesOrIsAdded(t *testing.T) {
	p := withTherapy(t)
	p.send("/duty/1/date", "act", "skip", "day", "2026-12-16")
	require.Contains(t, p.text(), "17 rides")
	require.Contains(t, p.text(), "not on Wednesday, December 16")
	p.send("/duty/1/date", "act", "move", "day", "2026-12-18", "to", "2026-12-18", "at", "14:00")
	require.Contains(t, p.text(), "the one on Friday, December 18 is at 14:00 instead")
	p.send("/duty/1/date", "act", "add", "to", "2026-12-19", "at", "09:00")
	require.Contains(t, p.text(), "also on Saturday, December 19 at 09:00")
	require.Contains(t, p.part("dates"), "Not on Wed, Dec 16")
	require.Contains(t, p.part("dates"), "All 18 dates to come")
	require.EqualValues(t, 3, p.plan().Duties[0].Revision)

	p.send("/duty/1/date", "act", "move", "day", "2026-12-21", "to", "", "at", "")
	require.Contains(t, p.part("problem-date"), "Choose another day or another time")
	p.send("/duty/1/date", "act", "add", "to", "", "at", "14:00")
	require.Contains(t, p.part("problem-date"), "Choose the day")
	p.send("/duty/1/date", "act", "add", "to", "2026-12-22", "at", "noon")
	require.Contains(t, p.part("problem-date"), "Put in the time")
	require.EqualValues(t, 3, p.plan().Duties[0].Revision)

	p.send("/duty/1/date", "act", "move", "day", "2026-12-21", "to", "", "at", "15:00") // the day stays
	require.Contains(t, p.text(), "the one on Monday, December 21 is at 15:00 instead")
	p.send("/duty/1/date", "act", "undo", "day", "2026-12-21", "at", "")
	p.send("/duty/1/date", "act", "undo", "day", "2026-12-16", "at", "")
	p.send("/duty/1/date", "act", "undo", "day", "2026-12-18", "at", "")
	p.send("/duty/1/date", "act", "undo", "day", "2026-12-19", "at", "09:00")
	require.Contains(t, p.text(), "Ride to therapy "+sixWeeks)
	require.Empty(t, p.plan().Duties[0].Rule.Skipped)
}

// When the surgery moves, what was agreed with a clinic does not move along, and
// the page says so.
func TestRidesStayWhenTheSurgeryMoves(t *testing.T) {
	p := withTherapy(t)
	rule := p.plan().Duties[0].Rule
	p.send("/facts", facts("surgery", "2026-12-10")...)
	require.Equal(t, rule, p.plan().Duties[0].Rule)
	require.Contains(t, p.part("notice-moved"), "Rides and help did not move along")
	require.EqualValues(t, 1, p.plan().Revision)
	require.Equal(t, []string{"Dana"}, p.plan().Helpers)
}

// RFC 5546 2.1.4: the sequence of an entry rises when its times change, and need not
// for anything else.
func TestRevisionsRiseWithTimesOnly(t *testing.T) {
	p := withTherapy(t)
	p.send("/duty/1/change", therapy("note", "the sheet", "who", "Luis", "place", "elsewhere")...)
	require.EqualValues(t, 0, p.plan().Duties[0].Revision)
	p.send("/duty/1/change", therapy("drive", "30")...)
	require.EqualValues(t, 1, p.plan().Duties[0].Revision)
	p.send("/facts", facts("phone", "555-0199")...)
	require.EqualValues(t, 0, p.plan().Revision)
	p.send("/tick", "code", "11", "n", "0", "done", "1")
	require.EqualValues(t, 0, p.plan().Revision)
	p.send("/facts", facts("arrival", "06:00")...)
	require.EqualValues(t, 1, p.plan().Revision)
}

func TestLongDrivesAreCautioned(t *testing.T) {
	p := started(t)
	p.send("/duty/new/therapy", therapy("drive", "61")...)
	require.Contains(t, p.text(), "More than an hour in the car")
	p.send("/duty/1/change", therapy("drive", "60")...)
	require.NotContains(t, p.text(), "in the car: ")
	p.send("/duty/1/change", therapy("drive", "241")...) // CDC, Blood Clots and Travel: more than four hours
	require.Contains(t, p.text(), "More than four hours in the car")
}

func TestADutyInAHourThatTheClocksSkip(t *testing.T) {
	p := started(t)
	p.send("/duty/new/other", "first", "2027-03-14", "at", "02:30", "length", "20", "often", "once", "every", "1", "month", "day", "ends", "weeks", "title", "Ice")
	require.Contains(t, p.text(), "the clocks jump over 02:30. It is read as 03:30")
}

// Therapy that is dated before the patient is home again is asked about for as long as
// it stands there; meals and visits may well be.
func TestTherapyBeforeTheSurgeryIsAskedAbout(t *testing.T) {
	p := withTherapy(t)
	p.send("/")
	require.NotContains(t, p.text(), "before the patient is home")
	p.send("/facts", facts("surgery", "2026-12-10")...)
	p.send("/read")
	require.Contains(t, p.part("family"), "before the patient is home")
	require.Contains(t, p.part("next"), "before the patient is home", "it is what is next")
	p.send("/duty/1")
	require.Contains(t, p.text(), "before the patient is home")
}

func TestADateThatWouldBeTheLastToGo(t *testing.T) {
	p := started(t)
	p.send("/duty/new/therapy", therapy("ends", "times", "times", "1")...)
	p.send("/duty/1/date", "act", "skip", "day", "2026-12-09")
	require.Contains(t, p.part("problem-date"), "Take it out of the plan instead")
}

func TestDatesThatHavePassedAreAskedAbout(t *testing.T) {
	p := started(t)
	p.send("/duty/new/therapy", therapy("first", "2020-12-09")...)
	require.Contains(t, p.part("problems"), "All its dates have passed. Is the first day, Wednesday, December 9, 2020, right?")
	p.send("/duty/new/therapy", therapy("first", "2020-12-09", "confirm", "2020-12-09")...)
	require.Equal(t, "/duty/1", p.path)
}

// A ride goes on leading the page until its appointment is over; who does not wait is
// told when to leave again.
func TestTheRideThatIsUnderWay(t *testing.T) {
	p := started(t)
	p.send("/duty/new/therapy", therapy("length", "180", "leaves", "back", "own", "10")...)
	for now, want := range map[string]string{
		"2026-12-09T09:00:00-06:00": "Leave home by 09:25 Ride to therapy",
		"2026-12-09T09:30:00-06:00": "You should be on your way Leave home by 09:25",
		"2026-12-09T11:00:00-06:00": "Leave again by 12:45 Ride to therapy",
		"2026-12-09T12:50:00-06:00": "You should be on your way Leave again by 12:45",
	} {
		p.at(now).send("/")
		require.Contains(t, p.part("next"), want, now)
	}
	p.send("/duty/1/change", therapy("length", "60", "leaves", "wait", "own", "10")...)
	p.at("2026-12-09T10:25:00-06:00").send("/")
	require.Contains(t, p.part("next"), "You should be there by now. Appointment 10:30–11:30 Ride to therapy")
	p.at("2026-12-09T10:45:00-06:00").send("/")
	require.NotContains(t, p.part("next"), "You should be there")
	p.at("2026-12-09T14:00:00-06:00").send("/")
	require.NotContains(t, p.part("next"), "12:45 Ride to therapy")
}

// A night that began yesterday belongs to today while it lasts.
func TestANightIsTodaysWhileItLasts(t *testing.T) {
	p := started(t)
	p.send("/duty/new/night", "first", "2026-12-05", "at", "21:00", "length", "600", "often", "once", "every", "1", "month", "day", "ends", "weeks", "who", "Dana")
	p.at("2026-12-06T01:30:00-06:00").send("/")
	require.Contains(t, p.part("day-2026-12-06"), "Stay overnight")
	require.Contains(t, p.part("next"), "Stay overnight")
}

// Revisions never fall, and a plan that was joined is above both: calendars would take the
// newer times for old ones (RFC 5546 2.1.4).
func TestRevisionsDoNotFall(t *testing.T) {
	p := withTherapy(t)
	first := p.fragment
	for _, at := range []string{"11:00", "11:30", "12:00"} {
		p.send("/duty/1/change", therapy("at", at)...)
	}
	require.EqualValues(t, 3, p.plan().Duties[0].Revision)
	other := newPhone(t)
	other.open(first)
	other.send("/duty/1/change", therapy("at", "15:00")...)
	p.open(other.fragment)
	require.EqualValues(t, 4, p.plan().Duties[0].Revision)
	for _, at := range []string{"12:00", "15:00"} {
		if p.plan().Duties[0].Rule.At.String() != at {
			p.answer(at)
			require.Equal(t, at, p.plan().Duties[0].Rule.At.String())
			require.EqualValues(t, 5, p.plan().Duties[0].Revision, "the answer is a change of times")
			break
		}
	}
}
