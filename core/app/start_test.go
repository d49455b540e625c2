package app

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
)

// Four facts make a plan; what is missing is asked on the plan's own page.
func TestFourFacts(t *testing.T) {
	p := newPhone(t)
	p.open("start")
	require.Equal(t, "America/Chicago", p.values()["zone"], "taken from the device, not asked")
	p.send("/start", "surgery", "2026-12-03", "arrival", "", "joint", "hip", "operation", "revision", "stay", "undecided",
		"zone", "America/Chicago")
	require.Equal(t, "/", p.path)
	require.Contains(t, p.text(), "Hip revision")
	require.Contains(t, p.text(), "Arrival time not known yet")
	require.Contains(t, p.part("next"), "The hospital calls on Wednesday, December 2")
	require.Contains(t, p.part("next"), "How far is the hospital?")
	require.Contains(t, p.part("next"), "Answer a few questions")
	require.Contains(t, p.text(), "It is not decided yet")
	require.Contains(t, p.text(), "If they go home the same day")
	require.Contains(t, p.text(), "If they stay one night")
	require.NotContains(t, p.part("next"), "Leave home by", "no time from a guess")
	require.NotContains(t, p.part("next"), "08:30", "the morning after is not what is next")

	p.send("/way", "drive", "40", "parking", "15")
	require.NotContains(t, p.part("next"), "How far is the hospital?")
	p.send("/arrival", "arrival", "05:30")
	require.Contains(t, p.part("next"), "Leave home by 04:15")
	require.NotContains(t, p.text(), "Arrival time not known yet")
	require.Empty(t, p.news(), "what became known has not moved")
}

func TestDemoFamily(t *testing.T) {
	p := newPhone(t)
	p.open("demo")
	text := p.text()
	require.Equal(t, "2026-12-03", p.plan().Surgery.String(), "nine days from today")
	for _, want := range []string{
		"Rosa: knee replacement", "Thursday, December 3", "9 days to go",
		"Leave home by 04:15 Drive to the hospital Dana leaves their own home by 03:55 Be there 05:30", "This is an example",
		"Wash 1 of 5", "Wash 5 of 5", "by 23:00 Stop eating", "by 03:30 Stop drinking",
		"usually 05:30–06:30 Getting ready", "usually about 06:30 Surgery begins", "usually 07:30–08:00 Surgery ends", "usually 08:30–11:00 Out of the recovery room",
		"Drive Rosa home the morning after", "Luis leaves their own home by 07:00 Be there 08:30 Most leave by 10:00 Home about 10:40 Free again by 11:00",
		"05:30 parking and walking − 15 min usual drive − 40 min more for traffic (25 % of the drive) − 10 min getting into the car − 10 min leave home 04:15",
	} {
		require.Contains(t, text, want)
	}
	p.open(p.fragment)
	require.Contains(t, p.text(), "This is an example", "also when it is opened again")
	require.Len(t, p.plans(), 1)
	p.open("demo")
	require.Len(t, p.plans(), 1, "an example that nobody changed gives way to the next")
	p.send("/tick", "code", "11", "n", "0", "done", "1")
	p.open("demo")
	require.Len(t, p.plans(), 2, "one that was changed stays")
}

// Each fault of the form gets one sentence that names the field and says what to
// do, and nothing that was typed is lost.
func TestBadInput(t *testing.T) {
	for _, c := range []struct{ field, typed, want string }{
		{"surgery", "", "Date of surgery: please put in a date."},
		{"surgery", "1999-01-01", `Date of surgery: "1999-01-01" is too long ago or too far ahead. Check the year.`},
		{"surgery", "2027-02-30", `Date of surgery: "2027-02-30" is not a day of the calendar. Write it as year-month-day, for example 2026-12-08.`},
		{"surgery", "next week", `Date of surgery: "next week" is not a day of the calendar.`},
		{"surgery", "?", "Date of surgery: that is not a day of the calendar."}, // what the browser could not read
		{"arrival", "?", "Arrival time at the hospital: that is not a time of day."},
		{"drive", "?", `Drive from home to the hospital, in minutes: "?" is not a whole number.`},
		{"arrival", "half past", `Arrival time at the hospital: "half past" is not a time of day. Write it like 05:30 or 14:15.`},
		{"arrival", "24:00", `Arrival time at the hospital: "24:00" is not a time of day.`},
		{"drive", "-5", "Drive from home to the hospital, in minutes: it cannot be below zero."},
		{"drive", "-1", "Drive from home to the hospital, in minutes: it cannot be below zero."},
		{"drive", "721", "Drive from home to the hospital, in minutes: more than 12 hours looks like a slip."},
		{"drive", "forty", `Drive from home to the hospital, in minutes: "forty" is not a whole number.`},
		{"drive", "99999999999999999999", "is not a whole number."},
		{"parking", "181", "Parking and walking to the desk, in minutes: more than 3 hours looks like a slip."},
		{"zone", "America/Nowhere", `Time zone of the hospital: "America/Nowhere" is not a time zone that this page knows. Choose one from the list, for example America/Chicago.`},
		{"zone", "", `Time zone of the hospital: "" is not a time zone`},
		{"stay", "forever", "Stay: please choose one of the answers."},
		{"rule.wash-days", "15", "Wash daily from so many days before: it has to be between 1 day and 14 days."},
		{"rule.food-stop", "11:00", "No food from this time on the evening before: it has to be between 17:00 and 24:00."},
		{"rule.food-stop", "late", `No food from this time on the evening before: "late" is not a time of day.`},
		{"rule.first-min", "100", "First replacement takes at least, in minutes: the least is more than the most."},
		{"patient", "A name that is much too long for a family to use", "What do you call the patient: that is too long. Use at most 40 characters."},
	} {
		t.Run(c.field+" "+c.typed, func(t *testing.T) {
			p := newPhone(t)
			p.open("start")
			fields := facts(c.field, c.typed)
			p.send("/start", fields...)
			require.Equal(t, "/start", p.path)
			require.Equal(t, "problems", p.last.Focus)
			require.Contains(t, p.part("problems"), "One thing to look at")
			require.Contains(t, p.part("problems"), c.want)
			require.Contains(t, p.last.HTML, `href="#field-`+c.field+`"`)
			values := p.values()
			for i := 0; i < len(fields); i += 2 {
				if fields[i] != "stay" || c.field != "stay" {
					require.Equal(t, fields[i+1], values[fields[i]], "%s is lost", fields[i])
				}
			}
			require.Empty(t, p.kept, "nothing is stored")
		})
	}
}

func TestSkippedArrival(t *testing.T) {
	p := newPhone(t)
	p.open("start")
	p.send("/start", facts("surgery", "2027-03-14", "arrival", "02:30")...)
	require.Contains(t, p.part("problems"), "Arrival time at the hospital: 02:30 does not exist on that day, because the clocks jump over it that night.")
}

// Past and far dates are asked about, not refused.
func TestAskedAbout(t *testing.T) {
	for date, question := range map[string]string{
		"2026-11-20": "Date of surgery: Friday, November 20 is in the past. Is that right?",
		"2029-01-01": "Date of surgery: Monday, January 1, 2029 is more than a year away. Is that right?",
	} {
		p := newPhone(t)
		p.open("start")
		p.send("/start", facts("surgery", date)...)
		require.Contains(t, p.part("problems"), question)
		require.Contains(t, p.text(), "Yes, that is right")
		p.send("/start", append(facts("surgery", "2026-11-19"), "confirm", date)...)
		require.Equal(t, "/start", p.path, "the yes was for another date")
		p.send("/start", append(facts("surgery", date), "confirm", date)...)
		require.Equal(t, "/", p.path)
		require.Equal(t, date, p.plan().Surgery.String())
	}
}

// An arrival in the night is often a slip of AM and PM.
func TestOddArrivalIsAskedAbout(t *testing.T) {
	p := newPhone(t)
	p.open("start")
	p.send("/start", facts("arrival", "02:50")...)
	require.Contains(t, p.part("problems"), "Arrival time at the hospital: 02:50 is an unusual time for an arrival. Is that right?")
	p.send("/start", append(facts("arrival", "02:50"), "confirm", "02:50")...)
	require.EqualValues(t, 2*60+50, p.plan().Arrival)
}

// A hospital's laxer rule is used, and the navigator is told before the link goes
// out; a family that opens the link is not.
func TestNavigatorIsWarned(t *testing.T) {
	p := newPhone(t)
	p.open("start")
	p.send("/start", facts("rule.liquids-before", "60", "rule.food-stop", "24:00")...)
	require.Equal(t, "/facts", p.path)
	require.Equal(t, "concerns", p.last.Focus)
	require.Contains(t, p.part("concerns"), "The hospital's rule stops clear liquids at Thursday, December 3, 04:30. The ASA guideline, counted from arrival, stops them at 03:30.")
	require.Contains(t, p.part("concerns"), "The hospital's rule stops food at Wednesday, December 2, 23:59.")
	family := newPhone(t)
	family.open(p.fragment)
	require.Contains(t, family.text(), "by 04:30 Stop drinking")
	require.NotContains(t, family.text(), "ASA guideline")
}

// Most plans start without an arrival time: the navigator is told all the same, and
// the helper who puts it in later is not.
func TestNavigatorIsWarnedWithoutAnArrival(t *testing.T) {
	p := newPhone(t)
	p.open("start")
	p.send("/start", facts("rule.liquids-before", "60", "arrival", "")...)
	require.Contains(t, p.part("concerns"), "The hospital's rule allows clear liquids later than the ASA guideline")
	helper := newPhone(t)
	helper.open(p.fragment)
	helper.send("/arrival", "arrival", "05:30")
	require.Equal(t, "/", helper.path)
	require.Contains(t, helper.text(), "by 04:30 Stop drinking")
	require.NotContains(t, helper.text(), "ASA guideline")
}

// Diabetes, reflux or other times from the team: no times of ours, and no word in
// the link about which of the three it is.
func TestTeamTimesOnThePage(t *testing.T) {
	p := newPhone(t)
	p.open("start")
	p.send("/start", facts("fact.team-times", "1", "fact.drink-given", "1")...)
	require.Contains(t, p.text(), "Stop eating at the time your team gave you")
	require.Contains(t, p.text(), "Stop drinking, even water, at the time your team gave you")
	require.NotContains(t, p.text(), "by 03:30")
	require.NotContains(t, p.text(), "by 23:00")
}

// What is shown in the form is the plan, and saving it unchanged changes nothing.
func TestFormRoundTrip(t *testing.T) {
	p := newPhone(t)
	p.open("start")
	p.send("/start", facts("rule.wash-days", "3", "rule.food-stop", "22:00", "rule.wash-morning", "0", "hospital", "Alder Ferry Hospital", "fact.pets", "1")...)
	before := p.plan()
	require.Equal(t, 3, before.Program.Get(plan.WashDays))
	p.send("/facts")
	var fields []string
	for k, v := range p.values() {
		fields = append(fields, k, v)
	}
	p.send("/facts", fields...)
	require.Equal(t, before, p.plan())
}

// plans lists the plans on the device.
func (p *phone) plans() []string {
	var keys []string
	for k := range p.kept {
		if strings.HasPrefix(k, keyPlan) {
			keys = append(keys, k)
		}
	}
	return keys
}
