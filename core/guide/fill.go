package guide

import "strings"

// fill replaces each {name} that has an argument. A value is put in as it is and
// not looked through again, so a name typed as "{n}" stays what it is; where it meets the
// text, the joints of the language hold. By hand, because a strings.Replacer made for each
// text took half the time of a page.
func fill(text string, args []Arg, joints []joint) string {
	if len(args) == 0 || strings.IndexByte(text, '{') < 0 {
		return text
	}
	var b strings.Builder
	for {
		open := strings.IndexByte(text, '{')
		if open < 0 {
			break
		}
		before := text[:open]
		text = text[open:]
		value, length, ok := argument(text, args)
		if ok && len(joints) > 0 {
			before, value = meet(joints, before, value)
		}
		b.WriteString(before)
		b.WriteString(value)
		text = text[length:]
		if ok && strings.HasSuffix(value, ".") && strings.HasPrefix(text, ".") && !strings.HasPrefix(text, "...") {
			text = text[1:] // "at 5:30 a.m." ends with one point
		}
	}
	b.WriteString(text)
	return b.String()
}

// argument gives the value of the {name} at the start of text and how long that is;
// where there is no such argument, the bracket itself.
func argument(text string, args []Arg) (value string, length int, ok bool) {
	end := strings.IndexByte(text, '}')
	for _, a := range args {
		if end > 0 && text[1:end] == a.Name {
			return a.Value, end + 1, true
		}
	}
	return text[:1], 1, false
}
