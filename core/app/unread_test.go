package app

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/link"
	"newel/core/merge"
	"newel/core/plan"
)

// What the others changed is listed in plain words, with names, until it was read.
func TestNewsWithNames(t *testing.T) {
	dana, luis := danaAndLuis(t)
	luis.send("/who/drive-there", "who", "Luis")
	luis.send("/duty/1/change", therapy("who", "Luis", "at", "11:00", "note", "the blue sheet")...)
	luis.send("/facts", facts("phone", "555-0142", "fact.stairs", "1", "home-none", "", "patient", "Mom", "arrival", "05:45")...)
	for _, step := range []string{"1", "3", "4", "5", "6", "7", "11"} {
		luis.send("/tick", "code", step, "n", "0", "done", "1")
	}
	luis.send("/duty/new/pets", "first", "2026-12-04", "at", "07:30", "length", "20", "often", "once", "title", "Feed the cat")
	luis.send("/")
	require.Contains(t, luis.news(), "Drive to the hospital, Thu, Dec 3: from 04:15 to 04:30", "what moved is to be gone through by whoever moved it")
	require.NotContains(t, luis.news(), "changed by")
	require.NotContains(t, luis.news(), "Ride to therapy")
	dana.open(luis.fragment)
	for _, want := range []string{
		"Drive to the hospital: Luis has it now (changed by Luis)",
		"Ride to therapy is now: Mondays, Wednesdays and Fridays at 11:00",
		"Ride to therapy (Mondays, Wednesdays and Fridays at 11:00): Luis has it now (changed by Luis)",
		"what it is called, where it is or what to bring is different (changed by Luis)",
		"Phone number for questions: now 555-0142 (changed by Luis)",
		"What do you call the patient: now Mom (changed by Luis)",
		"Arrival time at the hospital: now 05:45 (changed by Luis)",
		"Stairs at home: now yes (changed by Luis)",
		"Luis ticked: ", " more",
		"New: Feed the cat: Friday, December 4 at 07:30 (added by Luis)",
	} {
		require.Contains(t, dana.news(), want)
	}
	require.Equal(t, 1, strings.Count(dana.news(), "Luis ticked"))
	unread := dana.news()
	dana.send("/")
	require.Equal(t, unread, dana.news(), "until it was read")
	dana.open(luis.fragment)
	require.Equal(t, unread, dana.news(), "the same link says nothing more")
	dana.send("/read")
	require.Empty(t, dana.news())
	dana.open(luis.fragment)
	require.Empty(t, dana.news())
}

// What a person does themselves is no news to them, also while something else is unread.
func TestOwnChangesAreNoNews(t *testing.T) {
	dana, luis := danaAndLuis(t)
	luis.send("/who/drive-there", "who", "Luis")
	dana.open(luis.fragment)
	unread := dana.news()
	require.Contains(t, unread, "1 thing has changed")
	dana.send("/duty/1/date", "act", "skip", "day", "2026-12-16")
	dana.send("/duty/new/pets", "first", "2026-12-04", "at", "07:30", "length", "20", "often", "once", "title", "Feed the cat")
	dana.send("/tick", "code", "11", "n", "0", "done", "1")
	dana.send("/who/wait", "who", "Dana")
	dana.send("/facts", facts("phone", "555-0142")...)
	dana.send("/")
	require.Equal(t, unread, dana.news())
	dana.send("/tick", "code", "11", "n", "0")
	dana.send("/duty/2/drop")
	dana.send("/")
	require.Equal(t, unread, dana.news())
	luis.send("/duty/1/change", therapy("note", "the blue sheet")...)
	dana.open(luis.fragment)
	require.Contains(t, dana.news(), "2 things have changed")
	dana.send("/read")
	require.Empty(t, dana.news())
	luis.open(dana.fragment)
	require.Contains(t, luis.news(), "Wait at the hospital: Dana has it now (changed by Dana)")
	require.NotContains(t, luis.news(), "ticked", "it was unticked again")
}

// Nothing is said of a change that was taken back before anybody looked.
func TestWhatWasTakenBackIsNoNews(t *testing.T) {
	dana, luis := danaAndLuis(t)
	luis.send("/tick", "code", "11", "n", "0", "done", "1")
	luis.send("/tick", "code", "11", "n", "0")
	luis.send("/who/drive-there", "who", "Luis")
	luis.send("/who/drive-there", "who", "")
	dana.open(luis.fragment)
	require.Empty(t, dana.news())
}

// Who gave which days to whom.
func TestNewsOfSharedDays(t *testing.T) {
	dana, luis := danaAndLuis(t)
	luis.send("/duty/1/days", "on-1", "Luis", "on-3", "", "on-5", "Luis")
	require.EqualValues(t, [7]uint8{1: 2, 5: 2}, luis.plan().Duties[0].On)
	luis.send("/duty/1/date", "act", "give", "day", "2026-12-16", "who", "Ann")
	dana.open(luis.fragment)
	require.Contains(t, dana.news(), "Luis has Mondays and Fridays now (changed by Luis)")
	require.Contains(t, dana.news(), "Ann has Wed, Dec 16 now (changed by Luis)")
}

// A name is said only where the plan knows it; of what was taken away without a trace only
// where one person alone can have done it.
func TestNewsWithoutNames(t *testing.T) {
	nurse := withTherapy(t)
	p := nurse.opened()
	p.send("/facts", facts("phone", "555-0142")...)
	q := nurse.opened()
	q.open(p.fragment)
	require.Contains(t, q.news(), "Phone number for questions: now 555-0142")
	require.NotContains(t, q.news(), "changed by")
	q.send("/read")
	nurse.send("/facts", facts("patient", "Mom")...)
	q.open(nurse.fragment)
	require.Contains(t, q.news(), "now Mom (changed by whoever made the plan)")

	dana, luis := danaAndLuis(t)
	luis.send("/facts", facts("drive", "")...)
	dana.open(luis.fragment)
	require.Contains(t, dana.news(), "Drive from home to the hospital, in minutes: now not known yet (changed by Luis)")
}

// One moves a date while the other changes the days of the duty: the date stands beside
// them, and the page asks to look at it.
func TestAMovedDateWithoutItsPattern(t *testing.T) {
	dana, luis := danaAndLuis(t)
	dana.send("/duty/1/date", "act", "move", "day", "2026-12-16", "to", "2026-12-17", "at", "14:00")
	luis.send("/duty/1/change", therapy("day-3", "")...)
	dana.open(luis.fragment)
	require.Contains(t, dana.news(), "Ride to therapy: the date on Wed, Dec 16 was moved to Thu, Dec 17 at 14:00, and meanwhile the days were changed.")
	dana.send("/read")
	require.Empty(t, dana.news())
}

// Surgery that was moved by somebody else is said first, with the name, and not again for
// the times that follow from it.
func TestMovedBySomebody(t *testing.T) {
	dana, luis := danaAndLuis(t)
	luis.send("/facts", facts("surgery", "2026-12-10")...)
	dana.open(luis.fragment)
	require.Contains(t, dana.news(), "Rides and help did not move along")
	require.Contains(t, dana.news(), "Surgery moved from Thursday, December 3 to Thursday, December 10 (changed by Luis).")
	require.Contains(t, dana.news(), "Wash 1 of 5: shower with the surgical soap: from Sun, Nov 29 to Sun, Dec 6")
	require.Equal(t, 1, strings.Count(dana.news(), "changed by"))
}

// A surgery that moved with its arrival time left as it was: that time was said for the old
// day, and only the hospital knows whether it holds.
func TestArrivalThatDidNotMove(t *testing.T) {
	const warning = "The arrival time is still 05:30. It was for Thursday, December 3: ask the hospital whether it holds."
	dana, luis := danaAndLuis(t)
	luis.send("/facts", facts("surgery", "2026-12-08")...)
	require.Contains(t, luis.news(), warning, "also where it was changed")
	dana.open(luis.fragment)
	require.Contains(t, dana.news(), "Surgery moved from Thursday, December 3 to Tuesday, December 8 (changed by Luis). "+warning)
	for _, arrival := range []string{"06:00", ""} { // another one, or not known any more
		dana, luis := danaAndLuis(t)
		luis.send("/facts", facts("surgery", "2026-12-08", "arrival", arrival)...)
		dana.open(luis.fragment)
		require.Contains(t, dana.news(), "Surgery moved from")
		require.NotContains(t, dana.news(), "ask the hospital whether")
	}
}

// When to be there, to leave, and to stop eating and drinking stand before all else that
// changed, and never behind the fold (ASA 2023: what is eaten too late ends the day).
func TestPressingTimesAreNeverFolded(t *testing.T) {
	dana, luis := danaAndLuis(t)
	luis.send("/who/drive-there", "who", "Luis")
	luis.send("/facts", facts("surgery", "2026-12-08", "arrival", "11:30", "phone", "555-0142", "fact.stairs", "1", "home-none", "", "patient", "Mom", "drive", "50", "stay", "same-day")...)
	dana.open(luis.fragment)
	before, folded, _ := strings.Cut(dana.part("notice-moved"), "All of it")
	at := 0
	for _, want := range []string{
		"Arrival time at the hospital: now 11:30", "Drive to the hospital: from Thu, Dec 3, 04:15",
		"Stop eating", "Stop drinking", "(changed by Luis)",
	} {
		next := strings.Index(before[at:], want)
		require.GreaterOrEqual(t, next, 0, "%s in %s", want, before)
		at += next
	}
	require.NotContains(t, folded, "Stop eating")
	require.NotContains(t, folded, "Stop drinking")
	require.NotEmpty(t, folded)
}

// What came in another tab after a screen was made has not been read there: its button shows it first.
func TestReadOnAnOlderScreen(t *testing.T) {
	dana, luis := danaAndLuis(t)
	luis.send("/facts", facts("arrival", "05:45")...)
	dana.open(luis.fragment)
	older := dana.fragment
	luis.send("/facts", facts("arrival", "05:45", "phone", "555-0142")...)
	dana.open(luis.fragment)
	dana.fragment = older
	dana.send("/read")
	require.Contains(t, dana.news(), "Phone number for questions: now 555-0142")
	require.Equal(t, "notice-moved", dana.last.Focus)
	dana.send("/read")
	require.Empty(t, dana.news())
}

// The numbers to call and the rules of eating and drinking stand open, however much else is new.
func TestWhomToCallIsNeverFolded(t *testing.T) {
	dana, luis := danaAndLuis(t)
	luis.send("/facts", facts("operation", "revision", "joint", "hip", "stay", "same-day", "drive", "55", "parking", "25", "patient", "Mom", "phone", "555-0142", "after-phone", "555-0143",
		"emergency", "112", "rule.fever", "101", "rule.liquids-before", "240", "rule.food-stop", "22:00")...)
	dana.open(luis.fragment)
	open, _, folded := strings.Cut(dana.news(), "All of it")
	require.True(t, folded)
	for _, want := range []string{"now 555-0142", "now 555-0143", "now 112", "now 101", "now 240 minutes", "now 22:00"} {
		require.Contains(t, open, want)
	}
}

// What kind of help a duty is, no form changes; a link that does is told of, since who could do the one may not be
// able to do the other.
func TestAnotherKindIsTold(t *testing.T) {
	p := withTherapy(t).opened()
	d := p.doc()
	k := merge.Key{Field: merge.Kind, Of: p.plan().Duties[0].ID}
	by := merge.Stamp{Actor: merge.FirstActor + 7, N: 1}
	d.Set(k, []merge.Version{{Stamp: by, Value: "1"}})
	d.SetSeen(by)
	q := newPhone(t)
	q.open(p.fragment)
	q.open(link.Encode(d))
	require.Equal(t, plan.VisitRide, q.plan().Duties[0].Kind)
	require.Contains(t, q.news(), "what kind of help it is has changed; now: ")
}
