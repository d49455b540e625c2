package app

import (
	"math/rand"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/link"
	"newel/core/merge"
	"newel/core/plan"
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

// More than a plan can hold is refused with a sentence, and nothing is half taken over.
func TestTooMuchForOneLink(t *testing.T) {
	p := started(t)
	for n := 0; ; n++ {
		before := p.plan()
		p.send("/duty/new/pets", "first", "2026-12-04", "at", "07:30", "length", "20", "often", "daily", "every", "1", "month", "day", "ends", "times", "times", "900")
		if p.path != "/duty/new/pets" {
			require.Less(t, n, 4)
			continue
		}
		require.Contains(t, p.text(), "more than a plan can hold")
		require.Equal(t, before, p.plan())
		break
	}
	require.Len(t, p.plan().Duties, plan.MaxDates/900)
	// Neither do single dates go over it, nor a duty that is put back.
	p.send("/duty/1/drop")
	p.send("/duty/new/pets", "first", "2026-12-04", "at", "07:30", "length", "20", "often", "daily", "every", "1", "month", "day", "ends", "times", "times", "900")
	p.send("/duty/1/put-back")
	require.Contains(t, p.part("problem-date"), "more than a plan can hold")
	require.True(t, p.plan().Duties[0].Dropped)
}

func TestADutyInAHourThatTheClocksSkip(t *testing.T) {
	p := started(t)
	p.send("/duty/new/other", "first", "2027-03-14", "at", "02:30", "length", "20", "often", "once", "every", "1", "month", "day", "ends", "weeks", "title", "Ice")
	require.Contains(t, p.text(), "the clocks jump over 02:30. It is read as 03:30")
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

// fileOf makes a calendar file and gives its text.
// RFC 5546 2.1.5: an entry is known by its UID, and the higher SEQUENCE is the newer.
// What was given to somebody else comes to the first as cancelled.
// valueOf gives the value of a file's first line with a name.
// What the plan wrote itself and reads again changes nothing.
// The next file offers what the last one held, so that nothing falls out of a calendar
// because a box was not ticked again.
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

// letters gives words of letters by chance, which no link can make shorter.
func letters(r *rand.Rand, n int) string {
	text := make([]rune, n)
	for i := range text {
		text[i] = rune(0x4e00 + r.Intn(20000)) // a Chinese character
	}
	return string(text)
}

// filled is a plan with as much in its duties as a link of a length holds.
func filled(p plan.Plan, length int) plan.Plan {
	p.Number++ // not the plan of any phone
	return filledAs(p, length, func(q plan.Plan) string { return link.Encode(merge.New(q)) })
}

// filledAs fills a plan that is written as a link in a way of its own.
func filledAs(p plan.Plan, length int, encode func(plan.Plan) string) plan.Plan {
	r := rand.New(rand.NewSource(1))
	for i := range plan.MaxDuties {
		d := plan.Duty{
			ID: uint32(i + 1), Kind: plan.OtherDuty, Title: letters(r, 40), Place: letters(r, 120), Note: letters(r, 96), Length: 10,
			Rule: repeat.Rule{First: p.Surgery, At: 600, Every: 1}, Ride: plan.Ride{Drive: plan.Unknown, Parking: plan.Unknown},
		}
		q := p.WithDuty(d)
		if fragment := encode(q); fragment != "" && len(fragment) <= length {
			p = q
		}
	}
	return p
}

// A plan that would not open again is neither stored nor sent, whatever was changed.
func TestAPlanThatIsTooLargeIsNotStored(t *testing.T) {
	p := started(t)
	full := filled(p.plan(), link.MaxLength)
	require.Less(t, len(full.Duties), plan.MaxDuties)
	p.open(link.Encode(merge.New(full)))
	require.Equal(t, full.Duties, p.plan().Duties)
	r := rand.New(rand.NewSource(2))
	for _, try := range [][]string{
		{"/facts", "address", letters(r, 120), "hospital", letters(r, 40), "phone", letters(r, 40)},
		{"/who/drive-there", "who", letters(r, 40)}, {"/duty/new/other", "first", "2026-12-05", "at", "10:00", "length", "10", "often", "once", "title", letters(r, 40)},
	} {
		fields := try[1:]
		if try[0] == "/facts" {
			fields = facts(fields...)
		}
		p.send(try[0], fields...)
		if try[0] == "/facts" {
			require.Contains(t, p.text(), "more than a plan can hold")
		}
		require.Equal(t, full.Duties, p.planOf(p.fragment).Duties, try[0])
		require.Equal(t, full.Duties, p.planOf(p.kept[keyPlan+planKey(full.Number)]).Duties, try[0])
	}
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

// clinic is a calendar file with the given events, each without a UID where uid is "".
// A clinic's file that comes again changes when and where, and leaves alone what the
// family has done since.
// Entries without a UID are told apart by what they say, so that one never takes the
// place of another.
// Another plan's file brings its duties once, and its own steps not at all.
// An old file of the plan's own takes no words back.

// A plan that came too full can be emptied, duty by duty. Somebody else has filled it: a plan
// that was never changed has no stamps, and with its first change its link grows by all of
// them, but forms let none become as full as this.
func TestAPlanThatCameTooFullCanBeEmptied(t *testing.T) {
	p := started(t)
	base := p.plan()
	base.Number++
	stamped := func(q plan.Plan) string { return link.Encode(merge.New(base).Change(merge.FirstActor, q)) }
	p.open(stamped(filledAs(base, link.MaxLength-100, stamped)))
	require.Greater(t, len(p.fragment), link.MaxLength-reserve)
	p.send("/duty/1/drop")
	require.True(t, p.plan().Duties[0].Dropped)
	p.send("/duty/2/change", "first", "2026-12-05", "at", "10:00", "length", "10", "often", "once")
	require.Empty(t, p.plan().Duties[1].Note)
}
