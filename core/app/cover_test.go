package app

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
)

// What these tests hold is arithmetic and order on the screen; the wording is ours: common
// practice, no published source.

// demoPhone has the example open.
func demoPhone(t *testing.T) *phone {
	p := newPhone(t)
	p.open("demo")
	require.Equal(t, "Rosa", p.plan().Patient)
	return p
}

// counted reads the numbers of a sentence of cover.
func counted(t *testing.T, text string) (covered, all, open, cannot int) {
	t.Helper()
	found := regexp.MustCompile(`(\d+) of (\d+) dates (?:is|are) covered\.(?: (\d+) needs? somebody\.)?(?: (\d+) (?:has|have) somebody who cannot\.)?`).FindStringSubmatch(text)
	require.NotNil(t, found, text)
	n := func(i int) int { k, _ := strconv.Atoi(found[i]); return k }
	return n(1), n(2), n(3), n(4)
}

// The numbers add up, and the two pages and the notices say the same ones, before and after
// somebody drops out, and when the rest was filled in.
func TestTheNumbersOfCoverAddUp(t *testing.T) {
	p := demoPhone(t)
	look := func(when string) {
		p.send("/")
		covered, all, open, cannot := counted(t, p.part("who-helps"))
		require.Equal(t, all, covered+open+cannot, when)
		front := p.part("who-helps")
		said := p.part("notice-open") + p.part("notice-filled")
		if open > 0 {
			require.Regexp(t, fmt.Sprintf(`\b%d dates?( still)? needs? somebody`, open), said, when)
		}
		if cannot > 0 {
			require.Regexp(t, fmt.Sprintf(`\b%d (dates? )?ha(s|ve) somebody who cannot`, cannot), said, when)
		}
		p.send("/split")
		a, b, c, d := counted(t, p.text())
		require.Equal(t, []int{covered, all, open, cannot}, []int{a, b, c, d}, "%s: %s", when, front)
		require.Equal(t, open, strings.Count(p.last.HTML[strings.Index(p.last.HTML, `id="open"`):], `class="when-of"`)-cannot, when)
	}
	look("at first")
	p.send("/helper/2/out", "of", "Luis")
	_, _, _, cannot := counted(t, p.text())
	require.Less(t, cannot, 4, "his dates need somebody; they do not clash")
	look("Luis is out")
	p.send("/split/fill", "from", "")
	look("filled")
}

// What is next stands before what can wait: the notice of what is open, that of what was
// filled in, and, from the day before surgery on, the question whose phone it is.
func TestWhatIsNextStandsBeforeWhatCanWait(t *testing.T) {
	p := withHelpers(t)
	before := func(first, then string) {
		t.Helper()
		i, j := strings.Index(p.last.HTML, `id="`+first+`"`), strings.Index(p.last.HTML, `id="`+then+`"`)
		require.Positive(t, i, first)
		require.Greater(t, j, i, then)
	}
	p.send("/")
	before("next", "notice-open")
	p.send("/split/fill", "from", "")
	before("next", "notice-filled")
	require.Equal(t, "notice-filled", p.last.Focus)
	p.send("/helper/1/out", "of", "Dana")
	ann := p.opened()
	p.last = ann.last
	before("notice-you", "next")
	before("next", "notice-open")
	before("notice-open", "actions")
	ann.now = time.Date(2026, 12, 2, 18, 0, 0, 0, time.UTC) // the day before
	ann.open(p.fragment)
	p.last = ann.last
	before("next", "notice-you")
	before("notice-you", "notice-open")
}

// Whoever is asked for more than they offered is named with both numbers: a load is the minutes
// of Report.Loads, and the offer 3, 6 or 12 hours a week (plan.OfferHours).
func TestFillingSaysWhoHasMoreThanTheyOffered(t *testing.T) {
	p := demoPhone(t)
	for _, out := range []string{"2 Luis", "3 Mina", "4 Tomas"} {
		place, name, _ := strings.Cut(out, " ")
		p.send("/helper/"+place+"/out", "of", name)
	}
	p.send("/split/fill", "from", "")
	said := p.part("notice-filled")
	require.Regexp(t, `dates have somebody now\. Down for it now: Dana \d+\. Nobody has asked them yet: send them the plan\.`, said)
	more := regexp.MustCompile(`With that Dana has (\d+)½? hours, and offered (\d+)½? in (\d+) weeks\.`).FindStringSubmatch(said)
	require.NotNil(t, more, said)
	n := func(i int) int { k, _ := strconv.Atoi(more[i]); return k }
	require.Greater(t, n(1), n(2))
	require.InDelta(t, plan.OfferHours[plan.Usual]*n(3), n(2), 6, "usual is so many hours a week, and the weeks are whole ones")
	p.send("/split")
	require.Contains(t, p.part("loads"), fmt.Sprintf("of %d hours in %d weeks", n(2), n(3)))
}

// A slip is taken back where it is said, on either page.
func TestOutIsTakenBackWhereItIsSaid(t *testing.T) {
	for _, from := range []string{"plan", "split"} {
		p := withHelpers(t)
		whole := p.plan()
		p.send("/helper/1/out", "of", "Dana")
		if from == "plan" {
			p.send("/")
		}
		require.Contains(t, p.last.HTML, `action="/helper/1/back"`)
		require.Contains(t, p.part("notice-open"), "Dana can help again")
		p.send("/helper/1/back", "of", "Dana", "from", from)
		require.Equal(t, whole, p.plan())
		require.Equal(t, "Dana can help again.", p.last.Say)
		require.Equal(t, map[string]string{"plan": "/", "split": "/split"}[from], p.path)
	}
	p := withTherapy(t) // nobody is left who could be given anything
	p.send("/helper/1/out", "of", "Dana")
	require.Contains(t, p.part("notice-open"), "Dana can help again")
	require.NotContains(t, p.last.HTML, `action="/split/fill"`)
}

// A helper sees all that is theirs, and how much of it they cannot do: in the example Luis is at
// work when the visit after two weeks is.
func TestAllOfOnesPartCanBeSeen(t *testing.T) {
	p := demoPhone(t)
	p.send("/me", "who", "2")
	p.send("/")
	mine := p.part("mine")
	found := regexp.MustCompile(`(\d+) more`).FindStringSubmatch(mine)
	require.NotNil(t, found, mine)
	rest := p.part("mine-more")
	lines, _, ok := cutAround(p.last.HTML, `id="mine-more"`, "</details>")
	require.True(t, ok)
	require.Equal(t, found[1], strconv.Itoa(strings.Count(lines, "<li>")), rest)
	require.Contains(t, rest, "Visit after two weeks")
	require.Regexp(t, `Luis is at work`, rest)
	require.Regexp(t, `You cannot do \d+ of these as things stand\.`, mine)
	p.send("/helper/2/out", "of", "Luis")
	p.send("/")
	require.NotContains(t, p.part("mine"), "You cannot do", "it says that he can no longer help")
}

// No button promises what it cannot do: where nobody on the list can take what is open there is
// the way to what would help, until it is closed.
func TestNoButtonWhereNothingCanBeFilled(t *testing.T) {
	p := withTherapy(t)
	p.send("/helper/1", helper("of", "Dana", "when", "only", "a-day-0", "1", "a-from", "20:00", "a-to", "21:00")...)
	p.send("/")
	require.NotContains(t, p.last.HTML, `action="/split/fill"`)
	require.Contains(t, p.part("notice-open"), "Close See what would help")
	require.Regexp(t, `data-path="/split/suggest">See what would help`, p.last.HTML)
	p.send("/split")
	require.NotContains(t, p.last.HTML, `action="/split/fill"`)
	p.send("/split/fill", "from", "") // from a page that is older
	require.Regexp(t, `^Nobody on the list can take any of these as things stand\. .*Close See what would help$`, p.part("notice-filled"))
	p.send("/split/fine", "from", "")
	require.Empty(t, p.part("notice-filled")+p.part("notice-open"))

	// Somebody comes who can: what is open is another matter then.
	p.send("/helper/new", helper("name", "Ann", "can-night", "1")...)
	require.Contains(t, p.last.HTML, `action="/split/fill"`)
}
