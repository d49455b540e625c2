package app

import (
	"html"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/schedule"
)

// withHelpers is a plan with therapy three times a week and three helpers: Dana has the rides
// and works on Wednesdays until 11, Luis does not drive, Ann can do everything.
func withHelpers(t *testing.T) *phone {
	p := withTherapy(t)
	p.send("/helper/1", helper("of", "Dana", "when", "work", "a-day-3", "1", "a-from", "06:00", "a-to", "11:00")...)
	p.send("/helper/new", helper("name", "Luis", "can-drive", "", "can-night", "1")...)
	p.send("/helper/new", helper("name", "Ann", "can-night", "1")...)
	require.Equal(t, []string{"Dana", "Luis", "Ann"}, p.plan().Helpers)
	return p
}

// The two sentences that the issue gives as examples, and abilities.
func TestWhatClashesIsSaidWithItsReason(t *testing.T) {
	p := withHelpers(t)
	p.send("/split")
	require.Contains(t, p.part("clash"), "Ride to therapy Mondays, Wednesdays and Fridays at 10:30")
	require.Contains(t, p.part("clash"), "Wed, Dec 9, 10:30 Dana is at work until 11:00.")
	require.NotContains(t, p.part("clash"), "Fri, Dec 11")
	p.send("/duty/1/date", "act", "give", "day", "2026-12-11", "who", "Luis")
	p.send("/split")
	require.Contains(t, p.part("clash"), "Fri, Dec 11, 10:30 It needs someone who drives.")
	p.send("/duty/1")
	require.Contains(t, p.part("all-dates"), "Wed, Dec 9, 10:30 Dana Dana is at work until 11:00.")
	p.send("/duty/new/visit", therapy("first", "2026-12-14", "often", "once", "at", "11:30", "who", "Dana")...)
	p.send("/split")
	require.Contains(t, p.part("clash"), "Dana would still be driving back from therapy until 12:00.")
	require.Contains(t, p.part("gaps"), "Time with Rosa that nobody has taken")
}

func TestASplitIsSuggestedAndAccepted(t *testing.T) {
	p := withHelpers(t)
	p.send("/split/suggest")
	require.Equal(t, "/split/suggest", p.path)
	require.Contains(t, p.text(), "Nothing changes until you accept it.")
	require.Contains(t, p.text(), "Ann instead of Dana, 6 dates", "the Wednesdays from 9 December to 13 January")
	before := p.fragment
	digest := p.digest()

	// Some of it: one date less.
	first := p.box("Wed, Dec 9, 10:30")
	p.send("/split/accept", p.boxes(digest, first)...)
	require.Equal(t, "/split", p.path)
	require.Contains(t, p.last.Say, "have somebody now")
	require.Equal(t, "notice-filled", p.last.Focus)
	d := p.plan().Duties[0]
	require.Equal(t, "Dana", helperAt(p, d.WhoHas(p.date("2026-12-09"))))
	require.Equal(t, "Ann", helperAt(p, d.WhoHas(p.date("2026-12-16"))))
	require.Equal(t, "Dana", helperAt(p, d.WhoHas(p.date("2026-12-18"))))

	// Undone as one change, and then all of it.
	p.send("/split/undo", "from", "split")
	require.Equal(t, p.planOf(before), p.plan())
	require.Equal(t, "Undone. It is as it was before.", p.last.Say)
	p.send("/split/accept", "digest", digest, "act", "all")
	d = p.plan().Duties[0]
	require.Equal(t, "Ann", helperAt(p, d.WhoHas(p.date("2026-12-09"))))
	require.NotContains(t, p.text(), "Clashes")
	p.send("/split/suggest")
	require.NotContains(t, p.text(), "Accept ", "there is nothing left that anybody could do better")
}

// The plan was changed in between: what is shown is not what would be accepted.
func TestAnOldSuggestionIsNotAccepted(t *testing.T) {
	p := withHelpers(t)
	p.send("/split/suggest")
	digest := p.digest()
	p.send("/duty/1/date", "act", "give", "day", "2026-12-09", "who", "Ann")
	before := p.fragment
	p.send("/split/accept", "digest", digest, "act", "all")
	require.Equal(t, "/split/suggest", p.path)
	require.Equal(t, "notice-changed", p.last.Focus)
	require.Contains(t, p.text(), "The plan has changed meanwhile.")
	require.Equal(t, before, p.fragment)
	p.send("/split/accept", "digest", p.digest(), "act", "all")
	require.Equal(t, "/split", p.path)
}

// One tap after somebody dropped out, and the way back.
func TestADropOutIsRepairedInOneTap(t *testing.T) {
	p := withHelpers(t)
	p.send("/split/fill", "from", "")
	require.Equal(t, "/", p.path)
	whole := p.plan()
	p.send("/split/fine", "from", "")
	require.Empty(t, p.part("notice-filled"))

	p.send("/helper/1/out", "of", "Dana")
	require.Equal(t, "/split", p.path)
	require.Regexp(t, `^Dana can no longer help: \d+ dates need somebody\.$`, p.last.Say)
	require.Equal(t, p.last.Say, strings.TrimSuffix(p.part("notice-open"), " Let Newel fill these Dana can help again"))
	p.send("/")
	require.Contains(t, p.part("notice-open"), "Dana can no longer help")
	out := p.plan()
	p.send("/split/fill", "from", "")
	require.Regexp(t, `^13 dates have somebody now\. Down for it now: (Luis \d+, )?Ann \d+\. Nobody has asked them yet: send them the plan\.`, p.part("notice-filled"))
	require.Empty(t, p.part("notice-open"))
	q := p.plan()
	for i := range q.Duties {
		require.False(t, q.Duties[i].Has(1) && !q.Duties[i].Shared(), "Dana has nothing by herself")
	}
	p.send("/")
	require.Contains(t, p.part("notice-filled"), "Undo", "it stays until something else is changed")
	p.send("/split/undo", "from", "")
	require.Equal(t, out, p.plan())
	p.send("/helper/1/back", "of", "Dana")
	require.Equal(t, whole, p.plan())
	p.send("/split/undo", "from", "")
	require.Contains(t, p.last.Say, "cannot be undone in one go")
	require.Equal(t, whole, p.plan())
}

// What Luis took on his own phone stays his, whatever is shared out anew.
func TestWhatWasTakenOnesOwnPhoneStays(t *testing.T) {
	p := withHelpers(t)
	p.send("/helper/2", helper("of", "Luis", "can-night", "1", "rather-ride", "no")...) // now he drives, and would rather not
	luis := p.opened().is("Luis")
	luis.send("/duty/1/date", "act", "give", "day", "2026-12-11", "who", "Luis")
	held := func(p *phone, day string) bool {
		s := wholeSession(Request{Kept: p.kept})
		s.doc = p.doc()
		sched, err := schedule.Build(p.plan())
		require.NoError(t, err)
		for i := range sched.Duties {
			if d := &sched.Duties[i]; d.Family != nil && d.On.Of == p.date(day) {
				return s.held(sched)(i)
			}
		}
		return false
	}
	require.True(t, held(luis, "2026-12-11"))
	require.False(t, held(luis, "2026-12-14"), "Dana has it, and did not say so on a phone of hers")
	p.send("/duty/1/date", "act", "give", "day", "2026-12-11", "who", "Luis")
	require.False(t, held(p, "2026-12-11"), "somebody else gave it to him")

	luis.send("/split/anew")
	require.NotContains(t, luis.text(), "Fri, Dec 11")
	require.Contains(t, luis.text(), "Everything shared out anew")
	luis.send("/split/accept", "digest", luis.digest(), "anew", "1", "act", "all")
	require.Equal(t, "/split", luis.path)
	d := luis.plan().Duties[0]
	require.Equal(t, "Luis", helperAt(luis, d.WhoHas(luis.date("2026-12-11"))))
}

// A helper who says whose phone it is sees their part first.
func TestThePageLeadsWithOnesPart(t *testing.T) {
	p := withHelpers(t)
	ann := p.opened()
	require.Contains(t, ann.part("notice-you"), "Who are you? Then the page begins with your part. Dana Luis Ann Somebody else")
	require.Empty(t, ann.part("mine"))
	ann.send("/me", "who", "3")
	require.Empty(t, ann.part("notice-you"))
	require.Contains(t, ann.part("mine"), "Your part, Ann You have nothing to do so far.")
	require.NotContains(t, ann.part("mine"), "When can you help?", "it is known")
	ann.send("/duty/1/date", "act", "give", "day", "2026-12-09", "who", "Ann")
	ann.send("/")
	require.Contains(t, ann.part("mine"), "Wednesday, December 9 Leave home by 09:35 Ride to therapy")
	require.Contains(t, ann.part("mine"), "1 date · ")

	// What is next is whoever drives there: for them it stands first, for the others after
	// what is theirs.
	first := func(p *phone) bool {
		mine, next := strings.Index(p.last.HTML, `id="mine"`), strings.Index(p.last.HTML, `id="next"`)
		require.Positive(t, min(mine, next))
		return mine < next
	}
	require.Contains(t, ann.part("next"), "Drive")
	require.False(t, first(ann), "nobody has the drive")
	ann.send("/who/drive-there", "who", "Dana")
	require.True(t, first(ann))
	dana := ann.opened()
	dana.send("/me", "who", "1")
	require.False(t, first(dana))

	other := p.opened()
	other.send("/me", "who", "none")
	require.Empty(t, other.part("notice-you"), "asked once")
	tom := p.opened().is("Tom")
	require.Contains(t, tom.part("mine"), "When can you help?")
	tom.send("/helper/4", helper("of", "Tom")...)
	require.Equal(t, "/", tom.path, "back to their part")
	require.NotContains(t, tom.part("mine"), "When can you help?")
}

// The surgery moves by a week: what was kept and what has nobody any more is said at once.
func TestAMovedSurgerySaysWhatIsUncovered(t *testing.T) {
	p := withHelpers(t)
	p.send("/split/fill", "from", "")
	p.send("/helper/3", helper("of", "Ann", "can-night", "1", "gone-a-from", "2026-12-10", "gone-a-to", "2026-12-13")...)
	p.send("/read")
	p.send("/facts", facts("surgery", "2026-12-10")...)
	require.Contains(t, p.news(), "Has nobody now who can: ")
	require.Contains(t, p.news(), "with who had")
}

// digest is the mark of the suggestion on the page.
func (p *phone) digest() string {
	p.t.Helper()
	value, _, ok := cutAround(p.last.HTML, `name="digest" value="`, `"`)
	require.True(p.t, ok, p.text())
	return value
}

// box is the name of the box of a date.
func (p *phone) box(when string) string {
	p.t.Helper()
	for _, line := range strings.Split(p.last.HTML, "<li>")[1:] {
		name, _, ok := cutAround(line, `name="`, `"`)
		if text, _, _ := strings.Cut(line, "</li>"); ok && strings.Contains(html.UnescapeString(text), when) {
			return name
		}
	}
	require.Fail(p.t, "no box for "+when, p.text())
	return ""
}

// boxes are the ticked boxes of the suggestion on the page, without one.
func (p *phone) boxes(digest, without string) []string {
	fields := []string{"digest", digest, "act", "ticked"}
	for _, part := range strings.Split(p.last.HTML, `type="checkbox" name="`)[1:] {
		if name, _, _ := strings.Cut(part, `"`); name != without {
			fields = append(fields, name, "1")
		}
	}
	return fields
}

// cutAround gives what stands in a text between two others, and what comes after.
func cutAround(text, before, after string) (value, rest string, ok bool) {
	_, text, ok = strings.Cut(text, before)
	if !ok {
		return "", "", false
	}
	return strings.Cut(text, after)
}

// Every week of the plan can be looked at; the screen says which it shows, and a language that is
// chosen there comes back to it.
func TestTheWeeksOfAPlan(t *testing.T) {
	p := withHelpers(t)
	p.send("/split/from/1")
	require.Equal(t, "/split/from/1", p.path)
	require.Equal(t, "weeks", p.last.Focus)
	require.Regexp(t, `^\w+, \w+ \d+ – .+ somebody`, p.last.Say)
	require.True(t, p.last.Push)
	require.Contains(t, p.last.HTML, `data-path="/split"`)
	p.send("/split/from/250")
	require.NotContains(t, p.last.HTML, `data-path="/split/from/251"`)
	for _, none := range []string{"/split/from/", "/split/from/0", "/split/from/x", "/split/from/999999"} {
		p.send(none)
		require.Equal(t, "/split", p.path, none)
	}
	require.True(t, shows("/split/from/1"))
	require.False(t, shows("/split/from/1/2"))
	require.False(t, shows("/split/undo/1"))
}
