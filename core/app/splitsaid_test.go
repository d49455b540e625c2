package app

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// The wording is ours: common practice, no published source.

// Nobody reads of themselves what somebody else should be doing.
func TestWhoShouldBeOnTheWayIsNamed(t *testing.T) {
	p := withTherapy(t)
	p.send("/helper/new", helper("name", "Luis", "can-drive", "1")...)
	p.at("2026-12-09T09:40:00-06:00").send("/")
	require.Contains(t, p.part("next"), "You should be on your way", "nobody has said whose phone it is")
	luis := p.opened().is("Luis").at("2026-12-09T09:40:00-06:00")
	luis.send("/")
	require.Contains(t, luis.part("next"), "Dana should be on the way")
	require.NotContains(t, luis.part("next"), "You should be")
	luis.at("2026-12-09T10:25:00-06:00").send("/")
	require.Contains(t, luis.part("next"), "Dana should be there by now.")
	dana := p.opened().is("Dana").at("2026-12-09T09:40:00-06:00")
	dana.send("/")
	require.Contains(t, dana.part("next"), "You should be on your way")
}

// "Accept what is ticked" with nothing ticked changes nothing, and says so; nobody is said to
// be unable.
func TestNothingTicked(t *testing.T) {
	p := withHelpers(t)
	p.send("/split/suggest")
	before := p.fragment
	p.send("/split/accept", "digest", p.digest(), "act", "ticked")
	require.Equal(t, "/split/suggest", p.path)
	require.Equal(t, before, p.fragment)
	require.Equal(t, "Nothing was ticked, so nothing changed.", p.part("notice-changed"))
	require.Equal(t, p.last.Say, p.part("notice-changed"))
	require.Equal(t, "notice-changed", p.last.Focus)
	require.NotContains(t, p.text(), "Nobody on the list")
	require.Contains(t, p.text(), "Accept all")
}

// Who would have more than they offered is named above the suggestion, with the sum where no
// split can help.
func TestASuggestionSaysWhoWouldHaveMoreThanTheyOffered(t *testing.T) {
	p := demoPhone(t)
	p.send("/split/suggest")
	require.NotRegexp(t, `would have [\d½]+ hours, and offered`, p.text(), "the example needs no more than was offered")
	for _, out := range []string{"2 Luis", "3 Mina", "4 Tomas"} {
		place, name, _ := strings.Cut(out, " ")
		p.send("/helper/"+place+"/out", "of", name)
	}
	p.send("/split/suggest")
	require.Regexp(t, `Dana would have [\d½]+ hours, and offered [\d½]+ in \d+ weeks\. Together [\d½]+ hours were offered, and [\d½]+ are shared out\.`, p.text())
	require.Less(t, strings.Index(p.text(), "Dana would have"), strings.Index(p.text(), "What is suggested"))
}

// A surgery that is moved says first what nobody can do any more, on which day.
func TestWhatIsLostStandsFirst(t *testing.T) {
	p := withHelpers(t)
	p.send("/split/fill", "from", "")
	p.send("/helper/3", helper("of", "Ann", "can-night", "1", "gone-a-from", "2026-12-10", "gone-a-to", "2026-12-13")...)
	p.send("/read")
	p.send("/facts", facts("surgery", "2026-12-10")...)
	require.Regexp(t, `^Has nobody now who can: .*\(\w{3}, Dec 1\d`, p.news())
	require.Less(t, strings.Index(p.news(), "Has nobody"), strings.Index(p.news(), "Surgery moved"))
}

// Before anybody helps, the page asks for them, first, and says of nothing that it is uncovered.
func TestAPlanWithoutHelpersAsksForThem(t *testing.T) {
	p := started(t)
	require.Contains(t, p.part("who-helps"), "Add the people who help, and this says what is covered.")
	require.NotContains(t, p.part("who-helps"), "Nobody has taken")
	p.send("/split")
	require.Empty(t, p.part("loads"), "no heading over nothing")
	require.Equal(t, 1, strings.Count(p.last.HTML, `data-path="/helper/new"`))
	require.Less(t, strings.Index(p.last.HTML, `data-path="/helper/new"`), strings.Index(p.last.HTML, `id="open"`))
}

// WCAG 2.2, 2.4.6 and 1.3.1: each suggestion can be jumped to by its heading.
func TestEachSuggestionHasAHeading(t *testing.T) {
	p := demoPhone(t)
	p.send("/split/suggest")
	form, _, ok := cutAround(p.last.HTML, `<form class="suggest"`, "</form>")
	require.True(t, ok)
	groups := len(regexp.MustCompile(`id="box-g\d+"`).FindAllString(form, -1))
	require.Greater(t, groups, 3)
	require.Equal(t, groups, strings.Count(form, "<h3"))
}

// A fill that could give nobody anything takes nothing from anybody either, and says so.
func TestAFillThatGivesNothingTakesNothing(t *testing.T) {
	p := started(t)
	p.send("/helper/new", helper("name", "Dana", "can-drive", "", "can-night", "1", "can-pets", "1")...)
	p.send("/duty/new/pets", "first", "2026-12-20", "at", "10:30", "length", "60", "who", "Dana", "often", "once", "title", "Feed the cat")
	p.send("/duty/new/therapy", therapy("first", "2026-12-20", "often", "once", "at", "10:30", "who", "Dana")...)
	for _, w := range []string{"drive-there", "wait", "drive-home-morning", "stay-with"} {
		p.send("/who/"+w, "who", "Dana")
	}
	before := p.plan()
	p.send("/split/fill", "from", "split")
	require.Equal(t, before, p.plan())
	require.Contains(t, p.part("notice-filled"), "Nobody on the list can take")
}
