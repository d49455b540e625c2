package guide

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// put makes a language out of lines of words, for as long as the test lasts.
func put(t *testing.T, tag string, words string, entries ...string) {
	t.Helper()
	languages, before := Languages, shelf[tag]
	b := &Book{Language: tag, words: map[string]string{}, entries: map[string]Entry{}}
	b.readWords(words)
	for _, id := range entries {
		b.entries[id] = Entry{Title: id}
	}
	shelf[tag] = b
	if tag != english {
		Languages = append([]string{english}, tag)
	}
	t.Cleanup(func() { Languages, shelf[tag] = languages, before })
}

const baseWords = "plural.one = n = 1\nordinal-rule.one = n = 1\nordinal-rule.two = n = 2\n" +
	"a = A\nday.one = {n} day\nday.other = {n} days\nhelper.other = Other\n" +
	"ordinal.one = {n}st\nordinal.two = {n}nd\nordinal.other = {n}th\n"

func TestEveryLanguageIsComplete(t *testing.T) {
	for _, tag := range Languages {
		require.Empty(t, Missing(tag))
	}
	require.Len(t, Missing("qq"), 1)
}

func TestMissingNamesWhatDiffers(t *testing.T) {
	put(t, english, baseWords, "walk", "rest")
	put(t, "yy", baseWords+"b = B\n", "walk", "run")
	shelf["yy"].words["helper.other"] = "" // an empty text is none
	delete(shelf["yy"].words, "a")
	require.Equal(t, []string{
		"yy: the entry [rest] is missing",
		"yy: the entry [run] is one too many: English has no such entry",
		"yy: the word a is missing",
		"yy: the word b is one too many: English has no such word",
		"yy: the word helper.other is missing",
	}, Missing("yy"))
}

// The forms that CLDR 48 names for Polish are one, few, many and other, for Japanese other
// alone (supplemental/plurals.xml); Polish ordinals have other alone (ordinals.xml).
func TestFormsAreTheLanguagesOwn(t *testing.T) {
	put(t, english, baseWords)
	polish := "plural.one = i = 1 and v = 0\nplural.few = v = 0 and i % 10 = 2..4 and i % 100 != 12..14\nplural.many = v = 0\n" +
		"a = A\nhelper.other = Inna\nordinal.other = {n}.\nday.one = d\nday.few = d\nday.many = d\n"
	put(t, "yy", polish+"day.other = d\n")
	require.Empty(t, Missing("yy"))
	put(t, "yy", polish)
	require.Equal(t, []string{"yy: the word day.other is missing"}, Missing("yy"))
	put(t, "yy", polish+"day.other = d\nday.two = d\nordinal.one = x\n")
	require.Equal(t, []string{
		"yy: the word day.two is one too many: English has no such word",
		"yy: the word ordinal.one is one too many: English has no such word",
	}, Missing("yy"))
	put(t, "yy", "a = A\nhelper.other = H\nordinal.other = {n}\nday.other = {n}\n")
	require.Empty(t, Missing("yy"))
	put(t, "yy", "a = A\nhelper.other = H\nordinal.other = {n}\nday.other = {n}\nday.one = {n}\n")
	require.Equal(t, []string{"yy: the word day.one is one too many: English has no such word"}, Missing("yy"))
}

// CLDR 48 has English and Spanish written left to right (layout/orientation); their names
// for themselves are English and español, the latter with a capital where it stands alone.
func TestNamesAndDirections(t *testing.T) {
	require.Equal(t, "English", Name("en"))
	require.Equal(t, "Español", Name("es"))
	require.Equal(t, "", Name("qq"))
	require.Equal(t, LeftToRight, Direction("en"))
	require.Equal(t, LeftToRight, Direction("es"))
	require.Equal(t, LeftToRight, Direction("qq"))
}
