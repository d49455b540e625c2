package pack

import (
	"math/rand"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// A call is one of the coder's calls with its bounds and its value, so that a test can
// make any form up and run it in both directions.
type call struct {
	what  int
	model int // which of the models
	bound int // n of Bits and Uniform, most of Text
	kind  Kind

	yes  bool
	n    int
	text string
}

const (
	aFlag = iota
	aNumber
	aSigned
	aChoice
	someBits
	aUniform
	aText
	whats
)

// models are those of a form that was made up.
type models struct {
	bits    [4]Bit
	numbers [3]Number
	choices [4]Choice
}

func newModels() *models {
	return &models{
		bits:    [4]Bit{{}, Odds(4095), Odds(0), Odds(2048).Trust(30)},
		choices: [4]Choice{NewChoice(1), NewChoice(5), NewChoice(mostKinds), Weighted(400, 1, 1)},
	}
}

// run makes the call with what is in it, and gives the same call with what came back.
func (k call) run(c *Coder, m *models) call {
	switch k.what {
	case aFlag:
		k.yes = c.Flag(&m.bits[k.model%4], k.yes)
	case aNumber:
		k.n = int(c.Number(&m.numbers[k.model%3], uint64(k.n)))
	case aSigned:
		k.n = c.Signed(&m.numbers[k.model%3], k.n)
	case aChoice:
		k.n = c.Choose(&m.choices[k.model%4], k.n)
	case someBits:
		k.n = int(c.Bits(uint64(k.n), k.bound))
	case aUniform:
		k.n = c.Uniform(k.n, k.bound)
	case aText:
		k.text = c.Text(k.kind, k.text, k.bound)
	}
	return k
}

// blank is the call as a decoder makes it: without the value.
func (k call) blank() call {
	k.yes, k.n, k.text = false, 0, ""
	return k
}

// fits tells whether the value is one that an encoder takes.
func (k call) fits() bool {
	switch k.what {
	case aNumber:
		return k.n >= 0 && k.n < 1<<40
	case aSigned:
		return k.n > -1<<40 && k.n < 1<<40
	case aChoice:
		return k.n >= 0 && k.n < newModels().choices[k.model%4].n
	case someBits:
		return k.n >= 0 && k.n < 1<<k.bound
	case aUniform:
		return k.n >= 0 && k.n < k.bound
	case aText:
		return utf8.ValidString(k.text) && utf8.RuneCountInString(k.text) <= k.bound
	}
	return true
}

func encoded(calls []call) []byte {
	c, m := NewEncoder(), newModels()
	for _, k := range calls {
		k.run(c, m)
	}
	return c.Close()
}

func decoded(data []byte, calls []call) ([]call, error) {
	c, m := NewDecoder(data), newModels()
	got := make([]call, len(calls))
	for i, k := range calls {
		got[i] = k.blank().run(c, m)
	}
	return got, c.Err()
}

// comesBack checks that what was written is what is read.
func comesBack(t require.TestingT, calls []call) []byte {
	data := encoded(calls)
	got, err := decoded(data, calls)
	require.NoError(t, err)
	require.Equal(t, calls, got)
	return data
}

// strange are characters at the edges of what the model knows: without a symbol, with
// another letter as their capital, combining, beside the surrogates (Unicode 15, 3.8),
// the last one there is, and those that stand for signs in the tree.
const strange = "İıẞßŸÿÝýÞþÐðÆæ×÷ΩωЖש王🙂\u0301\u200d\ufeff\ufffd\ud7ff\ue000\U0010ffff{|^~\x00\x7f\u0080"

// anyCall is any call with any value in its bounds.
func anyCall(t *rapid.T) call {
	k := call{what: rapid.IntRange(0, whats-1).Draw(t, "what"), model: rapid.IntRange(0, 11).Draw(t, "model")}
	whole := rapid.IntRange(0, 1<<40-1)
	small := rapid.IntRange(0, 9)
	switch k.what {
	case aFlag:
		k.yes = rapid.Bool().Draw(t, "yes")
	case aNumber:
		k.n = rapid.OneOf(small, whole).Draw(t, "number")
	case aSigned:
		k.n = rapid.OneOf(small, rapid.IntRange(-1<<40+1, 1<<40-1)).Draw(t, "signed")
	case aChoice:
		k.n = rapid.IntRange(0, newModels().choices[k.model%4].n-1).Draw(t, "choice")
	case someBits:
		k.bound = rapid.IntRange(0, 40).Draw(t, "bits")
		k.n = rapid.IntRange(0, 1<<k.bound-1).Draw(t, "value")
	case aUniform:
		k.bound = rapid.OneOf(rapid.IntRange(1, 9), rapid.IntRange(1, 1<<24)).Draw(t, "of")
		k.n = rapid.IntRange(0, k.bound-1).Draw(t, "value")
	case aText:
		k.kind = Kind(rapid.IntRange(0, int(kinds)-1).Draw(t, "kind"))
		k.text = anyText().Draw(t, "text")
		k.bound = utf8.RuneCountInString(k.text) + rapid.IntRange(0, 2).Draw(t, "room")
	}
	return k
}

func anyText() *rapid.Generator[string] {
	return rapid.OneOf(
		rapid.StringOf(rapid.SampledFrom([]rune(strange+"abcABC 012"))),
		rapid.StringOf(rapid.Rune()),
		rapid.StringMatching(`[A-Z][a-z]{0,9}( [a-zé]{1,9}){0,5}[.!?]?`),
		rapid.SampledFrom(strings.Split(corpus, "\n")),
	)
}

func TestAnyCallsComeBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		comesBack(t, rapid.SliceOfN(rapid.Custom(anyCall), 0, 60).Draw(t, "calls"))
	})
}

// Bytes that no encoder made read as values in range, which have one form: that of an
// encoder, and no longer than what was read. So whoever encodes once more finds all others.
func TestWhatIsReadIsWrittenInOneWay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		calls := rapid.SliceOfN(rapid.Custom(anyCall), 1, 30).Draw(t, "calls")
		hostile := rapid.SliceOfN(rapid.Byte(), 0, 60).Draw(t, "bytes")
		got, err := decoded(hostile, calls)
		if err != nil {
			return
		}
		for _, k := range got {
			require.True(t, k.fits(), "%+v", k)
		}
		data := comesBack(t, got)
		require.LessOrEqual(t, len(data), len(hostile), "Close gives the shortest")
	})
}

// Long documents: hundreds of calls of all sorts, from a fixed seed.
func TestLongDocumentsComeBack(t *testing.T) {
	anyOne := rapid.Custom(anyCall)
	for seed := range 12 {
		var calls []call
		for i := range 300 {
			calls = append(calls, anyOne.Example(seed*300+i))
		}
		comesBack(t, calls)
	}
}

// A document of as much text as there may be, which is more than what positions of 16
// bits reach; then one character more.
func TestTheLongestDocument(t *testing.T) {
	r := rand.New(rand.NewSource(7))
	lines, left := readCorpus(), MostText
	var calls []call
	for left > 0 {
		l := lines[r.Intn(len(lines))]
		long := min(utf8.RuneCountInString(l.text), left-1)
		calls = append(calls, call{what: aText, kind: l.kind, text: string([]rune(l.text)[:long]), bound: long})
		left -= long + 1
	}
	data := comesBack(t, calls)
	more := append(calls, call{what: aText, bound: 0})
	require.PanicsWithValue(t, "pack: more text than one document may have: check the value before it is encoded", func() { encoded(more) })
	_, err := decoded(data, more)
	require.ErrorIs(t, err, ErrBad)
}
