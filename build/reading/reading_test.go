package reading

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

const near = 1e-9

// Flesch 1948 (sources 4.6): worked out from the published formula by hand. Six words of one
// syllable in one sentence; 16 words with 23 syllables; the most there can be is a sentence of
// one word of one syllable.
func TestFleschReadingEase(t *testing.T) {
	require.InDelta(t, 116.145, FleschReadingEase(Counts{Sentences: 1, Words: 6, Syllables: 6}), near)
	require.InDelta(t, 68.98, FleschReadingEase(Counts{Sentences: 1, Words: 16, Syllables: 23}), 0.005)
	require.InDelta(t, 121.22, FleschReadingEase(Counts{1, 1, 1}), near)
}

// Kincaid and others 1975 (4.7), with the worked example that encyclopedias give for it: 13
// words, 24 syllables, grade 11.3. The example goes through our own counting too.
func TestFleschKincaid(t *testing.T) {
	require.InDelta(t, 11.2646, FleschKincaid(Counts{Sentences: 1, Words: 13, Syllables: 24}), 0.0001)
	require.InDelta(t, -3.40, FleschKincaid(Counts{1, 1, 1}), near)
	platypus := Count("The Australian platypus is seemingly a hybrid of a mammal and reptilian creature.", "en")
	require.Equal(t, Counts{Sentences: 1, Words: 13, Syllables: 24}, platypus)
	require.InDelta(t, 11.3, FleschKincaid(platypus), 0.05)
}

// Szigriszt Pazos 1993 (4.11), worked out from the published formula by hand: 200 and 190
// syllables in 100 words, in 5 and 10 sentences.
func TestSzigriszt(t *testing.T) {
	require.InDelta(t, 62.235, Szigriszt(Counts{Sentences: 5, Words: 100, Syllables: 200}), near)
	require.InDelta(t, 78.465, Szigriszt(Counts{Sentences: 10, Words: 100, Syllables: 190}), near)
}

// A text of a hundred sentences counts as a hundred times one sentence.
func TestCountsAddUp(t *testing.T) {
	one := Count("Walk soon and often.", "en")
	require.Equal(t, Counts{1, 4, 5}, one)
	require.Equal(t, Counts{100, 400, 500}, Count(strings.Repeat("Walk soon and often. ", 100), "en"))
	require.Equal(t, Counts{100, 400, 500}, Count(strings.Repeat("Walk soon and often\n", 100), "en"))
	require.Equal(t, Counts{2, 8, 10}, one.Plus(one))
	require.Equal(t, Counts{}, Count(" \n\n. -\n", "en"))
	require.InDelta(t, -15.59, FleschKincaid(Counts{}), near, "nothing to read is not a fault")
}

// The rules are ours.
func TestSentences(t *testing.T) {
	for text, want := range map[string][]string{
		"One. Two? Three!":                         {"One.", "Two?", "Three!"},
		"A title\na point\n\nAnother.":             {"A title", "a point", "Another."},
		`Ask: "When?" Then go.`:                    {`Ask: "When?`, `" Then go.`},
		"38.5 degrees. Call.":                      {"38.5 degrees.", "Call."},
		`"This is new: ..." Say what you see.`:     {`"This is new: ..." Say what you see.`},
		"(It may help.) Ask.":                      {"(It may help.", ") Ask."},
		"¿Cómo está? Bien.":                        {"¿Cómo está?", "Bien."},
		"No call by late afternoon? Call.\n. ... ": {"No call by late afternoon?", "Call."},
	} {
		require.Equal(t, want, Sentences(text), text)
	}
}

func TestWords(t *testing.T) {
	require.Equal(t, []string{"non-slip", "mat", "surgeon's", "10:30", "AM"}, Words(`(non-slip) mat: "surgeon's", 10:30 AM.`))
	require.Equal(t, []string{"Baño", "más", "allá"}, Words("¡Baño... más/allá!"))
}
