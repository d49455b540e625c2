package app

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/repeat"
	"newel/core/wall"
)

// therapy is the form of a ride: Mondays, Wednesdays and Fridays at 10:30 for six
// weeks. What is given changes or adds fields.
func therapy(changed ...string) []string {
	fields := []string{
		"first", "2026-12-09", "at", "10:30", "length", "45", "who", "Dana", "often", "weekly", "day-1", "1", "day-3", "1", "day-5", "1",
		"every", "1", "month", "day", "ends", "weeks", "weeks", "6", "place", "Millrace Therapy", "drive", "20", "parking", "10", "early", "10",
		"own", "", "leaves", "wait", "title", "", "note", "loose trousers",
	}
	return append(fields, changed...)
}

const sixWeeks = "Mondays, Wednesdays and Fridays at 10:30 for 6 weeks, from Wednesday, December 9: 18 rides, the last on Monday, January 18, 2027"

func TestARideIsAddedWithOrdinaryControls(t *testing.T) {
	p := started(t)
	require.Contains(t, p.part("family"), "Ride to therapy", "one tap away from the plan")
	p.send("/duty/new/therapy")
	require.Equal(t, "weekly", p.values()["often"])
	p.send("/duty/new/therapy", therapy()...)
	require.Equal(t, "/duty/1", p.path)
	text := p.text()
	for _, want := range []string{
		"Ride to therapy " + sixWeeks, "Dana has this", "Next date Wednesday, December 9",
		"Leave home by 09:35", "Be there 10:20", "Appointment 10:30–11:15", "Rosa home about 11:55–12:00", "Free again by 12:00", "Where Millrace Therapy",
		"being there early − 10 min", "loose trousers",
	} {
		require.Contains(t, text, want)
	}
	d := p.plan().Duties[0]
	require.Equal(t, []string{"Dana"}, p.plan().Helpers)
	require.EqualValues(t, 1, d.Who)
	require.Len(t, mustAll(t, d.Rule), 18)
	p.send("/")
	require.Contains(t, p.part("family"), "Ride to therapy Dana Mondays, Wednesdays and Fridays at 10:30 Next: Wednesday, December 9, 10:30")
	require.Contains(t, p.part("days"), "Leave home by 09:35 Ride to therapy")
}

func mustAll(t *testing.T, r repeat.Rule) []repeat.Occurrence {
	require.NoError(t, r.Check())
	dates, _ := r.All()
	return dates
}

// The form of a duty shows what it was made from, and sent back unchanged it changes
// nothing, for every kind of rule.
func TestTheFormOfADutyComesBackAsItWas(t *testing.T) {
	for name, fields := range map[string][]string{
		"weekly":           therapy(),
		"once":             therapy("often", "once"),
		"daily":            therapy("often", "daily", "every", "3", "ends", "times", "times", "7"),
		"until a day":      therapy("ends", "day", "last", "2027-01-20"),
		"no end":           therapy("ends", "never"),
		"same date":        therapy("often", "monthly", "ends", "times", "times", "3"),
		"end of the month": therapy("often", "monthly", "month", "end", "ends", "times", "times", "3"),
		"nth":              therapy("often", "monthly", "month", "nth", "ends", "times", "times", "3"),
		"last weekday":     therapy("often", "monthly", "month", "last", "ends", "times", "times", "3"),
		"a pasted rule":    therapy("often", "text", "rule", "RRULE:FREQ=MONTHLY;BYMONTHDAY=2,15;COUNT=5"),
		"comes back":       therapy("leaves", "back", "own", "15"),
	} {
		p := started(t)
		p.send("/duty/new/therapy", fields...)
		require.Equal(t, "/duty/1", p.path, "%s: %s", name, p.text())
		before := p.plan()
		p.send("/duty/1/change")
		values := p.values()
		var again []string
		for key, value := range values {
			again = append(again, key, value)
		}
		p.send("/duty/1/change", again...)
		require.Equal(t, "/duty/1", p.path, "%s: %s", name, p.text())
		require.Equal(t, before, p.plan(), name)
	}
}

func TestAPastedRuleIsReadBackInWords(t *testing.T) {
	p := started(t)
	p.send("/duty/new/therapy", therapy("often", "text", "rule", "RRULE:FREQ=WEEKLY;UNTIL=20270118T170000Z;BYDAY=MO,WE,FR")...)
	require.Contains(t, p.text(), "Mondays, Wednesdays and Fridays at 10:30")
	require.Contains(t, p.text(), "until Monday, January 18, 2027: 18 rides")
	for rule, want := range map[string]string{
		"FREQ=SECONDLY":                   "It repeats several times a day",
		"FREQ=DAILY;INTERVAL=1000000000":  "Put in a whole number from 1 to 99",
		"FREQ=DAILY;COUNT=1000000000":     "Put in a whole number from 1 to 1000",
		"FREQ=YEARLY;BYWEEKNO=20":         "counts the days or weeks of the year",
		"every Monday":                    "is not a repeating rule",
		"FREQ=MONTHLY;BYDAY=-20MO":        "is not a repeating rule",
		"FREQ=DAILY;COUNT=3;UNTIL=2027":   "two ends",
		"FREQ=HOURLY;INTERVAL=2;BYHOUR=1": "several times a day",
		"FREQ=DAILY;BYHOUR=9;COUNT=3":     "names another time of day",
	} {
		p.send("/duty/new/therapy", therapy("often", "text", "rule", rule)...)
		require.Contains(t, p.part("problems"), want, rule)
		require.Equal(t, "/duty/new/therapy", p.path)
	}
}

func TestWhatIsMissingInTheFormIsAskedForAllAtOnce(t *testing.T) {
	p := started(t)
	p.send("/duty/new/therapy", therapy("first", "", "at", "", "length", "", "weeks", "", "drive", "far")...)
	problems := p.part("problems")
	for _, field := range []string{"First day: please", "Time of the appointment: please", "How long the appointment takes", "How many weeks: please", "Drive from the patient's home"} {
		require.Contains(t, problems, field)
	}
	require.Empty(t, p.plan().Duties)
}

func TestTwiceADayBecomesTwoLines(t *testing.T) {
	p := started(t)
	p.send("/duty/new/pets", "first", "2026-12-04", "at", "07:30", "again", "18:00", "length", "20", "who", "Luis",
		"often", "daily", "every", "1", "month", "day", "ends", "weeks", "weeks", "2", "title", "Feed the cat")
	require.Equal(t, "/duty/1", p.path, p.text())
	duties := p.plan().Duties
	require.Len(t, duties, 2)
	require.Equal(t, []string{"07:30", "18:00"}, []string{duties[0].Rule.At.String(), duties[1].Rule.At.String()})
	require.Equal(t, "Feed the cat", duties[1].Title)
}

func withTherapy(t *testing.T) *phone {
	p := started(t)
	p.send("/duty/new/therapy", therapy()...)
	require.Equal(t, "/duty/1", p.path)
	return p
}

func TestADutyIsTakenOutAndPutBack(t *testing.T) {
	p := withTherapy(t)
	p.send("/duty/1/drop")
	require.Contains(t, p.part("notice-dropped"), "was taken out")
	p.send("/")
	require.NotContains(t, p.part("days"), "Ride to therapy")
	require.True(t, p.plan().Duties[0].Dropped, "calendars have to hear of it")
	p.send("/duty/1/put-back")
	require.Contains(t, p.text(), sixWeeks)
	require.EqualValues(t, 2, p.plan().Duties[0].Revision)
	require.EqualValues(t, 2, p.plan().FreshDuty(0), "its number is not given away")
}

func TestWhoDoesIt(t *testing.T) {
	p := withTherapy(t)
	p.send("/who/drive-there")
	require.Contains(t, p.text(), "Drive to the hospital Thursday, December 3")
	p.send("/who/drive-there", "who", "Luis")
	require.Contains(t, p.part("next"), "Luis")
	require.Equal(t, []string{"Dana", "Luis"}, p.plan().Helpers)
	require.EqualValues(t, 2, p.plan().Cover[0])
	p.send("/who/drive-there", "who", strings.Repeat("x", 41))
	require.Equal(t, "/who/drive-there", p.path)
	p.send("/who/drive-there", "who", "")
	require.Contains(t, p.part("next"), "Nobody has this yet")
	p.send("/who/nothing", "who", "Dana")
	require.Equal(t, "/", p.path)
}

// The link brings the family's duties to another phone, and what is changed there
// comes back as one line.
func TestTheLinkCarriesTheFamilysDuties(t *testing.T) {
	p := withTherapy(t)
	other := newPhone(t)
	other.open(p.fragment)
	require.Contains(t, other.part("family"), "Ride to therapy Dana")
	p.send("/duty/1/change", therapy("at", "11:00", "who", "Luis")...)
	p.send("/")
	require.Empty(t, p.news(), "nobody needs telling what they did themselves")
	other.open(p.fragment)
	require.Contains(t, other.part("notice-moved"), "2 things have changed")
	require.Contains(t, other.part("notice-moved"), "Luis has it now")
	require.Contains(t, other.part("notice-moved"), "Ride to therapy is now: Mondays, Wednesdays and Fridays at 11:00")
	other.send("/read")
	p.send("/duty/1/drop")
	other.open(p.fragment)
	require.Contains(t, other.part("notice-moved"), "Taken out of the plan: Ride to therapy")
}

func TestOddDutyRequests(t *testing.T) {
	p := withTherapy(t)
	before := p.plan()
	for _, path := range []string{
		"/duty", "/duty/", "/duty/0", "/duty/2", "/duty/99999", "/duty/x", "/duty/new", "/duty/new/x", "/duty/1/x", "/duty/1/date",
		"/who", "/who/x", "/calendar/duty/9", "/calendar/x", "/import/x", "/x/y/z", "//", "/duty//",
	} {
		p.send(path)
		require.NotEmpty(t, p.last.HTML, path)
		require.Equal(t, before, p.plan(), path)
		p.send(path, "act", "skip", "day", "2026-01-01", "who", "")
		require.NotEmpty(t, p.last.HTML, path)
		require.Equal(t, before.Duties, p.plan().Duties, path)
	}
	require.Equal(t, wall.Clock(630), p.plan().Duties[0].Rule.At)
}

func TestNoDayOfTheWeekIsNotGuessed(t *testing.T) {
	p := started(t)
	p.send("/duty/new/therapy", therapy("day-1", "", "day-3", "", "day-5", "")...)
	require.Contains(t, p.part("problems"), "No day is chosen")
}

func TestWhatWasTakenOutIsStillListed(t *testing.T) {
	p := withTherapy(t)
	p.send("/duty/1/drop")
	p.send("/")
	require.Contains(t, p.part("family-dropped"), "1 taken out of the plan Ride to therapy")
}

// Two copies were changed apart from each other: the one that lacks a ride does not take
// it away, and who lacked it is told of it.
func TestACopyThatLacksARideGetsIt(t *testing.T) {
	p := started(t)
	fork := newPhone(t)
	fork.open(p.fragment)
	p.send("/duty/new/therapy", therapy()...)
	fork.send("/facts", facts("drive", "55")...)
	fork.send("/tick", "code", "11", "n", "0", "done", "1")
	without := fork.fragment
	fork.open(p.fragment)
	p.open(without)
	for _, phone := range []*phone{p, fork} {
		require.Contains(t, phone.part("family"), "Ride to therapy")
		require.Equal(t, 55, phone.plan().Drive)
	}
	require.Contains(t, fork.part("notice-moved"), "New: Ride to therapy: "+sixWeeks)
	require.NotContains(t, p.part("notice-moved"), "Ride to therapy")
}
