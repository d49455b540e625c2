package reading

import (
	"strings"
	"unicode"
)

// Sentences parts a text into sentences: at the end of each line, and after a full stop,
// question or exclamation mark that a space or a closing mark follows. Three dots are a gap
// to be filled in and end nothing. What holds no letter and no digit is no sentence.
func Sentences(text string) []string {
	var all []string
	for line := range strings.SplitSeq(text, "\n") {
		runes, from := []rune(line), 0
		for i := range runes {
			if endsSentence(runes, i) {
				all, from = keep(all, runes[from:i+1]), i+1
			}
		}
		all = keep(all, runes[from:])
	}
	return all
}

func keep(all []string, sentence []rune) []string {
	text := strings.TrimSpace(string(sentence))
	if strings.IndexFunc(text, inWord) < 0 {
		return all
	}
	return append(all, text)
}

func endsSentence(line []rune, i int) bool {
	if !strings.ContainsRune(".?!", line[i]) || gap(line, i) {
		return false
	}
	return i+1 == len(line) || unicode.IsSpace(line[i+1]) || strings.ContainsRune(`")”»`, line[i+1])
}

// gap tells whether the dot at i is one of several.
func gap(line []rune, i int) bool {
	return line[i] == '.' && (i > 0 && line[i-1] == '.' || i+1 < len(line) && line[i+1] == '.')
}

// Words parts a sentence into words. A hyphen or an apostrophe inside a word belongs to it, so
// does what stands between the digits of a number or a time.
func Words(sentence string) []string {
	var words []string
	for field := range strings.FieldsFuncSeq(sentence, func(r rune) bool { return unicode.IsSpace(r) || strings.ContainsRune(`"/()`, r) }) {
		if word := strings.TrimFunc(field, func(r rune) bool { return !inWord(r) }); word != "" {
			words = append(words, word)
		}
	}
	return words
}

func inWord(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }
