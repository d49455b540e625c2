package guide

import (
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// testdata/guide/plurals.txt: the rules of CLDR 48 (cldr-core 48.2.0) as they are published,
// and the forms that Intl.PluralRules of Node v20.20.2 (CLDR 48.0) gives whole numbers. Five
// languages, so that a third one needs nothing but its folder.
func TestTheFormsOfNumbersAreCLDRs(t *testing.T) {
	data, err := os.ReadFile("../../testdata/guide/plurals.txt")
	require.NoError(t, err)
	rules, tried := map[string]map[string]string{}, 0
	lines := strings.Split(strings.TrimSpace(string(data)), "\n")
	for _, line := range lines {
		if col := strings.Split(line, "\t"); col[0] == "rule" {
			if rules[col[1]+col[2]] == nil {
				rules[col[1]+col[2]] = map[string]string{}
			}
			rules[col[1]+col[2]]["plural."+col[3]] = col[4]
		}
	}
	for _, line := range lines {
		col := strings.Split(line, "\t")
		if col[0] != "forms" {
			continue
		}
		b := &Book{Language: col[1], words: rules[col[1]+col[2]]}
		read := b.readRules("plural.")
		require.Len(t, read, len(b.words))
		for _, n := range spans(t, col[4]) {
			require.Equal(t, col[3], formOf(read, n), "%s %s %d", col[1], col[2], n)
			require.Equal(t, col[3], formOf(read, -n), "%s %s -%d", col[1], col[2], n)
			tried++
		}
	}
	require.Equal(t, 5*2*(251+12), tried)
}

// spans reads "0 2-4".
func spans(t *testing.T, text string) (all []int) {
	for one := range strings.FieldsSeq(text) {
		low, high, is := strings.Cut(one, "-")
		if !is {
			high = low
		}
		from, err := strconv.Atoi(low)
		require.NoError(t, err)
		to, err := strconv.Atoi(high)
		require.NoError(t, err)
		for n := from; n <= to; n++ {
			all = append(all, n)
		}
	}
	return all
}

// The rules of our own languages are CLDR's, but for a form that says why it is left out.
func TestTheRulesOfOurLanguagesAreCLDRs(t *testing.T) {
	data, err := os.ReadFile("../../testdata/guide/plurals.txt")
	require.NoError(t, err)
	leftOut := map[string]bool{"es plural.many": true} // a million and its multiples: language.txt
	seen := map[string]bool{}
	for line := range strings.SplitSeq(string(data), "\n") {
		col := strings.Split(line, "\t")
		key := map[string]string{"cardinal": "plural.", "ordinal": "ordinal-rule."}
		if col[0] != "rule" || (col[1] != "en" && col[1] != "es") {
			continue
		}
		name := key[col[2]] + col[3]
		seen[col[1]+" "+name] = true
		if !leftOut[col[1]+" "+name] {
			require.Equal(t, col[4], Open(col[1]).words[name], line)
		}
	}
	for _, language := range []string{"en", "es"} {
		for _, key := range sorted(Open(language).words) {
			if strings.HasPrefix(key, "plural.") || strings.HasPrefix(key, "ordinal-rule.") {
				require.True(t, seen[language+" "+key], "CLDR has no %s for %s", key, language)
			}
		}
	}
}

// The syntax of Unicode Technical Standard 35, part 3, 5.1; its own examples where it has one.
func TestConditionsThatCannotBeReadAreMistakes(t *testing.T) {
	for _, text := range []string{"", "n", "n = ", "n = x", "x = 1", "n % 0 = 1", "n % = 1", "n = 4..2", "n = -1", "n = 1 and", "ni = 1", "n = 1,", "= 1"} {
		b := &Book{Language: "xx", words: map[string]string{"plural.one": text}}
		require.Panics(t, func() { b.readRules("plural.") }, "%q", text)
	}
	for text, numbers := range map[string]map[int]bool{
		"n = 2..4,15":                  {2: true, 3: true, 4: true, 15: true, 1: false, 5: false, 14: false},
		"n != 2..4, 15":                {2: false, 15: false, 1: true, 16: true},
		"n % 10 = 1 and n % 100 != 11": {1: true, 21: true, 11: false, 111: false, 121: true},
		"i = 0 or n = 5 @integer 0, 5": {0: true, 5: true, 1: false},
		"v = 0":                        {0: true, 7: true},
		"f != 0":                       {0: false, 7: false},
	} {
		any, ok := condition(text)
		require.True(t, ok)
		for n, want := range numbers {
			form := formOf([]pluralRule{{"one", any}}, n)
			require.Equal(t, want, form == "one", "%s of %d", text, n)
		}
	}
}
