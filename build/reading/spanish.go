package reading

import (
	"strings"
	"unicode"
)

// spanishSyllables counts the syllables of a Spanish word by the rules of its spelling (Real
// Academia Española, Ortografía de la lengua española, 2010: diptongos, triptongos, hiatos;
// from memory). A number counts the syllables of its digits, read out one by one.
func spanishSyllables(word string) int {
	total, part := 0, ""
	for _, r := range strings.ToLower(word) + "-" {
		switch {
		case unicode.IsDigit(r):
			total += spanishDigits[r-'0']
		case unicode.IsLetter(r):
			part += string(r)
		default:
			total += spanishPart(part)
			part = ""
		}
	}
	return max(total+spanishPart(part), 1)
}

// spanishDigits are the syllables of cero, uno, dos, tres and so on.
var spanishDigits = [...]int{2, 2, 1, 1, 2, 2, 1, 2, 2, 2}

// spanishPart counts the vowels that are not in one syllable with the vowel before them. A
// part without vowels, as in "p.m.", is read as a letter.
func spanishPart(part string) int {
	n, before := 0, ' '
	for _, r := range sounded(part) {
		if isVowel(r) && !(isVowel(before) && sameSyllable(before, r)) {
			n++
		}
		before = r
	}
	if n == 0 && part != "" {
		return 1
	}
	return n
}

// sounded leaves out what is written and not heard between vowels: the h, and the u of que,
// qui, gue, gui. A y that ends a word or stands before a consonant is a vowel.
func sounded(part string) []rune {
	var heard []rune
	runes := []rune(part)
	at := func(i int) rune {
		if i < 0 || i >= len(runes) {
			return ' '
		}
		return runes[i]
	}
	for i, r := range runes {
		front := strings.ContainsRune("eiéí", at(i+1))
		switch {
		case r == 'h' && at(i-1) != 'c':
		case r == 'u' && front && (at(i-1) == 'q' || at(i-1) == 'g'):
		case r == 'y' && !isVowel(at(i+1)):
			heard = append(heard, 'i')
		default:
			heard = append(heard, r)
		}
	}
	return heard
}

func isVowel(r rune) bool { return strings.ContainsRune("aeiouáéíóúü", r) }

// sameSyllable tells whether two vowels in a row are one syllable: two weak ones are (ciudad,
// cuídese), a weak one and a strong one are (puerta, aire) unless the weak one has the accent
// (día, baúl), and two strong ones are not (leer, ahora). Two of the same kind, as in
// "chiita", are not.
func sameSyllable(a, b rune) bool {
	weak := func(r rune) bool { return strings.ContainsRune("iuíúü", r) }
	accented := func(r rune) bool { return r == 'í' || r == 'ú' }
	switch {
	case a == b:
		return false
	case weak(a) && weak(b):
		return true
	case weak(a):
		return !accented(a)
	case weak(b):
		return !accented(b)
	}
	return false
}
