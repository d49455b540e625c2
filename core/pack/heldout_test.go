package pack

import (
	"os"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// documents reads testdata/heldout.txt, or a file like it.
func documents(t testing.TB, name string) (docs [][]line) {
	data, err := os.ReadFile(name)
	require.NoError(t, err)
	_, body, found := strings.Cut(string(data), "\n\n") // behind the head
	require.True(t, found)
	for _, block := range strings.Split(strings.TrimSpace(body), "\n\n") {
		var doc []line
		for _, l := range strings.Split(block, "\n") {
			kind, text, _ := strings.Cut(l, " ")
			at := strings.Index(headings, "="+kind)
			require.GreaterOrEqual(t, at, 0, l)
			doc = append(doc, line{Kind(strings.Count(headings[:at], "=")), text})
		}
		docs = append(docs, doc)
	}
	return docs
}

// perCharacter packs documents and gives the bits that a character took, ends of texts
// included.
func perCharacter(t testing.TB, docs [][]line) float64 {
	bits, characters := 0, 0
	for _, doc := range docs {
		c := NewEncoder()
		for _, l := range doc {
			c.Text(l.kind, l.text, 200)
			characters += utf8.RuneCountInString(l.text)
		}
		data := c.Close()
		bits += 8 * len(data)
		d := NewDecoder(data)
		for _, l := range doc {
			require.Equal(t, l.text, d.Text(l.kind, "", 200))
		}
		require.NoError(t, d.Err())
	}
	return float64(bits) / float64(characters)
}

// The held-out texts were written for this test by other hands than the corpus, and the
// models were not tuned on them. Invented, so a figure of our own and not a check against
// anything published.
func TestHeldOut(t *testing.T) {
	docs := documents(t, "testdata/heldout.txt")
	require.Less(t, perCharacter(t, docs), 2.9)
}

func BenchmarkPrime(b *testing.B) {
	for b.Loop() {
		lines := readCorpus()
		m := newTexts()
		for _, l := range lines {
			m.read(l)
		}
	}
}

func BenchmarkDocument(b *testing.B) {
	docs := documents(b, "testdata/heldout.txt")
	for b.Loop() {
		perCharacter(b, docs[:1])
	}
}
