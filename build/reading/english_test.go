package reading

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Syllables as a dictionary parts the words, from memory; build/peers holds every word of the
// guide against a library.
func TestEnglishSyllables(t *testing.T) {
	for n, words := range []string{
		1: "a walk shaved shaves else large checked locked walked loose clothes breathe eight couch pulled curled cheer",
		2: "walker shower table settled needed glasses nurses reaches washes wednesday people going likely safely every something movement",
		3: "hospital medicine surgery syllable busiest easier earliest reaction prescription replacement condition",
		4: "anesthesia operation appointment-book everybody usually",
		5: "refrigerator examination",
	} {
		for word := range strings.FieldsSeq(words) {
			require.Equal(t, n, englishSyllables(word), word)
			require.Equal(t, n, englishSyllables(strings.ToUpper(word)), word)
		}
	}
	require.Equal(t, 3, englishSyllables("911"), "nine one one")
	require.Equal(t, 1, englishSyllables("-"))
}

// The levels that the guide is held to: AHRQ, AMA and AAFP advise the sixth grade at most
// (sources 4.1, 4.2); EPA and HHS less for what is critical (4.4). The length of a sentence is
// ours: CMS asks for short ones and gives no number.
const (
	guideGrade, signsGrade = 6.0, 5.0
	worstGrade             = 8.0 // AHRQ: the average adult's level
	longestSentence        = 20
)

func TestEverySectionIsEasyToRead(t *testing.T) {
	t.Logf("%-16s %9s %5s %10s %7s %5s %5s %7s  %s", "section", "sentences", "words", "a sentence", "longest", "ease", "grade", "running", "grades of its entries, and the hardest")
	for _, s := range Sections("en") {
		c := s.Counts("en")
		grade, limit := FleschKincaid(c), guideGrade
		if s.Signs {
			limit = signsGrade
		}
		require.LessOrEqual(t, grade, limit, s.Name)
		low, high, hardest := grades(s)
		running := FleschKincaid(s.Running("en"))
		t.Logf("%-16s %9d %5d %10.1f %7d %5.1f %5.1f %7.1f  %.1f to %.1f (%s)", s.Name, c.Sentences, c.Words, c.perSentence(), longest(s),
			FleschReadingEase(c), grade, running, low, high, hardest)
		require.LessOrEqual(t, running, worstGrade, "%s: even with each list read as one sentence", s.Name)
		require.LessOrEqual(t, high, limit+2, "%s: no entry is far above the level of its section: %s", s.Name, hardest)
	}
}

func grades(s Section) (low, high float64, hardest string) {
	low, high = 100, -100
	for _, e := range s.Entries {
		grade := FleschKincaid(Count(e.Text, "en"))
		low = min(low, grade)
		if grade > high {
			high, hardest = grade, e.ID
		}
	}
	return low, high, hardest
}

func longest(s Section) (words int) {
	for _, e := range s.Entries {
		for _, sentence := range Sentences(e.Text) {
			words = max(words, len(Words(sentence)))
		}
	}
	return words
}

// CMS, Toolkit part 7, and the house: what formulas do not see.
func TestSentencesAreShortAndSayOneThing(t *testing.T) {
	knotted := regexp.MustCompile(`(?i)\b(not|never|no|cannot|don't)\b.*\bunless\b|\bunless\b|\bin order to\b|\bprior to\b|\bin the event\b|\bshould you\b|\bnotwithstanding\b`)
	twice := regexp.MustCompile(`(?i)\b(not|never)\b[^,;:.]*\b(not|never|without)\b`)
	for _, s := range Sections("en") {
		for _, e := range s.Entries {
			require.NotContains(t, e.Text, "{", e.ID)
			for _, sentence := range Sentences(e.Text) {
				require.LessOrEqual(t, len(Words(sentence)), longestSentence, "%s: %s", e.ID, sentence)
				require.NotRegexp(t, knotted, sentence, e.ID)
				require.NotRegexp(t, twice, sentence, "%s: two times not", e.ID)
			}
		}
	}
}

// A passive hides who does it. A few are right, where it does not matter who. "Needed" is a state.
// How many may be is our own judgement.
func TestFewSentencesArePassive(t *testing.T) {
	passive := regexp.MustCompile(`(?i)\b(is|are|was|were|be|been|being) (\w+ )?(\w+ed|done|taken|given|found|seen|shown|worn|put|told|kept|driven|met|held|read)\b`)
	for _, s := range Sections("en") {
		all, found := 0, []string(nil)
		for _, e := range s.Entries {
			for _, sentence := range Sentences(strings.ReplaceAll(e.Text, "needed", "useful")) {
				all++
				if passive.MatchString(sentence) {
					found = append(found, e.ID+": "+sentence)
				}
			}
		}
		require.LessOrEqual(t, len(found)*100, 15*all+100, "%s has %d of %d:\n%s", s.Name, len(found), all, strings.Join(found, "\n"))
		t.Log(fmt.Sprintf("%-16s %d of %d", s.Name, len(found), all))
	}
}
