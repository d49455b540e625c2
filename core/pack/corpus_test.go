package pack

import (
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// The corpus is read without checks, since it is compiled in: here they are.
func TestTheCorpusIsWellFormed(t *testing.T) {
	require.True(t, utf8.ValidString(corpus))
	require.True(t, strings.HasSuffix(corpus, "\n"))
	lines := readCorpus()
	kindsSeen, seen := map[Kind]int{}, map[line]bool{}
	a := newAlphabet()
	for _, l := range lines {
		require.Less(t, l.kind, kinds)
		require.Equal(t, strings.TrimSpace(l.text), l.text)
		require.NotEmpty(t, l.text)
		require.False(t, seen[l], "%q is there twice", l.text)
		seen[l] = true
		kindsSeen[l.kind]++
		for _, r := range l.text {
			s, _ := a.fold(r)
			require.NotEqual(t, escapeSign, s, "%q in %q has no symbol", r, l.text)
		}
	}
	require.Len(t, kindsSeen, int(kinds))
	require.Equal(t, strings.Count(corpus, "\n"), len(lines)+int(kinds), "every line is a text or one of the headings")
}

// Only telephone numbers kept for fiction: 555-0100 to 555-0199 (North American Numbering
// Plan, ATIS-0300115).
func TestTheCorpusCallsNobody(t *testing.T) {
	fiction := regexp.MustCompile(`555-01\d\d`)
	number := regexp.MustCompile(`\d{3}\D{0,2}\d{4}`)
	for _, l := range readCorpus() {
		require.False(t, number.MatchString(fiction.ReplaceAllString(l.text, "")), l.text)
		require.True(t, l.kind != Phone || fiction.MatchString(l.text), l.text)
	}
}

func TestEveryLineIsReadOnce(t *testing.T) {
	for _, lines := range []int{2, 3, 10, 64, 1000, 1001, 1020, 1021} {
		seen := map[int]bool{}
		for i := range lines {
			seen[i*stride(lines)%lines] = true
		}
		require.Len(t, seen, lines)
	}
}

// Every symbol is found by its way down the tree, letters and only letters lie under the
// node that a capital sign leads to, and all fits the arrays.
func TestTheTreeLeadsToEverySymbol(t *testing.T) {
	a := newAlphabet()
	m := texts{alphabet: a}
	require.LessOrEqual(t, int(a.used), mostSymbols)
	require.Equal(t, int(a.used)-1, int(a.nodes), "a tree of two branches each")
	require.Less(t, a.used, begun)
	for s := range a.used {
		node, walked, throughLetters := 0, path{}, false
		for node >= 0 {
			throughLetters = throughLetters || node == int(a.letters)
			bit, ahead := a.code[s].turn(walked)
			require.True(t, ahead)
			node, walked = m.step(node, walked, bit)
		}
		require.Equal(t, s, symbol(^node))
		require.Equal(t, a.isLetter(s), throughLetters, string(a.runes[s]))
		require.LessOrEqual(t, a.code[s].long, uint8(32))
		if a.isLetter(s) {
			again, capital := a.fold(a.runes[s] - inCase)
			require.True(t, capital && again == s, "a capital and its letter lead to each other")
		}
	}
}
