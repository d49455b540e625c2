package app

import (
	"errors"
	"slices"
	"strings"

	"newel/core/desk"
	"newel/core/link"
	"newel/core/merge"
	"newel/core/page"
	"newel/core/plan"
)

// mostLinks is how many links of one text are opened together.
const mostLinks = 30

// leastLetters is how many letters behind "#" are taken for what is left of a link.
const leastLetters = 8

// paste opens what is in a text that was pasted: a link, a message with one in it, or a
// chat in which a plan was sent back and forth.
func (s *session) paste() {
	text := s.lines("text")
	if address := deskIn(text); address != "" {
		s.in.Fragment, s.in.Path, s.in.Fields = address, "/desk", nil
		s.out.Fragment = address
		s.withPlan("/desk")
		s.out.Push = true
		return
	}
	fragment := link.Trim(text)
	word := strings.Contains(text, "#") && (fragment == wordDemo || fragment == wordStart)
	all := wholeLinks(text)
	if len(all) == 0 && !word {
		s.notPasted(text, fragment)
		return
	}
	if len(all) > 0 {
		fragment = s.together(all)
	}
	s.in.Fragment, s.in.Path, s.in.Fields = fragment, "/", nil
	s.withPlan("/")
	s.out.Push = true
	if s.out.Focus == "" {
		s.out.Focus = "title"
	}
}

// wholeLinks lists the links in a text that arrived as they were sent, each once.
func wholeLinks(text string) []string {
	var all []string
	had := map[string]bool{}
	for _, piece := range linkPieces(text) {
		fragment := link.Trim(piece)
		if _, err := link.ReadHead(fragment); errors.Is(err, link.ErrDamaged) || had[fragment] {
			continue
		}
		had[fragment] = true
		if all = append(all, fragment); len(all) == mostLinks {
			break
		}
	}
	return all
}

// linkPieces cuts a text into pieces with one link each, if any: the whole, in which
// link.Trim finds the first one however it is written, and what is behind each "#".
func linkPieces(text string) []string {
	pieces := []string{text}
	for i, behind := range strings.Split(text, "#") {
		if i > 0 {
			pieces = append(pieces, "#"+behind)
		}
	}
	return pieces
}

// together joins the links of one plan, the first that opens, and gives the link of them
// all; where none opens a plan, the first link. Links of other plans are mentioned.
func (s *session) together(all []string) string {
	docs, others := s.ofOnePlan(all)
	if others {
		s.notices = append(s.notices, page.Notice{ID: "others", Text: s.voice.Say("paste.others")})
	}
	if len(docs) == 0 {
		return all[0]
	}
	whole := docs[0]
	var noRoom []*merge.Doc
	for _, d := range docs[1:] {
		if joined, err := merge.Join(whole, d); err == nil && s.holds(joined) {
			whole = joined
		} else {
			noRoom = append(noRoom, d)
		}
	}
	s.doc = whole
	for _, d := range noRoom {
		s.putAside(d)
	}
	s.doc = nil
	return s.encode(whole)
}

// ofOnePlan reads the links of the first plan among some links, and tells whether there are
// links of others. One helper's part counts as of its plan, and adds nothing to it; whose a
// link is that cannot be read here is not known.
func (s *session) ofOnePlan(all []string) (docs []*merge.Doc, others bool) {
	main := ""
	var whose []string
	for _, fragment := range all {
		of := fragment
		d, err := s.decode(fragment)
		if head, headErr := link.ReadHead(fragment); err == nil {
			of = planKey(d.Number)
		} else if headErr == nil && head.Part {
			of = planKey(head.Number)
		}
		if err == nil && (main == "" || of == main) {
			main, docs = of, append(docs, d)
		}
		whose = append(whose, of)
	}
	if main == "" {
		main = whose[0]
	}
	return docs, slices.ContainsFunc(whose, func(of string) bool { return of != main })
}

// notPasted shows the front again, with the text and what is wrong with it.
func (s *session) notPasted(text, fragment string) {
	f := page.Front{Pasted: text}
	switch {
	case plan.Clean(text) == "":
		f.Problem = s.voice.Say("paste.empty")
	case !hasPartOfLink(text):
		f.Problem = s.voice.Say("paste.no-link")
	default:
		s.in.Fragment = fragment
		d := s.damaged()
		f.Here, f.Problem = d.Here, s.voice.Say("paste.none")+" "+d.How
	}
	s.out.Fragment = ""
	s.front(f)
	s.out.Focus, s.out.Say = "field-paste", f.Problem
}

// hasPartOfLink tells whether something in a text looks like what is left of a link: letters
// behind "#", or a text that is one long word.
func hasPartOfLink(text string) bool {
	for _, piece := range linkPieces(text)[1:] {
		if len(link.Trim(piece)) >= leastLetters {
			return true
		}
	}
	return len(strings.Fields(text)) == 1 && len(link.Trim(text)) > leastLetters
}

// deskIn gives the fragment of the desk's address in a text; "" where there is none.
func deskIn(text string) string {
	_, behind, found := strings.Cut(text, "#"+desk.Word)
	if !found {
		return ""
	}
	end := strings.IndexFunc(behind, func(r rune) bool {
		return r != '.' && r != '-' && r != '_' && (r < '0' || r > '9') && (r < 'A' || r > 'Z') && (r < 'a' || r > 'z')
	})
	if end >= 0 {
		behind = behind[:end]
	}
	if fragment := desk.Word + strings.TrimRight(behind, "."); desk.IsAddress(fragment) {
		return fragment
	}
	return ""
}
