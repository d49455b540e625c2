package app

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/desk"
	"newel/core/page"
)

var cardCodes = regexp.MustCompile(`<div class="card-code[^"]*" data-qr="([^"]+)"`)

// codes are the links whose codes the cards on the screen have.
func (p *phone) codes() []string {
	var all []string
	for _, m := range cardCodes.FindAllStringSubmatch(p.last.HTML, -1) {
		all = append(all, m[1])
	}
	return all
}

// cards goes from the rows to their cards as the button there does.
func (p *phone) cards(more ...string) {
	p.send("/desk/cards", append(append([]string{"from", "0"}, more...), p.carried()...)...)
}

// Forty rows of which two have no link: thirty-eight cards, each with the link of its row, and
// no mark of the desk's but where that is asked for.
func TestCardsOfATable(t *testing.T) {
	p := atDesk(t)
	text := strings.Replace(tableOf(40), "P4\t2026-12-05", "P4\t2026-02-30", 1)
	p.check(strings.Replace(text, "P9\t2026-12-10\t05:30", "P9\t2026-12-10\thalf past", 1))
	made := desk.UnpackDone(p.carried()[3], pageAddress)
	var links []string
	for _, d := range made {
		if d.Fragment != "" {
			links = append(links, d.Fragment)
		}
	}
	p.cards("act", "cards")
	require.Equal(t, "/desk/cards", p.path)
	require.Equal(t, links, p.codes())
	require.Len(t, links, 38)
	require.Contains(t, p.part("outcome"), "38 cards. About 19 pages.")
	require.Contains(t, p.part("outcome"), "2 rows have no card")
	require.Equal(t, "outcome", p.last.Focus)
	require.NotContains(t, p.part("card-0"), "P0")
	require.Contains(t, p.part("card-0"), "Knee replacement")
	require.Empty(t, p.onDevice())

	p.cards("act", "show", "mark", "1", "only", "3", "only", "0", "only", "4", "only", "99")
	require.Equal(t, []string{links[0], links[3]}, p.codes(), "what has no link has no card")
	require.Contains(t, p.part("card-3"), "P3")

	p.cards("act", "show")
	require.Empty(t, p.codes())
	require.Equal(t, "no-cards", p.last.Focus)
	require.Contains(t, p.last.Say, "Choose at least one")
	p.send("/desk/rows", append([]string{"act", "check"}, p.carried()...)...)
	require.Contains(t, p.part("row-0"), "Copy message", "and back, with the same links")
	require.Equal(t, made, desk.UnpackDone(p.carried()[3], pageAddress))
}

// One patient after the other: the card of the link that was just made is that one's alone.
func TestCardOfOnePatient(t *testing.T) {
	p := atDesk(t)
	p.send("/desk", one("label", "Bed 1")...)
	first := p.madeLink()
	p.send("/desk", one("label", "Bed 2", "language", "es", "surgery", "2026-12-07", "rows", p.rows())...)
	second := p.madeLink()
	rows := p.rows()
	p.send("/desk/cards", "act", "card", "made", second, "language", "es", "rows", rows)
	require.Equal(t, []string{second}, p.codes())
	require.Contains(t, p.last.HTML, `lang="es" dir="ltr" aria-labelledby="card-1-title"`)
	require.Contains(t, p.part("card-1"), "Llame al 911 ahora")
	require.NotContains(t, p.part("card-1"), "Bed 2")

	p.send("/desk/cards", "act", "cards", "rows", rows)
	require.Equal(t, []string{first, second}, p.codes())
}

// Without a table, with one that cannot be read, and with rows of which none has a link, the
// screen says what to do.
func TestCardsOfNothing(t *testing.T) {
	p := atDesk(t)
	p.send("/desk/cards")
	require.Contains(t, p.part("no-cards"), "There is nothing to print yet")
	require.Contains(t, p.last.HTML, `data-path="/desk/rows"`)
	for _, text := range []string{"x", "Date\n2026-02-30\n", strings.Repeat("x\x00", 1000), `"`} {
		p.send("/desk/cards", "act", "cards", "text", text, "made", "-")
		require.Contains(t, p.part("no-cards"), "None of these rows has a link", text)
		require.Equal(t, "no-cards", p.last.Focus)
	}
}

// A long table is shown in parts; what is chosen goes along.
func TestCardsInParts(t *testing.T) {
	p := atDesk(t)
	p.check(tableOf(200))
	p.cards("act", "cards")
	require.Len(t, p.codes(), page.CardsMost)
	first := p.codes()[0]
	all := []string{"cards-from", "160"}
	for i := 1; i < 200; i++ {
		all = append(all, "only", strconv.Itoa(i))
	}
	p.cards(all...)
	require.Len(t, p.codes(), 199-160)
	require.Contains(t, p.last.HTML, `value="160" aria-current="true"`)
	require.NotContains(t, p.codes(), first)
}

// A mark is a stranger's text like any other.
func TestAMarkIsEscaped(t *testing.T) {
	p := atDesk(t)
	p.check("Label\tDate\n<b>x</b>\"\t2026-12-03\n")
	p.cards("act", "show", "mark", "1", "only", "0")
	require.Len(t, p.codes(), 1)
	require.NotContains(t, p.last.HTML, "<b>")
	require.Contains(t, p.last.HTML, "&lt;b&gt;")
}
