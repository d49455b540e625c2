package desk

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// short reads a string of one line that begins with the quote.
func (r *tomlReader) short(quote byte, name string) (string, bool) {
	line, open := r.line, r.rest()
	r.at++
	var b strings.Builder
	for !r.lineEnds() {
		switch c := r.text[r.at]; {
		case c == quote:
			r.at++
			return r.sound(b.String(), line, name)
		case c == '\\' && quote == '"':
			if !r.escape(&b, name) {
				return "", false
			}
		case c < ' ' && c != '\t' || c == 0x7f:
			return "", r.fault(line, name, tomlControl, open)
		default:
			b.WriteByte(c)
			r.at++
		}
	}
	return "", r.fault(line, name, tomlOpen, open)
}

func (r *tomlReader) sound(s string, line int, name string) (string, bool) {
	if !utf8.ValidString(s) {
		return "", r.fault(line, name, tomlControl, strings.ToValidUTF8(s, "?"))
	}
	return s, true
}

// long reads a string of several lines. One that does not end is left out from its first line
// on, and the next line is read as usual.
func (r *tomlReader) long(quote byte, name string) (string, bool) {
	from, line, open := r.at, r.line, r.rest()
	end := strings.Repeat(string(quote), 3)
	r.at += len(end)
	if r.lineEnds() {
		r.nextLine()
	}
	var b strings.Builder
	for r.at < len(r.text) {
		switch c := r.text[r.at]; {
		case r.follows(end):
			r.at += len(end)
			for range 2 { // up to two quotes may stand before those that end it
				if r.peek() == quote {
					b.WriteByte(quote)
					r.at++
				}
			}
			return r.sound(b.String(), line, name)
		case c == '\\' && quote == '"':
			if !r.foldOrEscape(&b, name) {
				return "", false
			}
		case r.follows("\r\n"), c == '\n':
			b.WriteByte('\n')
			r.nextLine()
		case c < ' ' && c != '\t' || c == 0x7f:
			return "", r.fault(r.line, name, tomlControl, r.rest())
		default:
			b.WriteByte(c)
			r.at++
		}
	}
	r.at, r.line = from, line
	return "", r.fault(line, name, tomlOpen, open)
}

// foldOrEscape reads a backslash of a long string: at the end of a line it takes the line end
// and all white space after it out.
func (r *tomlReader) foldOrEscape(b *strings.Builder, name string) bool {
	rest := r.rest()
	if strings.Trim(rest[1:], " \t") != "" {
		return r.escape(b, name)
	}
	for r.nextLine(); r.at < len(r.text); {
		r.spaces()
		if !r.lineEnds() {
			break
		}
		r.nextLine()
	}
	return true
}

// escapes are those of one letter (TOML 1.0.0, String).
var escapes = map[byte]byte{'b': '\b', 't': '\t', 'n': '\n', 'f': '\f', 'r': '\r', '"': '"', '\\': '\\'}

func (r *tomlReader) escape(b *strings.Builder, name string) bool {
	rest := r.rest()
	length := 0
	if len(rest) > 1 {
		if c, ok := escapes[rest[1]]; ok {
			b.WriteByte(c)
			r.at += 2
			return true
		}
		length = map[byte]int{'u': 4, 'U': 8}[rest[1]]
	}
	if length > 0 && len(rest) >= 2+length {
		n, err := strconv.ParseUint(rest[2:2+length], 16, 32)
		if err == nil && n <= utf8.MaxRune && utf8.ValidRune(rune(n)) {
			b.WriteRune(rune(n))
			r.at += 2 + length
			return true
		}
	}
	return r.fault(r.line, name, tomlEscape, rest)
}
