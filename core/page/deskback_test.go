package page

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/guide"
)

// Letters stand on paper and in pictures, so their order is written down by hand.
func TestTheLettersOfQuestionsAreFixed(t *testing.T) {
	require.Equal(t, []string{"wash", "food", "drink", "leave", "home", "emergency", "office", "stay", "walk", "pain", "ride", "clots", "pumps", "driving", "hands"}, saidLetters)
	require.Len(t, saidChapters, len(saidLetters))
	for n, id := range saidChapters {
		require.NotNil(t, guide.ChapterByID(id), saidLetters[n])
	}
}

// What is held up is said at the desk, in any language: which questions were clear and which
// are to be explained again (AHRQ, Health Literacy Universal Precautions Toolkit, 3rd edition,
// Tool 5: what was not clear is explained again). The form of the code is ours.
func TestWhatIsHeldUpIsSaidAtTheDesk(t *testing.T) {
	asked := &SayBack{}
	for n, id := range []string{"wash", "food", "clots", "emergency", "home", "hands"} {
		asked.Asked = append(asked.Asked, Asked{SayQuestion: SayQuestion{ID: id}, Said: []Said{SaidClear, SaidUnclear}[n%2]})
	}
	code := SaidCode(asked)
	require.Equal(t, "said.aBlFeO", code)
	for _, language := range guide.Languages {
		v := NewSaidBack(guide.Voice{Book: guide.Open(language)}, code)
		require.False(t, v.Damaged)
		require.Len(t, v.Again, 3)
		require.Len(t, v.Clear, 3)
		html := SaidBackPage(&v)
		require.NotContains(t, html, "shown-back.")
		for _, told := range append(v.Again, v.Clear...) {
			require.NotRegexp(t, `\{|say-back`, told.Topic)
			require.Contains(t, html, told.Topic)
			require.NotNil(t, told.Chapter)
		}
	}
}

// Every question that a page can ask has its letter.
func TestEveryQuestionHasALetter(t *testing.T) {
	for _, id := range saidLetters {
		require.NotEmpty(t, guide.Voice{Book: guide.Open("en")}.Say("say-back."+id+".topic"), id)
	}
	words, err := os.ReadFile("../guide/text/en/say-back.txt")
	require.NoError(t, err)
	topics := regexp.MustCompile(`(?m)^say-back\.([a-z]+)\.topic =`).FindAllStringSubmatch(string(words), -1)
	require.Len(t, topics, len(saidLetters))
	for _, topic := range topics {
		require.Contains(t, saidLetters, topic[1])
	}
}

// A code that no page makes says so, and shows none of itself.
func TestOtherCodesAreRefused(t *testing.T) {
	for _, letters := range []string{"", "abcde", "abcdefg", "aBcdeA", "abcdez", "aa", "aA", "z", "a1", "a.b", "á", "<b>", strings.Repeat("a", 9000), "a%20b", "\x00"} {
		v := NewSaidBack(guide.Voice{Book: guide.Open("en")}, SaidWord+letters)
		require.True(t, v.Damaged, letters)
		html := SaidBackPage(&v)
		require.Contains(t, html, "Ask to see the code once more")
		require.NotContains(t, html, "<b>")
	}
}
