package app

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
)

// Dana drives, Luis has the Wednesdays, and on the 16th it is Ann. 9 December 2026 is a
// Wednesday (from a printed calendar).
func TestAFamilySharesASeries(t *testing.T) {
	p := withTherapy(t)
	require.Contains(t, p.text(), "Dana has this")
	p.send("/duty/1/days", "act", "days", "on-1", "", "on-3", "Luis", "on-5", "dana")
	require.Equal(t, "/duty/1", p.path)
	d := p.plan().Duties[0]
	require.Equal(t, [7]uint8{time.Wednesday: 2, time.Friday: 1}, d.On, "Fridays stay Dana's, whoever gets the others")
	require.Contains(t, p.text(), "Shared: Dana (Mon, Fri), Luis (Wed)")
	require.Equal(t, "Luis", p.values()["on-3"])
	p.send("/duty/1/date", "act", "give", "day", "2026-12-16", "who", "Ann")
	require.Contains(t, p.text(), "Shared: Dana, Luis, Ann", "Wednesdays say no longer whose it is")
	require.Equal(t, []plan.Take{{Day: p.date("2026-12-16"), Who: 3}}, p.plan().Duties[0].Takes)
	for _, want := range []string{"Wed, Dec 9, 10:30 Luis", "Fri, Dec 11, 10:30 Dana", "Wed, Dec 16, 10:30 Ann", "Mon, Jan 18, 2027, 10:30 Dana"} {
		require.Contains(t, p.part("all-dates"), want)
	}
	require.Zero(t, p.plan().Duties[0].Revision, "no time changed")

	p.send("/")
	require.Contains(t, p.part("family"), "Ride to therapy Dana, Luis, Ann Mondays, Wednesdays and Fridays at 10:30 Next: Wednesday, December 9, 10:30: Luis")
	require.Contains(t, p.part("duty-f1-2026-12-11"), "Dana")
	require.Contains(t, p.part("duty-f1-2026-12-16"), "Ann")
	p.at("2026-12-16T08:00:00-06:00").send("/")
	require.Contains(t, p.part("next"), "Ann")
	require.NotContains(t, p.part("next"), "Luis")
	require.Contains(t, p.part("family"), "Ride to therapy Dana, Luis, Ann")

	other := p.opened()
	require.Equal(t, p.plan().Duties, other.plan().Duties, "the link has it all")
}

func TestADateThatNobodyHas(t *testing.T) {
	p := withTherapy(t)
	p.send("/duty/1/date", "act", "give", "day", "2026-12-11", "who", "")
	require.Contains(t, p.part("all-dates"), "Fri, Dec 11, 10:30 nobody yet")
	require.Contains(t, p.text(), "Dana 1 date needs somebody")
	p.send("/")
	require.Contains(t, p.part("family"), "Ride to therapy Dana Mondays, Wednesdays and Fridays at 10:30 Next: Wednesday, December 9, 10:30: Dana 1 date needs somebody")
	require.Contains(t, p.part("duty-f1-2026-12-11"), "Nobody has this yet")
	p.send("/duty/1/change", therapy("who", "")...)
	require.Contains(t, p.text(), "Nobody has this yet")
	require.Empty(t, p.plan().Duties[0].Takes, "it says the same as the whole")
	p.send("/duty/1/days", "act", "days", "on-1", "Dana", "on-3", "", "on-5", "Luis")
	require.Contains(t, p.text(), "Shared: Dana (Mon), Luis (Fri) 6 dates need somebody")
}

// Who has the whole may change; days that are shared out differently stay, and the form
// says so.
func TestTheWholeIsGivenToSomebodyElse(t *testing.T) {
	p := withTherapy(t)
	p.send("/duty/1/change")
	require.NotContains(t, p.text(), "given to somebody by themselves")
	p.send("/duty/1/days", "act", "days", "on-1", "", "on-3", "Luis", "on-5", "")
	p.send("/duty/1/date", "act", "give", "day", "2026-12-14", "who", "Ann")
	p.send("/duty/1/change")
	require.Contains(t, p.part("hint-who"), "given to somebody by themselves, and stay so")
	p.send("/duty/1/change", therapy("who", "Luis")...)
	d := p.plan().Duties[0]
	require.Equal(t, [7]uint8{time.Wednesday: 2}, d.On, "what Luis took stays his when Luis has the whole")
	require.Len(t, d.Takes, 1)
	p.send("/duty/1/change", therapy("who", "Ann")...)
	require.Contains(t, p.text(), "Shared: Ann (Mon, Fri), Luis (Wed)", "Ann's date is a Monday, and said once")
	p.send("/duty/1/days", "act", "days", "on-1", "", "on-3", "", "on-5", "")
	require.Contains(t, p.text(), "Ann has this")
}

// Dana says that a date is hers, which it is already: who says the same of it at the same
// time has contradicted her, and she is asked.
func TestADateThatIsConfirmed(t *testing.T) {
	n := withTherapy(t) // the series is Dana's
	dana, luis := n.opened().is("Dana"), n.opened().is("Luis")
	dana.send("/duty/1/date", "act", "give", "day", "2026-12-16", "who", "Dana")
	require.Contains(t, dana.text(), "Dana has this", "no word is doubled")
	require.NotContains(t, dana.text(), "Shared")
	luis.send("/duty/1/date", "act", "give", "day", "2026-12-16", "who", "Luis")
	exchange(dana, luis)
	for _, p := range []*phone{dana, luis} {
		p.send("/")
		require.Contains(t, p.question(), "Wed, Dec 16")
	}
	dana.answer("Dana")
	exchange(dana, luis)
	d := luis.plan().Duties[0]
	require.Equal(t, "Dana", helperAt(luis, d.WhoHas(luis.date("2026-12-16"))))
	require.Empty(t, luis.question())
}

// Luis took a date. Then the whole is given to him, and at the same time to Ruth: whoever
// gets the whole, his date stays his.
func TestAnOwnDateOutlivesTheWhole(t *testing.T) {
	n := withTherapy(t)
	dana, luis, ruth := n.opened().is("Dana"), n.opened().is("Luis"), n.opened().is("Ruth")
	luis.send("/duty/1/date", "act", "give", "day", "2026-12-16", "who", "Luis")
	exchange(dana, luis, ruth)
	dana.send("/duty/1/change", therapy("who", "Luis")...)
	require.NotContains(t, dana.text(), "Shared", "all of it is Luis's")
	dana.send("/")
	require.NotContains(t, dana.part("family"), "Luis, Luis")
	ruth.send("/duty/1/change", therapy("who", "Ruth")...)
	exchange(dana, luis, ruth)
	dana.send("/")
	dana.answer("Ruth")
	exchange(dana, luis, ruth)
	for _, p := range []*phone{dana, luis, ruth} {
		d := p.plan().Duties[0]
		require.Equal(t, "Ruth", helperAt(p, d.Who))
		require.Equal(t, "Luis", helperAt(p, d.WhoHas(p.date("2026-12-16"))))
		require.Equal(t, "Ruth", helperAt(p, d.WhoHas(p.date("2026-12-18"))))
	}
}

// A calendar has one whole series where a date is taken by who has the series.
func TestAConfirmedDateIsNoPartInACalendar(t *testing.T) {
	p := withTherapy(t)
	plain := p.fileOf("h1")
	q := withTherapy(t)
	q.send("/duty/1/date", "act", "give", "day", "2026-12-16", "who", "Dana")
	require.Len(t, q.plan().Duties[0].Takes, 1)
	confirmed := q.fileOf("h1")
	require.Equal(t, valueOf(plain, "RRULE"), valueOf(confirmed, "RRULE"))
	require.Equal(t, 1, strings.Count(confirmed, "RRULE:FREQ=WEEKLY"))
	require.Equal(t, strings.Count(plain, "BEGIN:VEVENT"), strings.Count(confirmed, "BEGIN:VEVENT"))
	before := q.plan()
	q.send("/import/add", "text", confirmed)
	require.Equal(t, before, q.plan(), "and taken in again it changes nothing")
}

func helperAt(p *phone, who uint8) string {
	q := p.plan()
	return q.Helper(who)
}

// A date belongs to whoever has it wherever it is moved, and also after it was left out for
// a while; with its place in the rule it loses its helper.
func TestDatesThatAreGoneHaveNobody(t *testing.T) {
	p := withTherapy(t)
	p.send("/duty/1/date", "act", "give", "day", "2026-12-16", "who", "Ann")
	p.send("/duty/1/date", "act", "move", "day", "2026-12-16", "to", "2026-12-17", "at", "")
	require.Contains(t, p.part("all-dates"), "Thu, Dec 17, 10:30 Ann")
	require.Contains(t, p.part("give-date"), "Thu, Dec 17, 10:30: Ann")
	p.send("/duty/1/date", "act", "give", "day", "2026-12-16", "who", "Luis")
	require.Contains(t, p.part("all-dates"), "Thu, Dec 17, 10:30 Luis")
	p.send("/duty/1/date", "act", "undo", "day", "2026-12-16", "at", "")
	p.send("/duty/1/date", "act", "skip", "day", "2026-12-16")
	p.send("/duty/1/date", "act", "undo", "day", "2026-12-16", "at", "")
	require.Contains(t, p.part("all-dates"), "Wed, Dec 16, 10:30 Luis")
	p.send("/duty/1/date", "act", "add", "to", "2026-12-19", "at", "09:00")
	p.send("/duty/1/date", "act", "give", "day", "2026-12-19", "who", "Ann")
	require.Contains(t, p.part("all-dates"), "Sat, Dec 19, 09:00 Ann")
	p.send("/duty/1/date", "act", "undo", "day", "2026-12-19", "at", "09:00")
	require.Len(t, p.plan().Duties[0].Takes, 1)
	p.send("/duty/1/days", "act", "days", "on-1", "Ann", "on-3", "", "on-5", "")
	p.send("/duty/1/change", therapy("day-3", "", "day-1", "", "first", "2026-12-11")...)
	d := p.plan().Duties[0]
	require.Empty(t, d.Takes, "no Wednesdays any more")
	require.NotZero(t, d.On[time.Monday], "but if Mondays come back, they are Ann's")
}

func TestOddSharing(t *testing.T) {
	p := withTherapy(t)
	before := p.plan()
	for _, fields := range [][]string{
		{"act", "give", "day", "2026-12-10", "who", "Ann"}, {"act", "give", "day", "", "who", "Ann"}, {"act", "give", "day", "x", "who", "Ann"},
		{"act", "give", "who", "Ann"},
	} {
		p.send("/duty/1/date", fields...)
		require.Contains(t, p.part("problem-date"), "Choose the day", "%v", fields)
		require.Equal(t, before, p.plan())
	}
	long := strings.Repeat("x", 41)
	p.send("/duty/1/date", "act", "give", "day", "2026-12-16", "who", long)
	require.Contains(t, p.part("problem-date"), "that is too long")
	require.Equal(t, long, p.values()["who"], "nothing is lost")
	_, given, _ := strings.Cut(p.last.HTML, `id="give-day"`)
	require.Contains(t, given, `<option value="2026-12-16" selected>`)
	p.send("/duty/1/days", "act", "days", "on-1", "Ann", "on-3", long)
	require.Contains(t, p.part("problem-date"), "Wednesday: that is too long")
	require.Equal(t, []string{"Ann", long}, []string{p.values()["on-1"], p.values()["on-3"]})
	require.Equal(t, before, p.plan())
	p.send("/duty/1/days")
	require.Equal(t, before, p.plan(), "a form without fields says nothing")
	p.send("/duty/1/days", "on-9", "Ann", "on-", "Ann")
	require.Equal(t, before, p.plan())
	p.send("/duty/9/days", "on-1", "Ann")
	require.Equal(t, "/", p.path)
}

// Names that have nothing give their place; within one form none takes another's.
func TestTwelveNamesAreShared(t *testing.T) {
	p := started(t)
	p.send("/duty/new/pets", "first", "2026-12-04", "at", "07:30", "length", "20", "who", "A0", "often", "daily", "every", "1", "ends", "weeks", "weeks", "4")
	names := func(prefix string) []string {
		fields := []string{"act", "days"}
		for i := range 7 {
			fields = append(fields, "on-"+string(rune('0'+i)), prefix+string(rune('1'+i)))
		}
		return fields
	}
	p.send("/duty/1/days", names("A")...)
	require.Len(t, p.plan().Helpers, 8)
	p.send("/duty/1/days", names("B")...)
	require.LessOrEqual(t, len(p.plan().Helpers), plan.MaxHelpers)
	require.Contains(t, p.text(), "Shared: B2 (Mon), B3 (Tue), B4 (Wed), B5 (Thu), B6 (Fri), B7 (Sat), B1 (Sun)")
	p.send("/duty/1/change")
	require.Equal(t, "A0", p.values()["who"])
}

// What is ridden once needs no sharing, and a rule for one weekday no weekdays.
func TestTheFormsAreThereWhereTheyCanHelp(t *testing.T) {
	for name, c := range map[string]struct {
		fields     []string
		days, give bool
	}{
		"three days a week": {therapy(), true, true},
		"one day a week":    {therapy("day-1", "", "day-5", ""), false, true},
		"every day":         {therapy("often", "daily"), true, true},
		"every second day":  {therapy("often", "daily", "every", "2"), false, true},
		"once":              {therapy("often", "once"), false, false},
		"monthly":           {therapy("often", "monthly", "ends", "times", "times", "3"), false, true},
	} {
		p := started(t)
		p.send("/duty/new/therapy", c.fields...)
		require.Equal(t, c.days, strings.Contains(p.last.HTML, `id="days-who"`), name)
		require.Equal(t, c.give, strings.Contains(p.last.HTML, `id="give-date"`), name)
	}
}

// A helper's calendar file holds their own dates, and goes by their name: their place in
// the list may become another when copies of the plan are joined.
func TestAFileOfOnesOwnDates(t *testing.T) {
	p := withTherapy(t)
	whole := p.fileOf("h1")
	p.send("/duty/1/days", "act", "days", "on-1", "", "on-3", "Luis", "on-5", "")
	dana, luis := p.fileOf("h1"), p.fileOf("h2")
	require.Contains(t, dana, "RRULE:FREQ=WEEKLY;BYDAY=MO,FR;COUNT=12")
	require.Contains(t, dana, "SUMMARY:Not yours now: Luis: 10:30 Ride to therapy")
	require.Contains(t, luis, "RRULE:FREQ=WEEKLY;BYDAY=WE;COUNT=6")
	require.NotContains(t, luis, "Not yours")
	require.NotEqual(t, valueOf(dana, "UID"), valueOf(luis, "UID"))
	require.NotEqual(t, valueOf(whole, "UID"), valueOf(luis, "UID"))
	n := planKey(p.plan().Number)
	require.Contains(t, p.kept, keyCalendar+n+".h:dana")
	require.Contains(t, p.kept, keyCalendar+n+".h:luis")
	require.NotContains(t, p.kept, keyCalendar+n+".h1")
	before := p.plan()
	for _, file := range []string{dana, luis, p.fileOf("all")} {
		p.send("/import", "text", file)
		require.Contains(t, p.part("found"), "in the plan already, just so")
		p.send("/import/add", "text", file)
		require.Equal(t, before, p.plan())
	}
}

// Two people add a ride on their own phones at the same time: no number is given twice, so
// no calendar takes one for the other.
func TestNumbersOfDutiesAreNotGivenTwice(t *testing.T) {
	dana := started(t)
	luis := dana.opened()
	dana.send("/duty/new/therapy", therapy()...)
	luis.send("/duty/new/pets", "first", "2026-12-04", "at", "07:30", "length", "20", "often", "once", "who", "Luis")
	require.NotEqual(t, "/duty/1", luis.path)
	id := luis.plan().Duties[0].ID
	require.Greater(t, id, uint32(1<<16), "a number of its own")
	require.Equal(t, dutyPath(id), luis.path)
	exchange(dana, luis)
	require.Len(t, dana.plan().Duties, 2)
	require.Equal(t, dana.plan().Duties, luis.plan().Duties)
	luis.send(dutyPath(id) + "/drop")
	after := luis.plan()
	require.True(t, after.Duty(id).Dropped)
	require.Equal(t, 1, strings.Count(dana.fileOf("f"+dutyPath(id)[len("/duty/"):]), "BEGIN:VEVENT"))
}
