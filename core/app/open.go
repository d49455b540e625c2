package app

import (
	"errors"

	"newel/core/link"
	"newel/core/merge"
	"newel/core/page"
	"newel/core/plan"
)

// errFull says that a plan is more than a page can lay out.
var errFull = errors.New("the plan holds more than a page can lay out; something has to be taken out of it")

// open reads the plan of the fragment and joins it with this device's copy of the same
// plan. Where there is none to show it has answered already.
//
// Joining loses nobody's change and is the same in any order, any number of times, so
// nothing has to be asked first. A link that adds nothing, such as an old message tapped
// again or the browser's way back, shows the device's plan without a word; what a link
// does add is listed until it was read (unread.go), and where two people changed the same
// thing apart from each other, the page asks (settle.go). The plan of another number is
// another plan, and is kept beside this one.
func (s *session) open() (plan.Plan, bool) {
	s.in.Fragment = link.Trim(s.in.Fragment)
	theirs, err := s.decode(s.in.Fragment)
	if err != nil {
		s.broken(err)
		return plan.Plan{}, false
	}
	mine, have := s.stored(keyPlan, theirs.Number)
	s.watchHand(mine, theirs)
	switch {
	case !have && !s.keepDoc(theirs):
		s.broken(errFull)
		return plan.Plan{}, false
	case !have:
		s.haveRead()
	case mine.Covers(theirs):
		s.keepDoc(mine)
	default:
		s.join(mine, theirs)
	}
	return s.doc.Plan(), true
}

// join brings the device's copy and another one together. Where both are more than a plan
// can hold, the device's stays and the other is put aside until there is room.
func (s *session) join(mine, theirs *merge.Doc) {
	s.doc = mine
	joined, err := merge.Join(mine, theirs)
	if err != nil { // two numbers; whoever calls has looked at them
		return
	}
	key := keyOther + planKey(mine.Number)
	if s.keepDoc(joined) {
		if other, ok := s.stored(keyOther, mine.Number); ok && joined.Covers(other) {
			s.drop(key)
		}
		return
	}
	s.keep(key, s.encode(theirs))
}

// waiting says that a link was put aside because there is no room for it.
func (s *session) waiting() []page.Notice {
	if _, ok := s.stored(keyOther, s.doc.Number); !ok {
		return nil
	}
	return []page.Notice{{
		ID: "waiting", Text: s.voice.Say("join.full"),
		Acts: []page.Act{{Path: "/join", Button: s.voice.Say("join.again")}},
	}}
}

// joinAgain tries to join the link that was put aside.
func (s *session) joinAgain() {
	if other, ok := s.stored(keyOther, s.doc.Number); ok {
		s.join(s.doc, other)
	}
	s.plan(s.doc.Plan())
	s.out.Focus, s.out.Say = "title", s.voice.Say("saved")
	if s.kept[keyOther+planKey(s.doc.Number)] != "" {
		s.out.Focus, s.out.Say = "notice-waiting", s.voice.Say("join.full")
	}
}
