package guide

import (
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
	"newel/core/schedule"
)

// The signs that signs.go asks for by name.
var entryCall = regexp.MustCompile(`\.Entry\("([a-z-]*[a-z])",`)

func signs(t *testing.T) map[string]bool {
	ids := map[string]bool{"signs-say.general": true} // where no plan says which operation, and when
	for _, m := range entryCall.FindAllStringSubmatch(sources(t)["guide/signs.go"], -1) {
		ids[m[1]] = true
	}
	require.Len(t, ids, 5)
	return ids
}

func TestEveryStepDutyAndSignHasItsWords(t *testing.T) {
	used := usedEntries(t)
	for id := range signs(t) {
		used[id] = true
	}
	for _, key := range plan.DutyKeys {
		used[key] = true
	}
	for _, c := range Chapters {
		used["chapter-"+c.ID] = true
	}
	for i := range schedule.Kinds {
		require.True(t, used[schedule.Kinds[i].ID], "no plan shows the step %s", schedule.Kinds[i].ID)
	}
	for _, language := range Languages {
		b := Open(language)
		require.Equal(t, language, b.Language)
		for _, id := range sorted(used) {
			_, ok := b.entries[id]
			require.True(t, ok, "%s has no entry [%s]", language, id)
			base, variant, _ := strings.Cut(id, ".")
			e := b.Entry(base, variant)
			require.NotEmpty(t, e.Title, "%s [%s]", language, id)
			require.NotEqual(t, base, e.Title, "%s [%s] has no title", language, id)
			if !strings.HasPrefix(id, "signs-say") { // what to say on the phone is a list
				require.NotEmpty(t, e.Why, "%s [%s] does not say why", language, id)
			}
		}
		for _, id := range sorted(b.entries) {
			require.True(t, used[id], "%s: nothing shows [%s]", language, id)
		}
	}
}

// An entry or a word that stands twice would hide the first one, in whichever two of the files
// of a language they stand. Every file but those of entries has words.
func TestNothingStandsTwice(t *testing.T) {
	for _, language := range Languages {
		seen := map[string]bool{}
		entries := []string{"steps", "duties", "signs", "chapters"}
		for _, file := range entries {
			for _, line := range textFile(t, language, file) {
				if strings.HasPrefix(line, "[") {
					require.Regexp(t, `^\[[a-z-]+(\.[a-z-]+)?\]$`, line)
					require.False(t, seen[line], "%s: %s stands twice", language, line)
					seen[line] = true
				}
			}
		}
		for _, file := range wordFiles(t, language, entries) {
			for n, line := range textFile(t, language, file) {
				if line == "" || line[0] == '#' {
					continue
				}
				key, text, ok := strings.Cut(line, " = ")
				require.True(t, ok, "%s %s.txt line %d is not key = text: %s", language, file, n+1, line)
				require.Regexp(t, `^[a-z0-9-]+(\.[a-z0-9-]+)*$`, key)
				require.NotEmpty(t, strings.TrimSpace(text), key)
				require.False(t, seen[key], "%s: %s stands twice, the second time in %s.txt", language, key, file)
				seen[key] = true
			}
		}
	}
}

// wordFiles names the files of a language that are not those of entries.
func wordFiles(t *testing.T, language string, entries []string) []string {
	files, err := os.ReadDir("text/" + language)
	require.NoError(t, err)
	var names []string
	for _, f := range files {
		if name := strings.TrimSuffix(f.Name(), ".txt"); !slices.Contains(entries, name) {
			names = append(names, name)
		}
	}
	require.Contains(t, names, "words")
	require.Greater(t, len(names), 5)
	return names
}

// Every file under text belongs to a language, and every language has the same
// entries as English. That it has the same words is in complete_test.go.
func TestLanguagesSayTheSame(t *testing.T) {
	folders, err := os.ReadDir("text")
	require.NoError(t, err)
	var names []string
	for _, f := range folders {
		names = append(names, f.Name())
	}
	require.ElementsMatch(t, Languages, names)
	english := Open("en")
	for _, language := range Languages {
		require.Equal(t, english.EntryIDs(), Open(language).EntryIDs(), language)
	}
}

func TestOpenTakesTheFirstPartOfATag(t *testing.T) {
	for _, tag := range []string{"en", "en-US", "EN-gb", "", "xx", "xx-YY", "zz_ZZ", "english"} {
		require.Equal(t, "en", Open(tag).Language, "%q", tag)
	}
}

func TestAVariantSaysOnlyWhatDiffers(t *testing.T) {
	b := &Book{entries: map[string]Entry{}}
	b.readEntries("# a comment\n[a]\nTitle\nhow {n}\n- point\nwhy: reason\n\n[a.v]\nOther title\n\n[b]\nB")
	require.Equal(t, Entry{Title: "Title", How: []Line{{Text: "how 3", Point: false}, {Text: "point", Point: true}}, Why: "reason"}, b.Entry("a", "", Number("n", 3)))
	require.Equal(t, Entry{Title: "Other title", How: []Line{{Text: "how 3", Point: false}, {Text: "point", Point: true}}, Why: "reason"}, b.Entry("a", "v", Number("n", 3)))
	require.Equal(t, "Title", b.Entry("a", "missing").Title)
	require.Equal(t, Entry{Title: "B"}, b.Entry("b", ""))
	require.Equal(t, "missing", b.Entry("missing", "").Title, "the id is shown rather than nothing")
}

// What a person typed is not looked through for names again.
func TestFillPutsValuesInAsTheyAre(t *testing.T) {
	require.Equal(t, "{n}: {name} 3", fill("{name}: {what} {n}", []Arg{{"name", "{n}"}, {"what", "{name}"}, {"n", "3"}}, nil))
	require.Equal(t, "left {alone}", fill("left {alone}", []Arg{{"n", "3"}}, nil))
}

// CLDR 48, plural rules for en: "one" for 1, "other" for everything else.
func TestCountChoosesTheForm(t *testing.T) {
	b := Open("en")
	require.Equal(t, "1 day to go", b.Count("to-go", 1))
	require.Equal(t, "0 days to go", b.Count("to-go", 0))
	require.Equal(t, "21 days to go", b.Count("to-go", 21))
	require.Equal(t, "no.such.key", b.Say("no.such.key"))
}
