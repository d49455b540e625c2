package peers

import (
	"sort"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/build/reading"
)

// How many syllables the words of the guide have is asked of the npm library syllable, too.
// Where the two differ, ours is right by the dictionary (from memory) or both ways of saying
// the word are common; such words stand here one by one.
var syllablesDiffer = map[string]bool{
	"anesthesia": true, "checked": true, "cheer": true, "else": true, "everybody": true, "everything": true, "glasses": true, "going": true,
	"large": true, "nurses": true, "reaches": true, "ticked": true, "walked": true, "washes": true,
}

// guideWords are all words of the guide with how often each stands there, without numbers.
func guideWords() map[string]int {
	words := map[string]int{}
	for _, section := range reading.Sections("en") {
		for _, entry := range section.Entries {
			for _, sentence := range reading.Sentences(entry.Text) {
				for _, word := range reading.Words(sentence) {
					if !strings.ContainsAny(word, "0123456789°") {
						words[strings.ToLower(word)]++
					}
				}
			}
		}
	}
	return words
}

func TestSyllablesOfTheGuideAreThoseOfALibrary(t *testing.T) {
	times := guideWords()
	var words []string
	for word := range times {
		words = append(words, word)
	}
	sort.Strings(words)
	var answer struct{ Counts []int }
	require.NoError(t, start(t, Syllable).Ask("count", map[string]any{"words": words}, &answer))
	require.Len(t, answer.Counts, len(words))
	differ, ours, theirs := 0, 0, 0
	for i, word := range words {
		n := reading.Count(word, "en").Syllables
		ours, theirs = ours+n*times[word], theirs+answer.Counts[i]*times[word]
		if n != answer.Counts[i] {
			differ++
			require.True(t, syllablesDiffer[word], "%s: ours %d, theirs %d", word, n, answer.Counts[i])
		}
	}
	t.Logf("%d words of the guide, %d differ; syllables in all: ours %d, theirs %d", len(words), differ, ours, theirs)
	require.InEpsilon(t, theirs, ours, 0.01, "in all, a grade of Flesch-Kincaid differs by less than 0.2")
	require.Greater(t, len(words), 500)
}
