package app

import (
	"strconv"
	"strings"
	"time"

	"newel/core/page"
	"newel/core/plan"
)

// What was taken out last stands under "undo.N": the end of the link of the plan after it, when
// that was, in seconds since 1970, the plan before it, and what was said of it, a space between
// them. It is offered back for undoFor, as long as nothing else was changed.

// undoFor is how long it is offered: somebody may put the phone down in between.
const undoFor = 15 * time.Minute

// canUndo has the next screens offer to put back what an act took out: before is the link of
// the plan before it, said what was said of it.
func (s *session) canUndo(before, said string) {
	if s.full || before == s.fragment() {
		return
	}
	when := strconv.FormatInt(s.now.Unix(), 10)
	s.keep(keyUndo+planKey(s.doc.Number), endOf(s.fragment())+" "+when+" "+before+" "+said)
}

// atUndo leads to the offer, where the screen has one.
func (s *session) atUndo() {
	if _, _, ok := s.undoable(); ok {
		s.out.Focus = "notice-undo"
	}
}

// undoable gives the plan before, and what was said of what was taken out; ok is false where
// there is nothing to put back.
func (s *session) undoable() (before plan.Plan, said string, ok bool) {
	key := keyUndo + planKey(s.doc.Number)
	parts := strings.SplitN(s.kept[key], " ", 4)
	if len(parts) != 4 {
		return before, "", false
	}
	at, err := strconv.ParseInt(parts[1], 10, 64)
	if passed := s.now.Sub(time.Unix(at, 0)); err != nil || passed < 0 || passed > undoFor {
		s.drop(key) // what was taken out does not stay on the device
		return before, "", false
	}
	if parts[0] != endOf(s.fragment()) {
		return before, "", false
	}
	doc, err := s.decode(parts[2])
	if err != nil || doc.Number != s.doc.Number {
		return before, "", false
	}
	return planOf(doc), plan.Clean(parts[3]), true
}

// undoNotice offers to put back what was just taken out, on the page from.
func (s *session) undoNotice(from string) []page.Notice {
	_, said, ok := s.undoable()
	if !ok {
		return nil
	}
	back := page.Act{Path: "/undo", Button: s.voice.Say("filled.undo"), Fields: []page.Hidden{{Name: "from", Value: from}}}
	return []page.Notice{{ID: "undo", Text: said, Acts: []page.Act{back}}}
}

// undo puts back what was taken out, as one change, and shows the page that it was offered on.
func (s *session) undo(p plan.Plan) {
	if len(s.in.Fields) == 0 {
		s.plan(p) // only asked for, such as by the browser's way back
		return
	}
	said := "filled.undone"
	if before, _, ok := s.undoable(); ok {
		s.base = s.doc // it is said of the plan as it stands here
		s.drop(keyUndo + planKey(p.Number))
		p = s.edited(p, before)
	} else {
		said = "undo.too-late"
	}
	if s.field("from") == "split" {
		s.backFrom(p)
	} else {
		s.backToList(p)
	}
	s.out.Push, s.out.Focus, s.out.Say = false, "title", s.voice.Say(said)
}
