package plan

import (
	"strings"
	"unicode"
)

// Clean makes a typed or received text safe to show in a line: white space of any
// kind becomes one space, and control characters, direction overrides, invisible
// joiners and broken UTF-8 are dropped, so that a name cannot turn a line around
// or hide in it.
func Clean(s string) string {
	s = strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) {
			return ' '
		}
		return visible(r)
	}, strings.ToValidUTF8(s, ""))
	return strings.Join(strings.Fields(s), " ")
}

// CleanLines does the same to a text of several lines, such as a calendar file, and
// leaves its spaces and line ends as they are, but for carriage returns.
func CleanLines(s string) string {
	return strings.Map(func(r rune) rune {
		if r == '\n' || r == '\t' {
			return r
		}
		return visible(r)
	}, strings.ToValidUTF8(s, ""))
}

// visible gives -1, which drops it, for a character that cannot be seen.
func visible(r rune) rune {
	if unicode.Is(unicode.C, r) || unicode.Is(unicode.Other_Default_Ignorable_Code_Point, r) {
		return -1
	}
	return r
}
