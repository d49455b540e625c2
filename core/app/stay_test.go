package app

import (
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/link"
	"newel/core/plan"
)

// Home on Friday, December 4, at 10:40 to 11:00: the parts of the day after are slots 3 to 5.
var fridayNight = plan.SlotOf(1, plan.Night).Name()

// Each part of staying with the patient is a row of its own, with who has it and the way to
// say so.
func TestAPartOfTheStayIsGivenToSomebody(t *testing.T) {
	p := started(t)
	require.Contains(t, p.part("day-2026-12-04"), "Starts about 20:00 Stay with Rosa overnight Lasts until Sat, Dec 5, 08:00 Nobody has this yet")
	p.send("/who/" + fridayNight)
	require.Contains(t, p.text(), "Stay with Rosa overnight Friday, December 4, 20:00, until Sat, Dec 5, 08:00")
	require.Contains(t, p.text(), "This is one part of it.")
	p.send("/who/"+fridayNight, "who", "Luis")
	require.Equal(t, []plan.Shift{{Slot: 5, Who: 1}}, p.plan().Shifts)
	require.Contains(t, p.part("duty-stay-with-slot-5"), "Luis")
	require.Contains(t, p.part("duty-stay-with-slot-4"), "Nobody has this yet")
	require.Equal(t, "/", p.path)

	p.send("/who/stay-with")
	require.Contains(t, p.text(), "Stay with Rosa at home Friday, December 4, 10:40, until Mon, Dec 7, 11:00")
	require.Contains(t, p.text(), "Some parts were given to somebody by themselves")
	p.send("/who/stay-with", "who", "Dana")
	require.Contains(t, p.part("duty-stay-with-slot-4"), "Dana")
	require.Contains(t, p.part("duty-stay-with-slot-5"), "Luis", "who took one part keeps it")
	p.send("/who/"+fridayNight, "who", "")
	require.Contains(t, p.part("duty-stay-with-slot-5"), "Nobody has this yet")
	for _, path := range []string{"/who/stay-with.0", "/who/stay-with.99", "/who/stay-with.x"} {
		p.send(path)
		require.Equal(t, "/", p.path, "no such part")
	}
}

// The calendar of one part’s page is that of the whole stay.
func TestTheStaysCalendar(t *testing.T) {
	p := started(t)
	require.Contains(t, p.send("/who/"+fridayNight).HTML, `data-path="/calendar/who/stay-with"`)
	p.send("/calendar/who/stay-with")
	require.Contains(t, p.text(), "Stay with Rosa at home")
}

// Two people took one night: both see both names, and one answer settles it on both phones.
func TestTwoPeopleTookOneNight(t *testing.T) {
	dana, luis := danaAndLuis(t)
	dana.send("/who/"+fridayNight, "who", "Dana")
	luis.send("/who/"+fridayNight, "who", "Luis")
	dana.open(luis.fragment)
	require.Contains(t, dana.question(), "Stay with")
	require.Contains(t, dana.question(), "Fri, Dec 4, overnight")
	require.Contains(t, dana.part("duty-stay-with-slot-5"), "not settled yet")
	dana.answer("Luis")
	require.Empty(t, dana.question())
	require.Contains(t, dana.part("duty-stay-with-slot-5"), "Luis")
	luis.open(dana.fragment)
	require.Equal(t, dana.plan().Shifts, luis.plan().Shifts)
}

// What was told of helpers, of parts and of need is news with names.
func TestNewsOfHelpersAndParts(t *testing.T) {
	dana, luis := danaAndLuis(t)
	next := luis.plan()
	who := uint8(0)
	next, who = next.WithHelper("Luis")
	next = next.WithAbout(who, plan.About{Told: true, Can: plan.CanDrive, Away: 30}).WithShift(5, who)
	dana1 := uint8(1)
	next = next.WithAbout(dana1, plan.About{Out: true})
	d := next.Duties[0]
	d.Need, d.Steady = plan.NiceToHave, true
	next = next.WithDuty(d)
	sent := luis.doc().Change(70_001, next)
	sent = sent.WithHand(70_001, "Luis")
	dana.open(link.Encode(sent))
	for _, want := range []string{
		"Luis said what they can do, and when",
		"Stay with Rosa at home: Luis has Fri, Dec 4, overnight now (changed by Luis)",
		"Dana cannot help any more (changed by Luis)",
		"it is nice to have (changed by Luis)",
		"it needs someone who can steady or lift (changed by Luis)",
	} {
		require.Contains(t, dana.news(), want)
	}
}

// Calendars hear of times that move (RFC 5546 2.1.4): a helper's way, whose a date is, and a
// night that takes the place of a part.
func TestWhatMovesTimesIsCounted(t *testing.T) {
	p := withTherapy(t)
	before := p.plan()
	next := p.plan()
	next, ann := next.WithHelper("Ann")
	next = next.WithAbout(ann, plan.About{Told: true, Away: 35})
	p.open(link.Encode(p.doc().Change(0, next)))
	require.Equal(t, before.Duties[0].Revision, p.plan().Duties[0].Revision)
	p.send("/duty/1/date", "act", "give", "day", "2026-12-16", "who", "Ann")
	require.Equal(t, before.Duties[0].Revision+1, p.plan().Duties[0].Revision, "Ann leaves earlier")
	require.Equal(t, before.Revision, p.plan().Revision)
	p.send("/duty/new/night", "first", "2026-12-04", "at", "20:00", "length", "720", "ends-at", "08:00", "often", "once", "title", "The night")
	require.Len(t, p.plan().Duties, 2, p.text())
	require.Equal(t, before.Revision+1, p.plan().Revision, "the part is taken out")
}
