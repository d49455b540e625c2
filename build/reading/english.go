package reading

import (
	"strings"
	"unicode"
)

// englishSyllables counts the syllables of an English word: its groups of vowels, less the
// silent ones, more where two vowels are spoken apart. Words that the rules get wrong stand
// in englishOdd. A number counts one for each digit, which is near to how it is read out.
func englishSyllables(word string) int {
	total, part := 0, ""
	for _, r := range strings.ToLower(word) + "-" {
		switch {
		case unicode.IsDigit(r):
			total++
		case unicode.IsLetter(r):
			part += string(r)
		case r != '\'' && r != '’':
			total += englishPart(part)
			part = ""
		}
	}
	return max(total, 1)
}

// englishPart counts a part of a word without a hyphen.
func englishPart(part string) int {
	if part == "" {
		return 0
	}
	if n, ok := englishOdd[strings.TrimSuffix(part, "s")]; ok {
		return n
	}
	n := vowelGroups(part) - silentEnd(part)
	for _, apart := range englishApart {
		n += strings.Count(part, apart)
	}
	for _, together := range englishTogether {
		n -= strings.Count(part, together)
	}
	return max(n, 1)
}

func vowelGroups(part string) int {
	n, inside := 0, false
	for _, r := range part {
		vowel := strings.ContainsRune("aeiouyáéíóú", r)
		if vowel && !inside {
			n++
		}
		inside = vowel
	}
	return n
}

// silentEnd is 1 where the e at the end is not spoken, as in "shave", "shaved" and "shaves",
// and 0 where it is, as in "table", "settled", "needed" or "glasses".
func silentEnd(part string) int {
	stem, cut := part, ""
	for _, end := range []string{"e", "es", "ed"} {
		if s, ok := strings.CutSuffix(part, end); ok && len(s) > 1 {
			stem, cut = s, end
		}
	}
	before, last := stem[:len(stem)-1], stem[len(stem)-1:]
	switch {
	case cut == "", strings.Contains("aeiouy", last),
		last == "l" && !strings.ContainsAny(before[max(len(before)-1, 0):], "aeiouylr"),
		cut == "ed" && (last == "t" || last == "d"),
		cut == "es" && hisses(stem):
		return 0
	}
	return 1
}

// hisses tells whether a plural's -es is spoken after it.
func hisses(stem string) bool {
	return strings.Contains("sxzcg", stem[len(stem)-1:]) || strings.HasSuffix(stem, "ch") || strings.HasSuffix(stem, "sh")
}

// englishApart are neighbours among vowels that are two sounds; englishTogether are groups
// that count one too many: an -io- that is one sound, an e inside a word that is silent.
var (
	englishApart    = []string{"ia", "io", "iu", "eo", "ua", "uou", "iet", "uet", "iest", "ying", "oing", "eing", "ier"}
	englishTogether = []string{"tion", "sion", "cial", "tial", "eous", "lian", "ely", "ement"}
)

// englishOdd are words that the rules get wrong, without the s of a plural. From memory, as a
// dictionary parts them; build/peers holds them against a library.
var englishOdd = map[string]int{
	"anesthesia": 4, "every": 2, "everybody": 4, "everything": 3, "everywhere": 3, "people": 2, "reaction": 3, "somebody": 3, "someone": 2,
	"something": 2, "sometime": 2, "somewhere": 2, "wednesday": 2,
}
