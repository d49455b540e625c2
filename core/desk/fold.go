package desk

import (
	"strings"
	"unicode"

	"newel/core/guide"
	"newel/core/plan"
)

// plainLetters are the accented letters of the languages that tables come in, with the plain
// ones that people type in their place.
var plainLetters = strings.NewReplacer(
	"á", "a", "à", "a", "â", "a", "ä", "a", "ã", "a", "é", "e", "è", "e", "ê", "e", "ë", "e", "í", "i", "ì", "i", "î", "i",
	"ï", "i", "ó", "o", "ò", "o", "ô", "o", "ö", "o", "õ", "o", "ú", "u", "ù", "u", "û", "u", "ü", "u", "ñ", "n", "ç", "c", "\u0301", "", "\u0303", "",
)

// words cuts a text into words of small letters without accents, and numbers. Everything else
// stands between them, but for the check marks.
func words(s string) []string {
	return strings.FieldsFunc(plainLetters.Replace(strings.ToLower(s)), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '✓' && r != '✔' && r != '☑'
	})
}

// fold is a text as it is compared: its words without anything between them.
func fold(s string) string { return strings.Join(words(s), "") }

// dictionary finds what is meant by a word of some languages.
type dictionary map[string]uint8

// add puts in the words of a key, which are divided by bars, as a meaning. The first language
// that knows a word says what it means.
func (d dictionary) add(voices []guide.Voice, key string, meaning uint8) {
	for _, v := range voices {
		for _, word := range strings.Split(v.Say(key), "|") {
			if f := fold(word); f != "" {
				if _, known := d[f]; !known {
					d[f] = meaning
				}
			}
		}
	}
}

// find looks a text up.
func (d dictionary) find(s string) (meaning uint8, ok bool) {
	meaning, ok = d[fold(s)]
	return meaning, ok
}

// firstWord is what people are shown of a key with several words.
func firstWord(v guide.Voice, key string) string {
	first, _, _ := strings.Cut(v.Say(key), "|")
	return strings.TrimSpace(first)
}

// mostShown is how many letters of a cell a sentence repeats.
const mostShown = 40

// shown is a cell as a sentence may repeat it: in one line, without what cannot be seen.
func shown(value string) string {
	if len(value) > 8*mostShown {
		value = value[:8*mostShown]
	}
	value = plan.Clean(value)
	if letters := []rune(value); len(letters) > mostShown {
		return string(letters[:mostShown]) + "…"
	}
	return value
}
