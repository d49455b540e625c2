// Package message knows what a text message costs and how a page opens one ready
// written.
//
// A phone network carries a message in parts of 140 octets (3GPP TS 23.040 9.2.3.24.1).
// As long as every letter is in the GSM 7 bit default alphabet (3GPP TS 23.038 6.2.1)
// that is 160 letters, or 153 in each of several parts, whose header takes the rest. One
// letter outside of it, such as í or ’, and the whole message goes out in UCS-2: 70
// letters, or 67 in each part. People pay for parts, and long rows of them get lost.
//
// Parts counts, NotGSM names the letters that make a message dear, and SMS writes the
// address that opens a message (RFC 5724). Nothing in here sends anything.
package message

import (
	"strings"
	"unicode/utf16"
)

// Alphabet is how the letters of a message go over the air.
type Alphabet uint8

// The alphabets.
const (
	GSM7 Alphabet = iota // seven bits a letter
	UCS2                 // sixteen bits, for everything else
)

// basic is the GSM 7 bit default alphabet (3GPP TS 23.038 6.2.1) without the escape. Ç is
// in it and ç is not: tables that say otherwise turn the capital into the small letter.
const basic = "@£$¥èéùìòÇ\nØø\rÅåΔ_ΦΓΛΩΠΨΣΘΞÆæßÉ !\"#¤%&'()*+,-./0123456789:;<=>?¡" +
	"ABCDEFGHIJKLMNOPQRSTUVWXYZÄÖÑÜ§¿abcdefghijklmnopqrstuvwxyzäöñüà"

// extension are the letters that take an escape before them, so two septets (6.2.1.1).
const extension = "\f^{}\\[~]|€"

// rooms are what a message, and each part of a longer one, has room for, by alphabet:
// septets, or UTF-16 units.
var rooms = [...]struct{ alone, part int }{GSM7: {160, 153}, UCS2: {70, 67}}

// Cost is what a message takes on its way.
type Cost struct {
	Alphabet Alphabet
	Units    int // septets in GSM7, UTF-16 units in UCS2
	Parts    int // messages it is cut into; at least 1
	Room     int // units that each part has room for
}

// Parts works out what a text costs.
func Parts(text string) Cost {
	c := Cost{Alphabet: GSM7, Parts: 1}
	if len(NotGSM(text)) > 0 {
		c.Alphabet = UCS2
	}
	for _, r := range text {
		c.Units += width(c.Alphabet, r)
	}
	room := rooms[c.Alphabet]
	c.Room = room.alone
	if c.Units > room.alone {
		c.Room = room.part
		c.Parts = partsOf(text, c.Alphabet, room.part)
	}
	return c
}

// partsOf fills part after part. A letter of two units that does not fit at the end of
// one goes into the next: an escape or half a surrogate pair by itself is no letter.
func partsOf(text string, a Alphabet, room int) int {
	parts, left := 1, room
	for _, r := range text {
		w := width(a, r)
		if w > left {
			parts, left = parts+1, room
		}
		left -= w
	}
	return parts
}

// width is how many units a letter takes.
func width(a Alphabet, r rune) int {
	if a == UCS2 {
		return utf16.RuneLen(r)
	}
	if strings.ContainsRune(extension, r) {
		return 2
	}
	return 1
}

// NotGSM lists the letters of a text that force the whole of it into UCS-2, each once,
// in the order in which they come.
func NotGSM(text string) []rune {
	var dear []rune
	seen := ""
	for _, r := range text {
		if strings.ContainsRune(basic, r) || strings.ContainsRune(extension, r) || strings.ContainsRune(seen, r) {
			continue
		}
		seen += string(r)
		dear = append(dear, r)
	}
	return dear
}
