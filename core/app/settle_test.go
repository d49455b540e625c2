package app

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// danaAndLuis are Dana's and Luis's phones with one plan, which was made on a third.
func danaAndLuis(t *testing.T) (dana, luis *phone) {
	t.Helper()
	nurse := withTherapy(t)
	dana, luis = nurse.opened().is("Dana"), nurse.opened().is("Luis")
	exchange(dana, luis)
	dana.send("/read")
	luis.send("/read")
	return dana, luis
}

// question is what the page asks, "" for nothing.
func (p *phone) question() string { return p.part("question-1") + p.part("notice-question-1") }

// Two people put in two days: both phones ask the same, show the earlier day, and one
// answer settles it for both.
func TestTwoSurgeryDays(t *testing.T) {
	dana, luis := danaAndLuis(t)
	dana.send("/facts", facts("surgery", "2026-12-10")...)
	luis.send("/facts", facts("surgery", "2026-12-08")...)
	fromDana, fromLuis := dana.fragment, luis.fragment
	dana.open(fromLuis)
	luis.open(fromDana)
	require.Contains(t, dana.question(), "When is the surgery? ")
	require.Contains(t, dana.question(), "Luis says Tuesday, December 8")
	require.Contains(t, strings.ToLower(dana.question()), "you say thursday, december 10")
	require.Contains(t, luis.question(), "Dana says Thursday, December 10")
	for _, p := range []*phone{dana, luis} {
		require.Contains(t, p.question(), "Until this is settled, the plan goes by the earlier day.")
		require.Equal(t, "2026-12-08", p.plan().Surgery.String())
	}
	out := dana.answer("Thursday, December 10")
	require.Equal(t, "Settled: Date of surgery: Thursday, December 10.", out.Say)
	require.Empty(t, dana.question())
	require.Equal(t, "2026-12-10", dana.plan().Surgery.String())
	require.Greater(t, dana.plan().Revision, luis.plan().Revision, "calendars have to be told (RFC 5546 2.1.4)")
	luis.open(dana.fragment)
	require.Empty(t, luis.question())
	require.Contains(t, luis.news(), "Surgery moved from Thursday, December 3 to Thursday, December 10 (changed by Dana)")
	require.Equal(t, dana.fragment, luis.fragment)
	dana.open(fromLuis)
	require.Empty(t, dana.question(), "an old message does not ask again")
}

// Answering with the value that is shown already settles it too.
func TestTheShownValueIsAnAnswer(t *testing.T) {
	dana, luis := danaAndLuis(t)
	dana.send("/arrival", "arrival", "06:00")
	luis.send("/arrival", "arrival", "06:30")
	exchange(dana, luis)
	require.Contains(t, luis.question(), "the plan goes by the earlier time")
	require.EqualValues(t, 6*60, luis.plan().Arrival)
	before := luis.plan()
	luis.answer("06:00")
	require.Empty(t, luis.question())
	require.Equal(t, before, luis.plan(), "nothing else changes, and no calendar is told of anything")
	dana.open(luis.fragment)
	require.Empty(t, dana.question())
}

func TestBothTookIt(t *testing.T) {
	dana, luis := danaAndLuis(t)
	dana.send("/who/drive-there", "who", "Dana")
	luis.send("/who/drive-there", "who", "Luis")
	exchange(dana, luis)
	require.Contains(t, dana.question(), "both took Drive to the hospital. Who does it?")
	dana.answer("Luis")
	exchange(dana, luis)
	for _, p := range []*phone{dana, luis} {
		require.Empty(t, p.question())
		require.Equal(t, "Luis", helperOf(p.plan(), 0))
	}
}

// One takes a duty out while the other changes it: the change survives and says so.
func TestTakenOutAndChanged(t *testing.T) {
	for _, c := range []struct {
		answer string
		gone   bool
	}{{"Take it out", true}, {"Leave it in the plan", false}} {
		dana, luis := danaAndLuis(t)
		luis.send("/duty/1/drop")
		dana.send("/duty/1/change", therapy("note", "the blue sheet")...)
		exchange(dana, luis)
		require.Contains(t, dana.question(), "Luis took this out while you changed it: Ride to therapy. It stays in the plan until this is settled.")
		require.Contains(t, luis.question(), "You took this out while Dana changed it")
		require.False(t, luis.plan().Duties[0].Dropped)
		require.Equal(t, "the blue sheet", luis.plan().Duties[0].Note)
		was := luis.plan().Duties[0].Revision
		luis.answer(c.answer)
		exchange(dana, luis)
		for _, p := range []*phone{dana, luis} {
			require.Empty(t, p.question())
			require.Equal(t, c.gone, p.plan().Duties[0].Dropped)
		}
		require.Equal(t, c.gone, luis.plan().Duties[0].Revision > was)
	}
}

// Three values, and more questions than are shown at once.
func TestManyQuestions(t *testing.T) {
	dana, luis := danaAndLuis(t)
	ann := dana.opened().is("Ann")
	for i, p := range []*phone{dana, luis, ann} {
		n := string(rune('1' + i))
		p.send("/facts", facts("arrival", "06:0"+n, "patient", "Rosa "+n, "drive", "5"+n, "parking", "1"+n, "phone", "555-010"+n, "hospital", "Hospital "+n)...)
	}
	exchange(dana, luis, ann)
	require.Equal(t, 18, strings.Count(dana.last.HTML, `action="/settle"`), "six questions with three answers each")
	require.Contains(t, dana.part("more-asked"), "2 more questions")
	for _, n := range []string{"06:01", "06:02", "06:03"} {
		require.Contains(t, dana.question(), n)
	}
	for strings.Contains(dana.last.HTML, `"/settle"`) {
		changes[len(changes)-1].do(dana)
	}
	exchange(dana, luis, ann)
	require.Equal(t, dana.screen(), ann.screen())
	require.Equal(t, dana.screen(), luis.screen())
}

// What is sent to /settle is an answer to a question of the page or changes nothing.
func TestOnlyWhatIsAskedCanBeAnswered(t *testing.T) {
	dana, luis := danaAndLuis(t)
	dana.send("/arrival", "arrival", "06:00")
	luis.send("/arrival", "arrival", "06:30")
	exchange(dana, luis)
	before := dana.fragment
	for _, try := range [][2]string{{"", ""}, {"2/0/0/", ""}, {"2/0/0/", "999"}, {"1/0/0/", "20000"}, {"3/0/0/", "x"}, {"2/0/0", "360"}, {"99/1/1/x", "1"}} {
		out := dana.send("/settle", "key", try[0], "value", try[1])
		require.Equal(t, before, dana.fragment, try)
		require.Equal(t, "This has been settled already.", out.Say)
	}
	dana.send("/settle", "key", "2/0/0/", "value", "390")
	require.EqualValues(t, 390, dana.plan().Arrival)
	dana.send("/settle", "key", "2/0/0/", "value", "360")
	require.EqualValues(t, 390, dana.plan().Arrival, "it is settled")
}

// Two people turn a range of the hospital's rules, each by a sound change: the page says so.
func TestATurnedRange(t *testing.T) {
	dana, luis := danaAndLuis(t)
	dana.send("/facts", facts("rule.first-min", "110", "rule.first-max", "120")...)
	luis.send("/facts", facts("rule.first-min", "30", "rule.first-max", "60")...)
	exchange(dana, luis)
	dana.answer("110 minutes")
	dana.answer("60 minutes")
	require.Contains(t, dana.part("notice-ranges"), "the least is more than the most")
	dana.send("/facts")
	require.Equal(t, "110", dana.values()["rule.first-min"])
}

// While it is open who has a duty, no name stands alone where somebody could take it for an
// agreement: not in the head, the days, the list or on the duty's own page.
func TestNobodyIsNamedAloneWhileItIsOpen(t *testing.T) {
	const both = "Luis or Dana: not settled yet"
	dana, luis := danaAndLuis(t)
	for p, who := range map[*phone]string{dana: "Dana", luis: "Luis"} {
		p.send("/who/drive-there", "who", who)
		p.send("/duty/1/days", "on-1", "", "on-3", who, "on-5", "")
	}
	luis.open(dana.fragment)
	require.Contains(t, luis.part("next"), both)
	require.Contains(t, luis.part("day-2026-12-03"), "Drive to the hospital Be there 05:30 "+both)
	require.Contains(t, luis.part("family"), "It is not settled yet who has some of these dates.")
	require.Contains(t, luis.part("family"), "Next: Wednesday, December 9, 10:30: "+both)
	require.NotContains(t, luis.part("wait"), both)
	luis.send("/duty/1")
	require.Contains(t, luis.part("all-dates"), "Wed, Dec 9, 10:30 "+both+" Fri, Dec 11, 10:30 Dana Mon, Dec 14, 10:30 Dana")
	require.Contains(t, luis.text(), "It is not settled yet who has some of these dates.")
	luis.send("/duty/1/date", "act", "give", "day", "2026-12-16", "who", "Ann")
	luis.send("/duty/1")
	require.Contains(t, luis.part("all-dates"), "Wed, Dec 16, 10:30 Ann", "what was said of one date holds")
	luis.send("/")
	luis.answer("Luis")
	luis.answer("Luis")
	require.NotContains(t, luis.text(), "not settled")
}

func TestAWholeDutyThatTwoTook(t *testing.T) {
	dana, luis := danaAndLuis(t)
	dana.send("/duty/1/change", therapy("who", "Ann")...)
	luis.send("/duty/1/change", therapy("who", "Luis")...)
	dana.open(luis.fragment)
	require.Contains(t, dana.part("family"), "Ride to therapy Luis or Ann: not settled yet")
	require.NotContains(t, dana.part("family"), "some of these dates")
	dana.send("/duty/1")
	require.Contains(t, dana.part("main"), "Luis or Ann: not settled yet")
	require.NotContains(t, dana.text(), "has this")
}

// Who looks at a drive to take it reads when one leaves, not only when one is there.
func TestWhoPagesSayWhenOneLeaves(t *testing.T) {
	p := started(t)
	head := func(path string) string {
		out := p.send(path)
		return textOf(t, out.HTML, "")
	}
	require.Contains(t, p.part("next"), "Leave home by 04:15")
	require.Contains(t, head("/who/drive-there"), "Thursday, December 3: leave home by 04:15, be there 05:30")
	require.Contains(t, head("/who/wait"), "Thursday, December 3, 05:30")
	require.NotContains(t, p.text(), "leave home by")
	p.send("/")
	morning := p.part("day-2026-12-04")
	leave, found := cut(morning+"<", "Leave home by ")
	require.True(t, found)
	require.Contains(t, head("/who/drive-home-morning"), "leave home by "+strings.Fields(leave)[0])
	p.send("/facts", facts("drive", "300")...)
	require.Contains(t, head("/who/drive-there"), "Wednesday, December 2: leave home by 22:50, be there Thu, Dec 3, 05:30")
}
