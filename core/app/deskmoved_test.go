package app

import (
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/desk"
	"newel/core/guide"
	"newel/core/link"
	"newel/core/plan"
	"newel/core/wall"
)

// correctionOf is the link with which the desk corrects another one.
func correctionOf(p *phone, old string, more ...string) string {
	p.t.Helper()
	p.send("/desk/moved", "act", "read", "text", "Your plan: "+pageAddress+"#"+old)
	require.Equal(p.t, "old", p.last.Focus, p.text())
	p.send("/desk/moved", one(append(more, "link", old)...)...)
	require.Equal(p.t, "made", p.last.Focus, p.text())
	return p.madeLink()
}

// The family put things into their copy; the surgery moves. The correction shows what moved,
// keeps what they have, flags what no longer fits, and is the same twice and in either order.
func TestSurgeryMoved(t *testing.T) {
	nurse := atDesk(t)
	nurse.send("/desk", one("arrival", "")...)
	old := nurse.madeLink()
	family := newPhone(t)
	family.open(old)
	family.send("/duty/hospital-drive/who", "name", "Dana")
	family.send("/tick", "code", "11", "n", "0", "done", "1")

	moved := correctionOf(nurse, old, "surgery", "2026-12-10", "arrival", "06:00")
	require.Contains(t, nurse.part("made"), "things move")
	require.Contains(t, nurse.part("made-moves"), "Dec 10")
	require.Contains(t, nurse.part("made-message"), "December 10")
	require.Empty(t, nurse.onDevice(), "the desk keeps nothing of it")

	family.open(moved)
	require.Equal(t, "2026-12-10", family.plan().Surgery.String())
	require.EqualValues(t, 6*60, family.plan().Arrival)
	require.True(t, family.plan().Has(plan.Tick{Code: 11}))
	require.Contains(t, family.news(), "December 10")
	once := family.fragment
	family.open(moved)
	family.open(old)
	require.Equal(t, once, family.fragment, "an old message brings the old date back for nobody")

	other := newPhone(t)
	other.open(moved)
	other.open(old)
	require.Equal(t, "2026-12-10", other.plan().Surgery.String(), "whichever comes first")
}

// Two corrections, one after the other: the later one counts, in either order.
func TestMovedTwice(t *testing.T) {
	nurse := atDesk(t)
	nurse.send("/desk", one()...)
	old := nurse.madeLink()
	first := correctionOf(nurse, old, "surgery", "2026-12-10")
	second := correctionOf(nurse, first, "surgery", "2026-12-17")
	for _, order := range [][]string{{old, first, second}, {second, first, old}, {old, second, first}} {
		family := newPhone(t)
		for _, fragment := range order {
			family.open(fragment)
		}
		require.Equal(t, "2026-12-17", family.plan().Surgery.String(), order)
		require.NotContains(t, family.last.HTML, `"/settle"`)
	}
}

// The family has put in an arrival themselves and the desk sends another one: they are asked.
func TestArrivalFromBoth(t *testing.T) {
	nurse := atDesk(t)
	nurse.send("/desk", one("arrival", "")...)
	old := nurse.madeLink()
	family := newPhone(t)
	family.open(old)
	family.send("/arrival", "arrival", "06:30")
	require.EqualValues(t, 6*60+30, family.plan().Arrival)
	family.open(correctionOf(nurse, old, "arrival", "05:30"))
	require.Contains(t, family.last.HTML, `action="/settle"`)
	require.Contains(t, family.text(), "05:30")
	require.Contains(t, family.text(), "06:30")
}

// The link of a family works as well, and all that is in it goes along.
func TestFamilysLinkIsCorrected(t *testing.T) {
	nurse := atDesk(t)
	family := newPhone(t)
	family.open("demo")
	theirs := family.fragment
	moved := correctionOf(nurse, theirs, "surgery", "2026-12-10", "fact.soap-given", "1")
	require.Contains(t, nurse.text(), "A family has added to this link")
	family.open(moved)
	p := family.plan()
	require.Equal(t, "2026-12-10", p.Surgery.String())
	require.Equal(t, []string{"Dana", "Luis", "Mina", "Tomas"}, p.Helpers)
	require.True(t, p.Facts.Has(plan.Pets), "what only the family knows stays")
}

// What cannot be corrected is said in a sentence, with what to do.
func TestLinksThatCannotBeCorrected(t *testing.T) {
	family := newPhone(t)
	family.open("demo")
	good := family.fragment
	other := newPhone(t).at("2026-11-25T09:00:00-06:00")
	other.open("start")
	other.open("demo")
	for text, want := range map[string]string{
		"":                                "Paste the link first",
		"hello there":                     "There is no link in this text",
		"https://x.example/#" + good[:40]: "cut off or changed on the way",
		"https://x.example/#" + link.EncodePart(family.plan(), "Dana"): "one helper's part only",
		"https://x.example/#" + newerOf(t, good):                       "A later version",
		"#" + good + " and #" + other.fragment:                         "different plans",
	} {
		nurse := atDesk(t)
		out := nurse.send("/desk/moved", "act", "read", "text", text)
		require.Contains(t, nurse.part("problem-paste"), want, text)
		require.Equal(t, "field-paste", out.Focus)
		require.Empty(t, nurse.onDevice())
	}
}

// Nothing was changed: nothing is sent. A slip is asked about as everywhere.
func TestNothingCorrected(t *testing.T) {
	nurse := atDesk(t)
	nurse.send("/desk", one()...)
	old := nurse.madeLink()
	nurse.send("/desk/moved", one("link", old)...)
	require.Equal(t, "notice-same", nurse.last.Focus)
	require.NotContains(t, nurse.last.HTML, `id="made"`)
	nurse.send("/desk/moved", one("link", old, "surgery", "2026-11-31")...)
	require.Contains(t, nurse.part("problems"), "is not a day of the calendar")
	require.Equal(t, "2026-11-31", nurse.values()["surgery"])
	nurse.send("/desk/moved", one("link", old, "surgery", "2026-11-03")...)
	require.Contains(t, nurse.part("problems"), "is in the past. Is that right?")
	nurse.send("/desk/moved", "made", "rubbish", "link", old)
	require.Equal(t, "/desk/moved", nurse.path)
}

// What is copied of a correction is the message for it, and the screen stays as it was.
func TestCorrectionIsHandedOver(t *testing.T) {
	nurse := atDesk(t)
	nurse.send("/desk", one("arrival", "")...)
	old := nurse.madeLink()
	moved := correctionOf(nurse, old, "arrival", "05:30")
	message := nurse.part("made-message")
	out := nurse.send("/desk/moved", "act", "copy-text", "made", moved, "link", old, "language", "en")
	require.Equal(t, message, out.Send.Text)
	require.Equal(t, moved, out.Send.Fragment)
	require.NotEqual(t, nurse.starterMessage(moved), message, "not that of a first link")
}

// starterMessage is what would be said with a link if it were the first.
func (p *phone) starterMessage(fragment string) string {
	now := p.planOf(fragment)
	return desk.Message(guide.Voice{Book: guide.Open("en"), Today: wall.DateOf(p.now)}, pageAddress+"#"+fragment, nil, &now)
}

// Two corrections of the same first link: the time of one day is never shown with the other
// without a word, and with the day the time is settled too.
func TestTheArrivalOfAnotherDay(t *testing.T) {
	nurse := atDesk(t)
	nurse.send("/desk", one()...)
	old := nurse.madeLink()
	first := correctionOf(nurse, old, "surgery", "2026-12-10", "arrival", "")
	second := correctionOf(nurse, old, "surgery", "2026-12-17", "arrival", "06:15")
	for _, order := range [][]string{{first, second}, {second, first}} {
		for answer, arrival := range map[string]string{"December 10": "", "December 17": "06:15"} {
			family := newPhone(t)
			family.open(old)
			family.open(order[0])
			family.send("/read")
			family.open(order[1])
			require.Equal(t, "2026-12-10", family.plan().Surgery.String())
			require.False(t, family.plan().Arrival.Known(), "no last time for food or drink is counted from the time of another day")
			require.Contains(t, family.part("notice-question-1"), "The arrival time goes with the day: 06:15 for Thursday, December 17. Until this is settled, the plan shows no arrival time.")
			family.answer(answer)
			require.Equal(t, arrival, family.plan().Arrival.String())
			require.NotContains(t, family.last.HTML, `"/settle"`)
		}
	}
}

// A time that was there before anybody moved the day, and that nobody gave a day for, is asked about.
func TestTheArrivalOfNeitherDay(t *testing.T) {
	nurse := atDesk(t)
	nurse.send("/desk", one()...)
	old := nurse.madeLink()
	family := newPhone(t)
	family.open(correctionOf(nurse, old, "surgery", "2026-12-10"))
	family.open(correctionOf(nurse, old, "surgery", "2026-12-17"))
	require.Contains(t, family.part("notice-question-1"), "Ask the hospital too whether the arrival time 05:30 holds for that day.")
	require.EqualValues(t, 5*60+30, family.plan().Arrival)
}
