package pack

import (
	"crypto/sha256"
	"encoding/hex"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// What is below is written down once and never made anew. Links are kept by families for
// months; each of them is read with these very tables.
const frozen = "the form has changed, and no link made before can be read with it: a change makes a new version of the link, and the old model (code, constants and corpus.txt) has to stay beside it"

func hash(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

func TestTheCorpusIsFrozen(t *testing.T) {
	require.Equal(t, "869bec8cf9f0483d6d9fa68dd830c9d099dba13dfec66d1c58454587b3b11630", hash([]byte(corpus)), frozen)
	require.Equal(t, "6fac21a4c6ef1ea694d153e569556859dae3b7a47a41b12e22940e6ad73b186c", hash([]byte(tree)), frozen)
}

// Documents short enough to see what has changed.
func TestShortDocumentsAreFrozen(t *testing.T) {
	for want, calls := range map[string][]call{
		"d724":                             {written("Rosa")},
		"cf2f925bed9de9f22b1418cd40b9a6b9": {written("Ring the bell at the side door, Жanna 王")},
		"ff8592e6e7bb":                     {{what: aNumber, n: 555}, {what: aSigned, n: -7}, {what: aFlag, yes: true}, {what: aChoice, model: 1, n: 3}, {what: someBits, bound: 9, n: 300}, {what: aUniform, bound: 1000, n: 999}},
		"00000000000000":                   {{what: someBits, bound: 40}, {what: someBits, bound: 40}, {what: someBits, bound: 40}},
	} {
		require.Equal(t, want, hex.EncodeToString(comesBack(t, calls)), frozen)
	}
}

// Long documents, which come by everything there is: the corpus by kinds and mixed, all
// sorts of characters, more text than a match reaches back, and each model of numbers.
func TestLongDocumentsAreFrozen(t *testing.T) {
	for name, want := range map[string]string{
		"corpus":  "657d391dcafd89c8be9ecccc6c1a0de7fdadabfcb7015f8ff0008f3889f2ce48",
		"mixed":   "c9718316edb33715869dd50ab6859c824d982b7dd7684773756446e0f3e05db4",
		"strange": "ad0dd4566bd8e62799d8286ecc05d74a82715d54704fb21e4699fa51cb8e3822",
		"far":     "85ed7af6853abbc3664e66c316a05293734802f2e75873e3db7a76b4b2242509",
		"numbers": "3e022cfbca7c4fdcb3550e8c164f3aa9995d0425253aae6c9ab979a49eedea7d",
	} {
		require.Equal(t, want, hash(comesBack(t, frozenDocuments()[name])), "%s: %s", name, frozen)
	}
}

func frozenDocuments() map[string][]call {
	note := func(l line, change func(string) string) call {
		text := change(l.text)
		return call{what: aText, kind: l.kind, text: text, bound: utf8.RuneCountInString(text) + 1}
	}
	same := func(s string) string { return s }
	docs, lines := map[string][]call{}, readCorpus()
	for i, l := range lines {
		docs["corpus"] = append(docs["corpus"], note(l, same))
		other := lines[(i*377+5)%len(lines)]
		docs["mixed"] = append(docs["mixed"], note(line{Kind(i % int(kinds)), l.text}, func(s string) string { return s + ", " + other.text }))
		if i < 300 {
			docs["strange"] = append(docs["strange"], note(other, func(s string) string { return woven(s, i) }))
		}
	}
	for n := 0; n < 3; n++ {
		docs["far"] = append(append(docs["far"], docs["mixed"]...), note(line{Note, "far"}, strings.ToUpper))
	}
	docs["numbers"] = frozenNumbers()
	return docs
}

// woven is a text with strange characters and every symbol in it.
func woven(s string, seed int) string {
	var b strings.Builder
	odd := []rune(strange + tree)
	for i, r := range []rune(s) {
		b.WriteRune(r)
		if (i*i+seed)%7 == 0 {
			b.WriteRune(odd[(i+seed)%len(odd)])
		}
	}
	return b.String()
}

// frozenNumbers are calls of all models with values of all sizes, from a generator that
// stands here, so that no library can change them (Knuth's MMIX constants, The Art of
// Computer Programming 2, 3.3.4).
func frozenNumbers() (calls []call) {
	x := uint64(1)
	next := func() int {
		x = x*6364136223846793005 + 1442695040888963407
		return int(x >> 24)
	}
	for i := range 3000 {
		size, sized := next()%41, 0
		if size > 0 {
			sized = next() & (1<<size - 1)
		}
		calls = append(calls,
			call{what: aFlag, model: i, yes: next()%(2+i%9) == 0},
			call{what: aNumber, model: i, n: sized},
			call{what: aSigned, model: i, n: sized - 1<<size/2},
			call{what: someBits, bound: size, n: sized},
			call{what: aUniform, bound: 1 + size*size*size, n: sized % (1 + size*size*size)},
			call{what: aChoice, model: i, n: next() % newModels().choices[i%4].n},
		)
	}
	return calls
}
