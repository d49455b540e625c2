package calendar

import (
	"strings"
	"unicode/utf8"
)

// lineOctets is how long a line may be without its CRLF (RFC 5545 3.1).
const lineOctets = 75

// fold breaks long lines as RFC 5545 3.1 has it: CRLF and one space. go-ical writes
// lines of any length, which some readers cut off. The RFC counts octets and would
// let a break fall within a character; many readers decode before they unfold, so
// here it never does.
func fold(text string) string {
	var b strings.Builder
	b.Grow(len(text) + len(text)/16)
	for line := range strings.SplitSeq(text, "\r\n") {
		if b.Len() > 0 {
			b.WriteString("\r\n")
		}
		foldLine(&b, line)
	}
	return b.String()
}

func foldLine(b *strings.Builder, line string) {
	room := lineOctets
	for len(line) > room {
		cut := room
		for !utf8.RuneStart(line[cut]) {
			cut--
		}
		b.WriteString(line[:cut])
		b.WriteString("\r\n ")
		line, room = line[cut:], lineOctets-1 // the space counts
	}
	b.WriteString(line)
}

// unfold gives the logical lines of a text. It takes lines that end in LF or CR
// alone, as files have them that went through a mail or an editor, and a byte order
// mark. A first line that goes on from nothing is left out, and so are empty lines.
func unfold(text string) []string {
	text = strings.TrimPrefix(text, "\ufeff")
	text = strings.ReplaceAll(text, "\r\n", "\n")
	text = strings.ReplaceAll(text, "\r", "\n")
	var lines []string
	var parts []string // of the line under way; joined once, so that a hostile file costs no more than its length
	keep := func() {
		if len(parts) > 0 {
			lines = append(lines, strings.Join(parts, ""))
		}
		parts = parts[:0]
	}
	for line := range strings.SplitSeq(text, "\n") {
		switch {
		case line == "":
		case line[0] == ' ' || line[0] == '\t':
			if len(parts) > 0 {
				parts = append(parts, line[1:])
			}
		default:
			keep()
			parts = append(parts, line)
		}
	}
	keep()
	return lines
}
