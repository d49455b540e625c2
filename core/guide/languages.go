package guide

import "strings"

// The directions in which a language is written, as HTML's attribute dir names them.
const (
	LeftToRight = "ltr"
	RightToLeft = "rtl"
)

// Name gives the name of a language in that language, for those who speak it: "Español".
// It is "" for a tag that is not among Languages.
func Name(tag string) string { return ofLanguage(tag, "language.name") }

// Direction gives how a language is written, LeftToRight or RightToLeft.
func Direction(tag string) string {
	if ofLanguage(tag, "language.direction") == RightToLeft {
		return RightToLeft
	}
	return LeftToRight
}

// ofLanguage reads one line of a language's language.txt, and not the whole book: the name
// of every language stands on every page, and most people need the words of one.
func ofLanguage(tag, key string) string {
	data, err := texts.ReadFile("text/" + tag + "/language.txt")
	if err != nil {
		return ""
	}
	_, rest, ok := strings.Cut("\n"+string(data), "\n"+key+" = ")
	if !ok {
		return ""
	}
	value, _, _ := strings.Cut(rest, "\n")
	return value
}
