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
	s = strings.ToValidUTF8(s, "")
	s = strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r):
			return ' '
		case unicode.Is(unicode.C, r) || unicode.Is(unicode.Other_Default_Ignorable_Code_Point, r):
			return -1
		}
		return r
	}, s)
	return strings.Join(strings.Fields(s), " ")
}
