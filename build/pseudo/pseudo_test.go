package pseudo

import (
	"context"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/require"

	"newel/build/tools"
)

// letters counts what takes up room in a line: the marks of UAX #9 are not seen.
func letters(text string) int {
	n := 0
	for _, r := range text {
		if unicode.IsLetter(r) {
			n++
		}
	}
	return n
}

var names = regexp.MustCompile(`\{[^}]*\}`)

func english(t *testing.T) map[string]string {
	texts, err := readFolder("../../core/guide/text/en")
	require.NoError(t, err)
	return texts
}

// prose is the text of a file without what stands in it beside the text.
var prose = regexp.MustCompile(`(?m)^(\[.*\]|#.*|language\..*|plural\..*|ordinal-rule\..*|joint\..*)$|^(why: |coach: |patient: |- |[a-z0-9.-]+ = )|\{[^}]*\}`)

// 40 % longer over all, as the issue asks; names are kept in number and in order; and a text
// of one word grows as well.
func TestTextsGrowAndKeepTheirNames(t *testing.T) {
	texts := english(t)
	var before, after int
	for file, text := range Texts(texts) {
		require.Equal(t, names.FindAllString(texts[file], -1), names.FindAllString(text, -1), file)
		before += letters(prose.ReplaceAllString(texts[file], ""))
		after += letters(prose.ReplaceAllString(text, ""))
	}
	require.InDelta(t, 1.4, float64(after)/float64(before), 0.02)
	require.Equal(t, 5, letters(Text("Walk")), "4 letters and 40 % of them, in whole letters")
	require.Equal(t, 18, letters(Text("Walk often, soon")), "13 letters and 5: what one word could not take the next one does")
}

// UAX #9 (Unicode Bidirectional Algorithm), 2.2 and 2.5: an override ends with its PDF, and
// none reaches over a {name}.
func TestEveryOverrideEnds(t *testing.T) {
	for _, text := range []string{"One, two: {n} days", "{a}{b}", "", "5:30 {half} – {x", "L'œuvre"} {
		open := 0
		for _, r := range Text(text) {
			switch r {
			case '\u202e':
				open++
			case '\u202c':
				open--
			case '{':
				require.Zero(t, open, text)
			}
			require.Contains(t, []int{0, 1}, open, text)
		}
		require.Zero(t, open, text)
	}
}

// Lines, keys and marks of the two kinds of file are those of English.
func TestFormsOfTheFilesAreKept(t *testing.T) {
	texts := english(t)
	head := regexp.MustCompile(`(?m)^(\[.*\]|why: |coach: |patient: |- |#.*|[a-z0-9.-]+ = )`)
	for file, text := range Texts(texts) {
		require.Equal(t, head.FindAllString(texts[file], -1), head.FindAllString(text, -1), file)
		require.Equal(t, strings.Count(texts[file], "\n"), strings.Count(text, "\n"), file)
	}
	language := Texts(texts)["language.txt"]
	require.Contains(t, language, "\nlanguage.direction = rtl\n")
	require.Contains(t, language, "\nlanguage.name = [")
}

// One folder of data makes the language: a program that is compiled with the overlay speaks
// it, lacks nothing that English has, and nothing else was touched.
func TestTheOverlayIsALanguage(t *testing.T) {
	root, err := filepath.Abs("../..")
	require.NoError(t, err)
	list, err := Overlay(root, t.TempDir())
	require.NoError(t, err)
	out := t.TempDir()
	_, err = tools.Command{
		Step: "writing the static pages", Dir: root, Env: tools.CleanEnv(), Name: "go",
		Args: []string{"run", "-overlay=" + list, "./build/frame", "a.css", "first.js", "a.js", "a.press", "1", "b.press", "2", "ahead.js", "a.woff2", out},
	}.Run(context.Background())
	require.NoError(t, err)
	page, err := os.ReadFile(filepath.Join(out, Language+".html"))
	require.NoError(t, err)
	require.Contains(t, string(page), `<html lang="qps" dir="rtl">`)
	require.Contains(t, string(page), Text("When to call"))
	_, err = os.Stat(filepath.Join(root, "core/guide/text", Language))
	require.True(t, os.IsNotExist(err), "the sources have no such folder")
}
