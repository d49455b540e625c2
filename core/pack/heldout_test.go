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

// pack packs a document, reads it back, and gives its bits and its characters.
func pack(t testing.TB, doc []line, c *Coder) (bits, characters int) {
	for _, l := range doc {
		c.Part(l.heading())
		c.Text(l.kind, l.text, 200)
		characters += utf8.RuneCountInString(l.text)
	}
	data := c.Close()
	d := NewDecoder(data)
	for _, l := range doc {
		require.Equal(t, l.text, d.Text(l.kind, "", 200))
	}
	require.NoError(t, d.Err())
	return 8 * len(data), characters
}

// heading is what a line's kind is called in the files.
func (l line) heading() string { return strings.Split(headings, "=")[l.kind+1] }

// The held-out texts were written for this test by other hands than the corpus, and the
// models were not tuned on them. Invented, so a figure of our own and not a check against
// anything published. Bits a character, ends of texts included.
func TestHeldOut(t *testing.T) {
	bits, characters := 0, 0
	ofKind, long := map[string]float64{}, map[string]int{}
	for _, doc := range documents(t, "testdata/heldout.txt") {
		c := NewEncoder()
		c.Account()
		b, n := pack(t, doc, c)
		bits, characters = bits+b, characters+n
		for _, p := range c.Spent() {
			ofKind[p.Name] += p.Bits
		}
		for _, l := range doc {
			long[l.heading()] += utf8.RuneCountInString(l.text)
		}
	}
	for kind, n := range long {
		t.Logf("%-5s %5d characters, %.2f bits each", kind, n, ofKind[kind]/float64(n))
	}
	each := float64(bits) / float64(characters)
	t.Logf("all   %5d characters, %.3f bits each", characters, each)
	require.Less(t, each, 2.9)
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
		pack(b, docs[0], NewEncoder())
	}
}
