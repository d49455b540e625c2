// Package pseudo makes a language that nobody speaks out of the English texts, to see what
// another language does to the page: every text is some 40 % longer, is full of accents, and
// runs from right to left. It is a folder beside core/guide/text/en and nothing else, as any
// language is; no line of Go, TypeScript or CSS knows of it. Two entry points: Texts makes
// its files, and Overlay has the Go tools take them as if they stood in the sources.
//
// Accents show a text that went past the guide, or that was put together of pieces. Each
// word stands between the marks that turn its letters around (UAX #9, 2.2: RLO … PDF, with an
// RLM on either side), so that browsers order it, with the numbers and names in it, as they
// order Hebrew or Arabic, and a person can still read it.
package pseudo

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// Language is the tag of the pseudo-language: "qps" lies in the range qaa–qtz that ISO 639-2
// reserves for private use.
const Language = "qps"

// Longer is by how much a text grows, in its letters. English is short: a rule of thumb
// for translations is a third more, from memory.
const Longer = 0.4

// entryFiles are those of core/guide (book.go) that hold entries; all others hold lines of
// the form key = text.
var entryFiles = map[string]bool{"steps.txt": true, "duties.txt": true, "signs.txt": true, "chapters.txt": true}

// Texts turns the files of a language's folder, name → content, into those of the
// pseudo-language.
func Texts(english map[string]string) map[string]string {
	out := map[string]string{}
	for name, text := range english {
		lines := strings.Split(text, "\n")
		for i, line := range lines {
			switch {
			case line == "" || line[0] == '#':
			case entryFiles[name]:
				lines[i] = entryLine(line)
			default:
				lines[i] = wordLine(name, line)
			}
		}
		out[name] = strings.Join(lines, "\n")
	}
	return out
}

// entryLine keeps what tells one line of an entry from another: "why: ", "- ", an [id].
func entryLine(line string) string {
	if line[0] == '[' {
		return line
	}
	for _, mark := range []string{"why: ", "coach: ", "patient: ", "- "} {
		if text, ok := strings.CutPrefix(line, mark); ok {
			return mark + Text(text)
		}
	}
	return Text(line)
}

// wordLine changes what stands after the key. What language.txt says of the language itself
// is data and no text: of it only the name and the direction are others.
func wordLine(file, line string) string {
	key, text, ok := strings.Cut(line, " = ")
	switch {
	case !ok:
		return line
	case key == "language.direction":
		return key + " = rtl"
	case key == "language.name":
		return key + " = [" + Text(text) + "]"
	case file == "language.txt" && key != "language.set":
		return line
	}
	return key + " = " + Text(text)
}

// Text turns one text. Its {names} stay as they are: they are filled in later.
func Text(text string) string {
	var b strings.Builder
	want := 0.0 // letters still to be added
	for len(text) > 0 {
		if text[0] == '{' {
			if end := strings.IndexByte(text, '}'); end > 0 {
				b.WriteString(text[:end+1])
				text = text[end+1:]
				continue
			}
		}
		word := text[:wordLength(text)]
		if word == "" {
			_, size := utf8.DecodeRuneInString(text)
			b.WriteString(text[:size])
			text = text[size:]
			continue
		}
		want += Longer * float64(utf8.RuneCountInString(word))
		longer, added := turned(word, int(want))
		want -= float64(added)
		b.WriteString(longer)
		text = text[len(word):]
	}
	return b.String()
}

// wordLength is how many bytes of letters a text begins with.
func wordLength(text string) int {
	for i, r := range text {
		if !unicode.IsLetter(r) {
			return i
		}
	}
	return len(text)
}

// The marks around a word, see the package comment.
const (
	before = "\u200f\u202e"
	after  = "\u202c\u200f"
)

// turned writes a word with accents and up to n letters more: vowels twice, then the last
// letter again, as far as a word of that length may grow.
func turned(word string, n int) (text string, added int) {
	var b strings.Builder
	b.WriteString(before)
	var last rune
	for _, r := range word {
		last = r
		if a, ok := accents[unicode.ToLower(r)]; ok {
			last = a
		}
		if unicode.IsUpper(r) {
			last = unicode.ToUpper(last)
		}
		b.WriteRune(last)
		if added < n && strings.ContainsRune("aeiouAEIOU", r) {
			b.WriteRune(unicode.ToLower(last))
			added++
		}
	}
	for most := utf8.RuneCountInString(word); added < n && added < most; added++ {
		b.WriteRune(unicode.ToLower(last))
	}
	b.WriteString(after)
	return b.String(), added
}

var accents = map[rune]rune{
	'a': 'ä', 'b': 'ƀ', 'c': 'ç', 'd': 'đ', 'e': 'é', 'f': 'ƒ', 'g': 'ĝ', 'h': 'ĥ', 'i': 'ï', 'j': 'ĵ', 'k': 'ķ', 'l': 'ļ',
	'm': 'ɱ', 'n': 'ñ', 'o': 'ö', 'p': 'þ', 'r': 'ŕ', 's': 'š', 't': 'ţ', 'u': 'ü', 'w': 'ŵ', 'y': 'ÿ', 'z': 'ž',
}
