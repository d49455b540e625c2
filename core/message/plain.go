package message

import "strings"

// plainer are letters that the alphabet of text messages lacks (3GPP TS 23.038 6.2.1), with
// the ones that people write in their place when they text: Spanish á, í, ó and ú, and the
// curly quotes.
var plainer = strings.NewReplacer(
	"á", "a", "í", "i", "ó", "o", "ú", "u", "Á", "A", "Í", "I", "Ó", "O", "Ú", "U",
	"’", "'", "‘", "'", "“", `"`, "”", `"`,
)

// Plain writes a word of ours, such as the day "sábado, 13 de marzo", in the letters of text
// messages, since one letter outside of them doubles what the message costs. It is not for
// names that somebody typed: those are theirs. Letters that it does not know stay.
func Plain(text string) string { return plainer.Replace(text) }
