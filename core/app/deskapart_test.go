package app

import (
	"math/rand"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/link"
	"newel/core/merge"
	"newel/core/plan"
)

// apartLink is a family's link in which two days stand against each other, the second with a time.
func apartLink(t *testing.T, nurse *phone) (family *phone) {
	t.Helper()
	nurse.send("/desk", one()...)
	old := nurse.madeLink()
	first := correctionOf(nurse, old, "surgery", "2026-12-10", "arrival", "")
	second := correctionOf(nurse, old, "surgery", "2026-12-17", "arrival", "06:15")
	family = newPhone(t)
	family.open(old)
	family.open(first)
	family.open(second)
	require.Contains(t, family.last.HTML, `"/settle"`)
	return family
}

// The family was told to ask the hospital: the desk sees that two days stand in the link, the field
// is empty, and what is put in ends the question, also where it is what was shown.
func TestTheDeskAnswersTheFamilysQuestion(t *testing.T) {
	for day, arrival := range map[string]string{"2026-12-10": "", "2026-12-17": "06:15"} {
		nurse := atDesk(t)
		family := apartLink(t, nurse)
		nurse.send("/desk/moved", "act", "read", "text", pageAddress+"#"+family.fragment)
		require.Contains(t, nurse.part("old"), "Thursday, December 10 and Thursday, December 17. Put in the right one.")
		require.Empty(t, nurse.values()["surgery"])

		nurse.send("/desk/moved", append([]string{"act", "correct"}, one("link", family.fragment, "surgery", "", "arrival", "")[2:]...)...)
		require.Equal(t, "problems", nurse.last.Focus, "nothing is settled by leaving it as it is")
		nurse.send("/desk/moved", one("link", family.fragment, "surgery", day, "arrival", arrival)...)
		require.Equal(t, "made", nurse.last.Focus, nurse.text())
		require.Contains(t, nurse.part("made-message"), "Your new date is Thursday, December "+strings.TrimPrefix(day, "2026-12-"))
		family.open(nurse.madeLink())
		require.NotContains(t, family.last.HTML, `"/settle"`)
		require.Equal(t, day, family.plan().Surgery.String())
		require.Equal(t, arrival, family.plan().Arrival.String())
	}
}

// Two arrival times, and two answers of what is chosen.
func TestTheDeskAnswersOtherQuestions(t *testing.T) {
	nurse := atDesk(t)
	nurse.send("/desk", one("arrival", "")...)
	old := nurse.madeLink()
	family := newPhone(t)
	family.open(old)
	family.send("/arrival", "arrival", "06:30")
	family.open(correctionOf(nurse, old, "arrival", "05:30", "stay", "same-day"))
	family.open(correctionOf(nurse, old, "stay", "undecided"))
	nurse.send("/desk/moved", "act", "read", "text", family.fragment)
	require.Contains(t, nurse.part("old"), "05:30 and 06:30")
	require.Contains(t, nurse.part("old"), "Left empty, the arrival is not known.")
	require.Empty(t, nurse.values()["arrival"])
	require.Contains(t, nurse.part("old"), "same day and not decided")
	require.Empty(t, nurse.values()["stay"])
	nurse.send("/desk/moved", one("link", family.fragment, "arrival", "05:30", "stay", "same-day")...)
	require.Equal(t, "made", nurse.last.Focus, nurse.text())
	require.Contains(t, nurse.part("made-message"), "Please arrive on")
	family.open(nurse.madeLink())
	require.NotContains(t, family.last.HTML, `"/settle"`)
	require.EqualValues(t, 5*60+30, family.plan().Arrival)
	require.Equal(t, plan.SameDay, family.plan().Stay)
}

// In a table the row's answer settles it, and it is asked about; a row without one says so.
func TestATableAnswersTheFamilysQuestion(t *testing.T) {
	nurse := atDesk(t)
	family := apartLink(t, nurse)
	nurse.send("/desk/rows", "act", "check", "text", "Date\tJoint\tLink\n\tknee\t"+pageAddress+"#"+family.fragment)
	require.Contains(t, nurse.part("repair"), "two answers stand in this link: Thursday, December 10 and Thursday, December 17. Ask which one is right")
	nurse.send("/desk/rows", "act", "check", "text", "Date\tJoint\tLink\n12/10/2026\tknee\t"+pageAddress+"#"+family.fragment)
	require.Contains(t, nurse.part("repair"), "The row's own answer holds now")
}

// The advice to take a shorter link is for links with a family in them, and is never an older one.
func TestWhichLinkIsShorter(t *testing.T) {
	nurse := atDesk(t)
	nurse.send("/desk", one()...)
	moved := correctionOf(nurse, nurse.madeLink(), "surgery", "2026-12-10")
	nurse.send("/desk/moved", "act", "read", "text", moved)
	require.NotContains(t, nurse.text(), "A family has added")
	family := newPhone(t)
	family.open("demo")
	nurse.send("/desk/moved", "act", "read", "text", family.fragment)
	require.Contains(t, nurse.text(), "If you have the latest link that the desk made for them, take that one")
}

// A link of another hospital says whose it is; one of a program that this page lacks says where to go.
func TestALinkOfAnotherHospital(t *testing.T) {
	nurse := atDesk(t)
	nurse.send("/desk", one()...)
	p := nurse.planOf(nurse.madeLink())
	nurse.send("/desk/moved", "act", "read", "text", nurse.madeLink())
	require.NotContains(t, nurse.part("old"), "This link is from")
	for want, program := range map[string]plan.Program{
		"This link is from Millrace Clinic.":                 {Hospital: "Millrace Clinic"},
		"This page does not know the hospital of this link.": {Number: 900},
	} {
		other := p
		other.Program, other.Lines = program, nil
		nurse.send("/desk/moved", "act", "read", "text", link.Encode(merge.New(other)))
		require.Contains(t, nurse.part("old"), want)
	}
}

// The family that lives by the paper card gets a card of the corrected link, and is told that the
// old one does not hold.
func TestACardOfTheCorrection(t *testing.T) {
	nurse := atDesk(t)
	nurse.send("/desk", one()...)
	moved := correctionOf(nurse, nurse.madeLink(), "surgery", "2026-12-10", "arrival", "06:15")
	require.Contains(t, nurse.last.Say, "The correction is made, for Thursday, December 10.")
	require.Contains(t, nurse.part("made"), "A card or a paper that you gave out before is not right any more.")
	require.Contains(t, nurse.part("made"), "Stop eating: from")
	fields := append(nurse.hidden("/desk/moved"), "act", "card")
	nurse.send("/desk/cards", fields...)
	require.Equal(t, 1, strings.Count(nurse.last.HTML, `data-qr="`), nurse.text())
	require.Contains(t, nurse.last.HTML, moved)
	require.Contains(t, nurse.text(), "December 10")
}

// A link that is as long as a link may be has no room for a correction: no message with an empty
// link is made.
func TestACorrectionWithoutRoom(t *testing.T) {
	nurse := atDesk(t)
	nurse.send("/desk", one()...)
	full := fullLink(nurse.planOf(nurse.madeLink()))
	require.Greater(t, len(full), link.MaxLength-10)
	nurse.send("/desk/moved", one("link", full, "surgery", "2026-12-17", "arrival", "06:15")...)
	require.Equal(t, "notice-full", nurse.last.Focus)
	require.Contains(t, nurse.part("notice-full"), "no room for the correction")
	require.NotContains(t, nurse.last.HTML, `id="made"`)
	require.Equal(t, "2026-12-17", nurse.values()["surgery"], "what was typed stays")
}

// fullLink is the link of a plan with lines until there is no room for a single letter.
func fullLink(p plan.Plan) string {
	r := rand.New(rand.NewSource(1))
	last := ""
	for _, n := range []int{100, 20, 3, 1} {
		for {
			q := p.WithLine(plan.Line{ID: uint32(len(p.Lines)) + 1, List: plan.Packing, Day: plan.NoDay, Text: letters(r, n)})
			fragment := link.Encode(merge.New(q))
			if fragment == "" {
				break
			}
			p, last = q, fragment
		}
	}
	return last
}

// An arrival that is known for the first time moves nothing that was there, and is no small thing.
func TestTheArrivalIsKnown(t *testing.T) {
	nurse := atDesk(t)
	nurse.send("/desk", one("arrival", "")...)
	correctionOf(nurse, nurse.madeLink(), "arrival", "06:15")
	require.Contains(t, nurse.part("made"), "The arrival time is another one. So are the times that are counted from it")
	require.Contains(t, nurse.part("made"), "not right any more")
}
