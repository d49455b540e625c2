package link

import (
	"strings"
)

// mostPieces is how many pieces of a text are tried as one link that was broken into
// lines. Each try that does not fit is caught by the checksum; together they raise the
// odds of taking a wrong one by so much, so they are few.
const mostPieces = 6

// Trim finds the fragment in what stands behind # in an address, or in a text that was
// pasted: a whole address, a message with an address in it. Taken off are quotes and
// brackets around it, what a sentence puts behind it, line ends within it, percent-encoding,
// and what services hang on to addresses. Where nothing in it is a link it gives the
// text’s first piece, which Decode refuses in its own words.
func Trim(text string) string {
	if len(text) > 2*MaxLength {
		text = text[:2*MaxLength]
	}
	text = unescape(unescape(text)) // some services escape twice
	rest := text
	for range mostPieces { // a hostile text may have any number of them
		_, behind, found := strings.Cut(rest, "#")
		if !found {
			break
		}
		if fragment, ok := find(behind); ok {
			return fragment
		}
		rest = behind
	}
	fragment, ok := find(text)
	if _, behind, found := strings.Cut(text, "#"); !ok && found {
		fragment, _ = find(behind)
	}
	return fragment
}

// find looks for a link at the beginning of a text.
func find(text string) (fragment string, ok bool) {
	pieces := strings.FieldsFunc(text, space)
	if len(pieces) == 0 {
		return "", false
	}
	joined := ""
	for _, piece := range pieces[:min(len(pieces), mostPieces)] {
		joined += piece
		for _, try := range []string{joined, strings.TrimRight(joined, "-_"), strings.TrimLeft(joined, "-_"), strings.Trim(joined, "-_")} {
			if try = letters(try); fits(try) {
				return try, true
			}
		}
	}
	return letters(pieces[0]), false
}

func space(r rune) bool {
	return r <= ' ' || r == '\u00a0' || r == '\u00ad' || r >= '\u2000' && r <= '\u200f' || r == '\u2028' || r == '\ufeff'
}

// letters cuts a text down to the letters of a link: those before the first other one,
// once brackets and quotes before them are taken off.
func letters(text string) string {
	start := strings.IndexFunc(text, letter)
	if start < 0 {
		return ""
	}
	text = text[start:]
	if end := strings.IndexFunc(text, func(r rune) bool { return !letter(r) }); end >= 0 {
		text = text[:end]
	}
	return text
}

func letter(r rune) bool {
	return r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '-' || r == '_'
}

// fits tells whether a text has the checksum of a link.
func fits(text string) bool {
	whole, ok := bytesOf(text)
	if !ok {
		return false
	}
	if whole[0]>>2 == 0 {
		return oldFits(whole)
	}
	_, ok = unseal(whole)
	return ok
}

// unescape undoes percent-encoding; a % that begins no escape stays.
func unescape(text string) string {
	if !strings.Contains(text, "%") {
		return text
	}
	var b strings.Builder
	for i := 0; i < len(text); i++ {
		if text[i] == '%' && i+2 < len(text) {
			if hi, lo := hex(text[i+1]), hex(text[i+2]); hi >= 0 && lo >= 0 {
				b.WriteByte(byte(hi<<4 | lo))
				i += 2
				continue
			}
		}
		b.WriteByte(text[i])
	}
	return b.String()
}

func hex(c byte) int {
	switch {
	case c >= '0' && c <= '9':
		return int(c - '0')
	case c >= 'a' && c <= 'f':
		return int(c-'a') + 10
	case c >= 'A' && c <= 'F':
		return int(c-'A') + 10
	}
	return -1
}
