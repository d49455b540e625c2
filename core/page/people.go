package page

import (
	"strings"
	"unicode/utf8"

	"newel/core/guide"
	"newel/core/merge"
)

// People names who changed a plan: the helper whose device it was, as far as they said so.
type People struct {
	Voice guide.Voice
	Doc   *merge.Doc
	Me    merge.Actor // the number of this device
	Known bool        // false: it has none yet
}

func (p People) isMe(s merge.Stamp) bool { return p.Known && s.Actor == p.Me }

// name gives what to call a device in the middle of a sentence.
func (p People) name(s merge.Stamp) string {
	if p.isMe(s) {
		return p.Voice.Say("people.you")
	}
	if name := p.Doc.HandOf(s.Actor); name != "" {
		return name
	}
	if s.Actor == merge.Maker {
		return p.Voice.Say("people.maker")
	}
	return p.Voice.Say("people.somebody")
}

// names lists what to call several, each once. Two who have not said who they are count as
// one "somebody".
func (p People) names(stamps []merge.Stamp) []string {
	var all []string
	had := map[string]bool{}
	for _, s := range stamps {
		if name := p.name(s); !had[name] {
			had[name] = true
			all = append(all, name)
		}
	}
	return all
}

// starting begins a sentence with what a device is called. A name stays as it was typed.
func (p People) starting(s merge.Stamp, text string) string {
	if !p.isMe(s) && p.Doc.HandOf(s.Actor) != "" {
		return text
	}
	return capital(text)
}

// capital begins a sentence.
func capital(text string) string {
	_, first := utf8.DecodeRuneInString(text)
	return strings.ToUpper(text[:first]) + text[first:]
}
