package desk

import (
	"strconv"
	"strings"

	"newel/core/wall"
)

// keys reads a key: bare, quoted, or several with points between them.
func (r *tomlReader) keys() ([]string, bool) {
	var all []string
	for {
		r.spaces()
		key, ok := r.key()
		if !ok {
			return nil, false
		}
		all = append(all, key)
		r.spaces()
		if r.peek() != '.' {
			return all, true
		}
		if len(all) == mostParts {
			return nil, r.fault(r.line, strings.Join(all, "."), tomlUnused, r.rest())
		}
		r.at++
	}
}

func (r *tomlReader) key() (string, bool) {
	if c := r.peek(); c == '"' || c == '\'' {
		if r.follows(`"""`) || r.follows(`'''`) {
			return "", r.fault(r.line, "", tomlKey, r.rest())
		}
		return r.short(c, "")
	}
	from := r.at
	for r.at < len(r.text) && isBare(r.text[r.at]) {
		r.at++
	}
	if r.at == from {
		return "", r.fault(r.line, "", tomlKey, r.rest())
	}
	return r.text[from:r.at], true
}

func isBare(c byte) bool {
	return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || isDigit(c) || c == '-' || c == '_'
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

// value reads what stands behind the equals sign; name is the key, for the faults.
func (r *tomlReader) value(name string) (tomlValue, bool) {
	switch c := r.peek(); {
	case r.follows(`"""`), r.follows(`'''`):
		s, ok := r.long(c, name)
		return tomlValue{Kind: tomlText, Text: s}, ok
	case c == '"', c == '\'':
		s, ok := r.short(c, name)
		return tomlValue{Kind: tomlText, Text: s}, ok
	case c == '[', c == '{':
		r.fault(r.line, name, tomlUnused, r.rest())
		r.skipNested()
		return tomlValue{}, false
	}
	bare := r.bare()
	v, ok := plainValue(bare)
	timed := v.Kind == tomlDay && len(r.rest()) > 3 && r.rest()[3] == ':' // a day, a space and a time
	if ok && !timed {
		return v, true
	}
	code := tomlNoValue
	if timed || isUnused(bare) {
		code = tomlUnused
	} else if bare != "" {
		code = tomlNotQuoted
	}
	return tomlValue{}, r.fault(r.line, name, code, r.whole(bare))
}

// whole is a value that was read, with what follows it in the line: words without quotes are
// shown as they stand.
func (r *tomlReader) whole(bare string) string {
	return strings.TrimSpace(bare + r.rest())
}

// bare takes the characters of a value without quotes.
func (r *tomlReader) bare() string {
	from := r.at
	for r.at < len(r.text) && !strings.ContainsRune(" \t\r\n#,]}", rune(r.text[r.at])) {
		r.at++
	}
	return r.text[from:r.at]
}

// skipNested goes to the last line of an array or an inline table that is not used here.
func (r *tomlReader) skipNested() {
	depth := 0
	for ; r.at < len(r.text); r.at++ {
		switch c := r.text[r.at]; {
		case c == '[', c == '{':
			depth++
		case c == ']', c == '}':
			if depth--; depth == 0 {
				return
			}
		case c == '"', c == '\'':
			if end := strings.IndexByte(r.rest()[1:], c); end >= 0 {
				r.at += end + 1
			}
		case c == '#':
			r.at += len(r.rest()) - 1
		case c == '\n':
			r.line++
		}
	}
}

// plainValue reads a value without quotes.
func plainValue(s string) (tomlValue, bool) {
	if s == "true" || s == "false" {
		return tomlValue{Kind: tomlYesNo, Text: s}, true
	}
	if _, err := wall.ParseDate(s); err == nil {
		return tomlValue{Kind: tomlDay, Text: s}, true
	}
	if isClock(s) {
		return tomlValue{Kind: tomlClock, Text: s}, true
	}
	digits, ok := tomlDigits(s)
	if !ok {
		return tomlValue{}, false
	}
	if n, err := strconv.ParseInt(digits, 10, 64); err == nil {
		return tomlValue{Kind: tomlWhole, Text: s, Whole: n}, true
	}
	return tomlValue{Kind: tomlDecimal, Text: digits}, strings.ContainsAny(digits, ".eE")
}

// isClock tells whether a text is a local time, HH:MM:SS with parts of a second or none.
func isClock(s string) bool {
	whole, part, found := strings.Cut(s, ".")
	c, err := wall.ParseClock(whole)
	return err == nil && len(whole) == len("23:00:00") && c < 24*60 && allDigits(whole[6:]) && (!found || allDigits(part))
}

func allDigits(s string) bool {
	for i := range len(s) {
		if !isDigit(s[i]) {
			return false
		}
	}
	return s != ""
}

// tomlDigits looks at a decimal integer or a float and takes its underscores out. Each stands
// between digits; no needless zero stands in front; a point has digits on both sides.
func tomlDigits(s string) (string, bool) {
	body := strings.TrimPrefix(strings.TrimPrefix(s, "+"), "-")
	if len(s)-len(body) > 1 {
		return "", false
	}
	number, exponent, hasExponent := strings.Cut(strings.ReplaceAll(body, "E", "e"), "e")
	whole, part, hasPart := strings.Cut(number, ".")
	exponent = strings.TrimLeft(exponent, "+-")
	switch {
	case len(whole) > 1 && whole[0] == '0', !spaced(whole), hasPart && !spaced(part), hasExponent && !spaced(exponent):
		return "", false
	}
	digits := strings.ReplaceAll(s, "_", "")
	if strings.ContainsAny(digits, ".eE") {
		_, err := strconv.ParseFloat(digits, 64)
		return digits, err == nil
	}
	return digits, true
}

// spaced tells whether a text is digits with single underscores between them.
func spaced(s string) bool {
	for _, part := range strings.Split(s, "_") {
		if !allDigits(part) {
			return false
		}
	}
	return true
}

// isUnused tells whether a value is of a kind that TOML has and settings do not use.
func isUnused(s string) bool {
	body := strings.TrimLeft(s, "+-")
	for _, prefix := range []string{"0x", "0o", "0b", "inf", "nan"} {
		if strings.HasPrefix(body, prefix) {
			return true
		}
	}
	if len(s) >= len("1979-05-27") && s[4] == '-' && s[7] == '-' {
		return allDigits(s[:4] + s[5:7] + s[8:10]) // a day with a time, or of another century
	}
	_, err := strconv.ParseFloat(body, 64)
	_, whole := tomlDigits(body)
	return err == nil && whole // an integer or a float of too many digits
}
