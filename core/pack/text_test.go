package pack

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// written is a call that writes a note and has no room for more.
func written(text string) call {
	return call{what: aText, kind: Note, text: text, bound: utf8.RuneCountInString(text)}
}

// Every character there is comes back, in one document and with room for more: the
// Unicode Standard's scalar values, D76, from U+0000 to U+10FFFF without surrogates. Each
// of the first 12,000 and every 97th behind them, since all go the same way.
func TestEveryCharacterComesBack(t *testing.T) {
	var calls []call
	var some []rune
	for r := rune(0); r <= utf8.MaxRune; {
		if utf8.ValidRune(r) {
			some = append(some, r)
		}
		if len(some) == 50 {
			calls, some = append(calls, written(string(some))), nil
		}
		if r < 12_000 {
			r++
		} else {
			r += 97
		}
	}
	calls = append(calls, written(string(some)), written(strange), written(strings.ToUpper(strange)))
	comesBack(t, calls)
}

func TestStrangeTextsByThemselves(t *testing.T) {
	for _, r := range strange + "\u00c0\u00d7\u00de\u00df\u00e0\u00f7\u00fe\u00ff'. 5" {
		for _, text := range []string{string(r), string(r) + string(r), "a" + string(r) + "A", "A" + string(r)} {
			for kind := range kinds {
				comesBack(t, []call{{what: aText, kind: kind, text: text, bound: 5}, {what: aText, kind: kind, text: text, bound: utf8.RuneCountInString(text)}})
			}
		}
	}
}

func TestNoTextAtAll(t *testing.T) {
	comesBack(t, []call{{what: aText}, {what: aText, bound: 40}, written("a")})
	require.Equal(t, "", NewDecoder(encoded([]call{written("a")})).Text(Note, "", -1))
}

// Decisions that no encoder takes lead to a character that has a symbol, to one that
// cannot be, or to a block that was named although it is that of the character before.
// Each is refused, since it would give one text two forms.
func TestAnEscapeIsUsedInOneWay(t *testing.T) {
	escape := func(block uint64, low int) error {
		c := NewEncoder()
		c.text, c.escapes = newSpeech(), &escapes{}
		c.text.begin(Note)
		c.symbol(escapeSign, false)
		c.passed(escapeSign)
		e := c.escapes
		if !c.Flag(&e.same, block == e.last && low >= 0) {
			c.Number(&e.block, block)
		}
		for node, i := 1, blockBits-1; i >= 0; i-- {
			bit := low>>i&1 == 1
			c.Flag(&e.low[node], bit)
			node = 2*node + int(low>>i&1)
		}
		c.symbol(endSign, false)
		d := NewDecoder(c.Close())
		if text := d.Text(Note, "", 9); d.Err() != nil {
			require.Empty(t, text)
		}
		return d.Err()
	}
	require.NoError(t, escape(0x416>>7, 0x416&127), "Ж")
	require.NoError(t, escape(0, '|'))
	require.NoError(t, escape(utf8.MaxRune>>7, 127))
	for name, c := range map[string][2]int{
		"a letter with a symbol": {0, 'a'}, "its capital": {0, 'A'}, "a capital beyond ASCII": {1, 'É' & 127},
		"a surrogate": {0xD800 >> 7, 0}, "the last surrogate": {0xDFFF >> 7, 127},
		"behind the last character": {(utf8.MaxRune + 1) >> 7, 0}, "far behind": {1 << 39, 0},
		"the block before, named": {0, -1 << 7},
	} {
		require.ErrorIs(t, escape(uint64(c[0]), c[1]), ErrBad, name)
	}
}

// A text costs less the second time, and less as what it is than as something else.
func TestTheModelLearns(t *testing.T) {
	const note = "The parakeet sings to Wilhelmina’s ukulele"
	once, twice := len(encoded([]call{written(note)})), len(encoded([]call{written(note), written(note)}))
	require.Less(t, twice-once, 4)
	name := func(kind Kind) int { return len(encoded([]call{{what: aText, kind: kind, text: "Rosa", bound: 40}})) }
	require.LessOrEqual(t, name(Name), name(Place))
	require.LessOrEqual(t, name(Name), name(Phone))
}

// Two documents know nothing of each other.
func TestDocumentsAreApart(t *testing.T) {
	alone := encoded([]call{written("Wilhelmina")})
	c := NewEncoder()
	for range 50 {
		c.Text(Note, "Wilhelmina", 40)
		require.Equal(t, alone, encoded([]call{written("Wilhelmina")}))
	}
}
