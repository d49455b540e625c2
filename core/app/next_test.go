package app

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func splitTags(s string) []string { return strings.Split(s, "<") }

func cut(s, before string) (string, bool) {
	_, after, ok := strings.Cut(s, before)
	value, _, _ := strings.Cut(after, `"`)
	return value, ok
}

// What is next, from the day of the link to long after.
func TestNextOverTime(t *testing.T) {
	p := started(t)
	for _, c := range []struct{ now, toGo, want string }{
		{"2026-11-24T09:00:00-06:00", "9 days to go", "Thursday, December 3 Leave home by 04:15"},
		{"2026-12-02T21:00:00-06:00", "tomorrow", "Tomorrow, Thursday Leave home by 04:15"},
		{"2026-12-03T03:00:00-06:00", "today", "Today, Thursday Leave home by 04:15"},
		{"2026-12-03T04:20:00-06:00", "today", "You should be on your way"},
		{"2026-12-03T05:31:00-06:00", "today", "Today, Thursday You should be there by now. Late? Call the hospital. Usually out of the recovery room 08:30–11:00 Wait at the hospital"},
		{"2026-12-03T07:00:00-06:00", "today", "Today, Thursday Usually out of the recovery room 08:30–11:00"},
		{"2026-12-03T12:00:00-06:00", "today", "Tomorrow, Friday Leave home by 07:15 Drive Rosa home the morning after"},
		{"2026-12-04T08:00:00-06:00", "1 day after surgery", "You should be on your way"},
		{"2026-12-04T09:00:00-06:00", "1 day after surgery", "Today Get ready to go home"},
		{"2026-12-20T09:00:00-06:00", "17 days after surgery", "Keep walking, and watch for the warning signs below."},
	} {
		p.at(c.now).send("/")
		require.Contains(t, p.text(), c.toGo, c.now)
		require.Contains(t, p.part("next"), c.want, c.now)
	}
}

// Everything is ticked: the page says what the days are for, and later that the
// plan is over. Clot signs stay on the page throughout.
func TestNextWhenAllIsDone(t *testing.T) {
	p := started(t)
	for {
		code, n := p.firstOpenBox()
		if code == "" {
			break
		}
		p.send("/tick", "code", code, "n", n, "done", "1")
	}
	p.at("2026-12-06T09:00:00-06:00").send("/")
	require.Contains(t, p.part("next"), "The first days at home are for walking")
	p.at("2027-01-08T09:00:00-06:00").send("/")
	require.Contains(t, p.part("next"), "Surgery was more than 35 days ago")
	require.Contains(t, p.part("signs"), "in the calf or thigh: new pain, swelling, warmth, redness or a change in skin color")
}

// firstOpenBox finds a box on the page that is not ticked.
func (p *phone) firstOpenBox() (code, n string) {
	for _, form := range strings.Split(p.last.HTML, `<form action="/tick"`)[1:] {
		form, _, _ = strings.Cut(form, "</form>")
		if strings.Contains(form, " checked") {
			continue
		}
		code, _ = cut(form, `name="code" value="`)
		n, _ = cut(form, `name="n" value="`)
		return code, n
	}
	return "", ""
}

// A helper in another zone sees the hospital's times and their own beside them.
func TestOtherZone(t *testing.T) {
	p := started(t)
	far := newPhone(t)
	far.zone = "America/Los_Angeles"
	far.open(p.fragment)
	require.Contains(t, far.text(), "Times are those of the hospital (America/Chicago).")
	require.Contains(t, far.part("next"), "Leave home by 04:15 02:15 for you")
	far.zone = "Pacific/Honolulu"
	far.send("/")
	require.Contains(t, far.part("next"), "00:15 for you")
	far.zone = "America/Winnipeg"
	far.send("/")
	require.NotRegexp(t, `\d for you\b`, far.text(), "another name for the same clock")
	far.zone = ""
	far.send("/")
	require.NotRegexp(t, `\d for you\b`, far.text())
}

// The clock follows the device until the person chooses; noon and midnight are
// words on a twelve-hour clock.
func TestClockStyle(t *testing.T) {
	p := started(t)
	p.clock12 = true
	p.send("/")
	require.Contains(t, p.part("next"), "Leave home by 4:15 AM")
	p.send("/clock", "clock", "24")
	require.Contains(t, p.part("next"), "Leave home by 04:15")
	p.send("/facts", facts("rule.food-stop", "24:00", "arrival", "07:00")...)
	p.send("/")
	p.send("/clock", "clock", "12")
	require.Contains(t, p.text(), "by 11:59 PM Stop eating")
}

// Sending hands over a text that names neither the operation nor anything else of the plan
// but whose it is and the day: messages stand on locked screens for all to see.
func TestSend(t *testing.T) {
	p := started(t)
	out := p.send("/send")
	require.Equal(t, &Send{
		Title: "Rosa: knee replacement", Text: "Plan for Rosa, Thursday, December 3. Open it on your phone:", Fragment: p.fragment,
	}, out.Send)
}

// The times of the fast are never crowded out by chores that nobody ticked.
func TestFastBeforeChores(t *testing.T) {
	p := started(t)
	p.at("2026-12-02T21:00:00-06:00").send("/")
	next := p.part("next")
	require.Contains(t, next, "Soon by 23:00 Stop eating Tomorrow by 03:30 Stop drinking")
	require.Less(t, strings.Index(next, "Stop drinking"), strings.Index(next, "Choose the helpers"))
	p.at("2026-12-03T02:00:00-06:00").send("/")
	require.Contains(t, p.part("next"), "Soon by 03:30 Stop drinking, even water before leaving at 04:15 Wash 5 of 5")
}

// What was for before the arrival is not asked for after it, and the head does not
// announce an arrival that has passed.
func TestAfterTheArrival(t *testing.T) {
	p := started(t)
	p.at("2026-12-03T06:00:00-06:00").send("/")
	for _, over := range []string{"Take the gum out", "Put the parking permit", "Choose the helpers"} {
		require.NotContains(t, p.part("next"), over)
	}
	require.NotContains(t, p.text(), "Be at the hospital at")
	require.Contains(t, p.last.HTML, `<li class="post step past" id="day-9-0"`, "being ill before surgery is no matter after it")
	require.Contains(t, p.part("overdue"), "Get the equipment", "still needed when they come home")
	p.at("2026-12-04T12:00:00-06:00").send("/")
	require.Contains(t, p.part("next"), "Somebody stays with Rosa until Sat, Dec 5, 11:00.")
}

// Going home the same day has no time that can be promised.
func TestSameDayStaysNext(t *testing.T) {
	p := newPhone(t)
	p.open("start")
	p.send("/start", facts("stay", "same-day")...)
	p.at("2026-12-03T15:00:00-06:00").send("/")
	next := p.part("next")
	require.Contains(t, next, "Ready from 08:30 Drive Rosa home the same day")
	require.Contains(t, next, "Leave the hospital once the four checks are met")
	require.Contains(t, next, "Somebody stays with Rosa, at least until Fri, Dec 4, 09:10")
	for _, code := range []string{"90", "91", "92", "93"} {
		p.send("/tick", "code", code, "n", "0", "done", "1")
	}
	require.NotContains(t, p.part("next"), "Ready from 08:30")
	day := p.part("day-2026-12-03")
	require.Less(t, strings.Index(day, "Out of the recovery room"), strings.Index(day, "Get ready to go home"))
	require.Less(t, strings.Index(day, "Get ready to go home"), strings.Index(day, "Drive Rosa home"))
}

// While the arrival is not known the page says whom to ask, and more urgently as
// the day comes.
func TestAskingForTheArrival(t *testing.T) {
	p := newPhone(t)
	p.open("start")
	p.send("/start", facts("arrival", "", "surgery", "2026-12-07", "phone", "555-0142")...)
	require.Contains(t, p.part("next"), "The hospital calls on Sunday, December 6 to confirm it, or already on Friday.")
	require.Contains(t, p.part("day-2026-12-04"), "the call may come on Friday")
	p.at("2026-12-06T18:00:00-06:00").send("/")
	require.Contains(t, p.part("next"), "No call by late afternoon? Call the hospital (555-0142).")
	require.Contains(t, p.part("day-2026-12-06"), "Ask until when clear liquids are allowed")
	require.Contains(t, p.part("day-2026-12-06"), "If the arrival turns out to be before 05:00, stop earlier")
	p.at("2026-12-07T05:00:00-06:00").send("/")
	require.Contains(t, p.part("next"), "Eat and drink nothing until they tell you.")
}

// What is under way says until when, not from when: "from 05:30" would be read as
// a time to come.
func TestUnderWay(t *testing.T) {
	p := started(t)
	p.at("2026-12-02T20:00:00-06:00").send("/")
	require.Contains(t, p.part("day-2026-12-02"), "until Thu, Dec 3, 05:30 No shaving")
	p.at("2026-12-04T07:00:00-06:00").send("/")
	require.Contains(t, p.part("day-2026-12-04"), "until Fri, Dec 4, 11:00 For 24 hours after anesthesia")
}

// On the morning of going home the drive stays at the head until they are home.
func TestMorningOfGoingHome(t *testing.T) {
	p := started(t)
	p.at("2026-12-04T08:45:00-06:00").send("/")
	require.Contains(t, p.part("next"), "You should be there by now.")
	require.Contains(t, p.part("next"), "Drive Rosa home the morning after")
	p.at("2026-12-04T10:30:00-06:00").send("/")
	require.Contains(t, p.part("next"), "Most leave by 10:00")
	p.at("2026-12-04T11:01:00-06:00").send("/")
	require.NotContains(t, p.part("next"), "Most leave by")
}

// While the stay is not decided everything that hangs on it says so.
func TestUndecidedSaysIf(t *testing.T) {
	p := newPhone(t)
	p.open("start")
	p.send("/start", facts("stay", "undecided")...)
	p.at("2026-12-03T12:00:00-06:00").send("/")
	require.Contains(t, p.part("next"), "If they go home the same day: Somebody stays with Rosa")
	require.NotContains(t, p.part("next"), "leave home by 07:15", "long past")
	p.at("2026-12-04T12:00:00-06:00").send("/")
	require.Contains(t, p.part("next"), "If they stay one night: Somebody stays with Rosa")

	p = newPhone(t)
	p.open("start")
	p.send("/start", facts("stay", "undecided", "arrival", "", "drive", "", "parking", "")...)
	require.Contains(t, p.part("day-2026-12-04"), "If they stay one night Get ready to go home")
	day := p.part("day-2026-12-03")
	last := -1
	for _, row := range []string{"Wash 5 of 5", "Take the gum out", "Drive to the hospital", "Check in at the hospital", "Wait at the hospital", "Drive Rosa home the same day", "Stay with Rosa"} {
		at := strings.Index(day, row)
		require.Greater(t, at, last, "%s is out of order", row)
		last = at
	}
}
