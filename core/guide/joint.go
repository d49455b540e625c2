package guide

import (
	"sort"
	"strings"
	"unicode/utf8"
)

// A joint is where a text meets what is filled into it, and where a language may change a
// word by the sound of the next one: Spanish says "Dana e Inés" and not "y Inés", "a la
// 1:30" but "a las 2:30", "al hospital" and not "a el hospital". Which words change is in
// the language's words, under keys joint.N that are tried in their order:
//
//	joint.10 = before | beginnings | becomes
//	joint.20 = before | beginnings | becomes | drop
//
// before is the word or the words that stand right before the {name}; beginnings, divided
// by spaces, are what the filled-in text begins with, in small letters (the text itself
// may have capitals); becomes stands in place of before. With drop the beginning is a whole
// word, written just so, and goes away. The first that fits is the only one, so
// exceptions come first.
type joint struct {
	before, becomes string
	beginnings      []string
	drop            bool
}

// readJoints reads the joints of a book's words.
func (b *Book) readJoints() []joint {
	var keys []string
	for key := range b.words {
		if strings.HasPrefix(key, "joint.") {
			keys = append(keys, key)
		}
	}
	sort.Strings(keys)
	var all []joint
	for _, key := range keys {
		col := strings.Split(b.words[key], " | ")
		if len(col) < 3 {
			panic("guide: " + b.Language + ": " + key + " needs what stands before, what follows, and what it becomes")
		}
		all = append(all, joint{
			before: col[0] + " ", beginnings: strings.Fields(col[1]), becomes: col[2] + " ",
			drop: len(col) > 3 && col[3] == "drop",
		})
	}
	return all
}

// meet gives what a text and the value that follows it become.
func meet(joints []joint, text, value string) (before, after string) {
	if !strings.HasSuffix(text, " ") { // no word stands right before it
		return text, value
	}
	for _, j := range joints {
		if !endsWithWords(text, j.before) {
			continue
		}
		if n := j.begins(value); n > 0 {
			head := text[:len(text)-len(j.before)] + capitalAs(j.becomes, text[len(text)-len(j.before):])
			if j.drop {
				return head, value[n:]
			}
			return head, value
		}
	}
	return text, value
}

// begins gives the length of the beginning of value that a joint is about; 0: it has none.
func (j joint) begins(value string) int {
	for _, b := range j.beginnings {
		switch {
		case j.drop && strings.HasPrefix(value, b+" "):
			return len(b) + 1
		case !j.drop && len(value) >= len(b) && strings.ToLower(value[:len(b)]) == b:
			return len(b)
		}
	}
	return 0
}

// endsWithWords tells whether a text ends with whole words, in small letters or with a
// capital first.
func endsWithWords(text, words string) bool {
	at := len(text) - len(words)
	if at < 0 || text[at+1:] != words[1:] || text[at] != words[0] && text[at]+'a'-'A' != words[0] {
		return false
	}
	last, _ := utf8.DecodeLastRuneInString(text[:at])
	return at == 0 || strings.ContainsRune(" (\"¿:\u00a0", last)
}

// capitalAs gives a word a capital where another has one.
func capitalAs(word, like string) string {
	if first := like[:1]; first != strings.ToLower(first) {
		return strings.ToUpper(word[:1]) + word[1:]
	}
	return word
}
