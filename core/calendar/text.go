package calendar

import (
	"strings"

	"newel/core/plan"
)

// escape writes a TEXT value (RFC 5545 3.3.11): backslash, semicolon and comma get a
// backslash, a line end becomes \n. A colon stays.
var escape = strings.NewReplacer(`\`, `\\`, ";", `\;`, ",", `\,`, "\n", `\n`).Replace

// unescape reads a TEXT value. Unlike go-ical's Text, it does not end at a comma that
// somebody forgot to escape, and it takes a backslash before any character.
func unescape(s string) string {
	if !strings.Contains(s, `\`) {
		return s
	}
	var b strings.Builder
	escaped := false
	for _, r := range s {
		switch {
		case escaped && (r == 'n' || r == 'N'):
			b.WriteByte('\n')
		case escaped || r != '\\':
			b.WriteRune(r)
		}
		escaped = r == '\\' && !escaped
	}
	return b.String()
}

// tidy cleans a text that goes into a file, line by line: no control characters, no
// CR, no broken UTF-8, so that nothing typed can become a line of the file.
func tidy(s string) string {
	s = strings.ReplaceAll(s, "\r\n", "\n")
	s = strings.ReplaceAll(s, "\r", "\n")
	var lines []string
	for line := range strings.SplitSeq(s, "\n") {
		if line = plan.Clean(line); line != "" {
			lines = append(lines, line)
		}
	}
	return strings.Join(lines, "\n")
}

// cut shortens a text to so many characters, and says so by its last one.
func cut(s string, most int) string {
	letters := []rune(s)
	if len(letters) <= most {
		return s
	}
	return strings.TrimSpace(string(letters[:most-1])) + "…"
}
