package app

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"newel/core/link"
	"newel/core/merge"
	"newel/core/page"
	"newel/core/plan"
)

// errFull says that a plan is more than a page can lay out.
var errFull = errors.New("the plan holds more than a page can lay out; something has to be taken out of it")

// errNewerHere says that the copy of a plan on this device is of a later page.
var errNewerHere = errors.New("this device has the plan as a newer version of this page wrote it; load the page again")

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
	s.base = theirs
	if err := s.unreadable(theirs.Number); err != nil {
		if errors.Is(err, link.ErrNewer) {
			err = errNewerHere
		}
		if f := s.encode(theirs); f != "" {
			s.in.Fragment = f // an older link has no head by which the shell could find its plan
		}
		s.broken(err)
		return plan.Plan{}, false
	}
	mine, have := s.ownCopy(theirs.Number)
	s.watchHand(mine, theirs)
	switch {
	case !have && !s.keepDoc(theirs):
		s.broken(errFull)
		return plan.Plan{}, false
	case !have:
		s.haveRead()
	case merge.Doubled(mine, theirs):
		s.bothOf(mine, theirs)
	case mine.Covers(theirs):
		s.keepDoc(mine)
	default:
		s.join(mine, theirs)
	}
	return planOf(s.doc), true
}

// bothOf keeps what two phones with one number would lose of each other. This one takes a
// number of its own from here on.
func (s *session) bothOf(mine, theirs *merge.Doc) {
	s.doc = mine
	s.drop(keyHand + planKey(mine.Number))
	if a := s.freshHand(); s.keepDoc(mine.Both(a, theirs)) {
		s.keep(keyHand+planKey(mine.Number), strconv.Itoa(int(a)))
	}
}

// How much one link may bring into a plan in which little room is left: letters, and devices. An ordinary change is
// far below.
const (
	mostLetters = 512
	mostDevices = 16
)

// isFilled tells whether a link would take nearly all the room that a plan has left for what the family changes next.
func (s *session) isFilled(mine, joined *merge.Doc) bool {
	letters, devices := len(s.encode(joined)), len(joined.Seen())
	return letters > link.MaxLength-reserve && letters > len(s.encode(mine))+mostLetters ||
		devices > merge.MaxActors-mostDevices && devices > len(mine.Seen())+mostDevices
}

// join brings the device's copy and another one together. Where both are more than a plan
// can hold, or would leave no room in it, the device's stays and the other is put aside until there is room: a link
// that was made to fill a plan up must not keep a family from changing theirs.
func (s *session) join(mine, theirs *merge.Doc) {
	s.doc = mine
	joined, err := merge.Join(mine, theirs)
	if err != nil { // two numbers; whoever calls has looked at them
		return
	}
	if s.isFilled(mine, joined) || !s.keepDoc(joined) {
		s.putAside(theirs)
		return
	}
	s.setAside(slices.DeleteFunc(s.aside(), joined.Covers))
}

// aside are the links of this plan that were put aside, in the order in which they came.
func (s *session) aside() []*merge.Doc {
	var all []*merge.Doc
	for _, fragment := range strings.Fields(s.kept[keyOther+planKey(s.doc.Number)]) {
		if d, err := s.decode(fragment); err == nil && d.Number == s.doc.Number {
			all = append(all, d)
		}
	}
	return all
}

// putAside keeps a link for which there is no room in the plan, in place of those whose
// changes are all in it. The others stay by themselves: there may be room for one and not
// for two.
func (s *session) putAside(theirs *merge.Doc) {
	all := s.aside()
	if slices.ContainsFunc(all, func(d *merge.Doc) bool { return d.Covers(theirs) }) {
		return
	}
	s.setAside(append(slices.DeleteFunc(all, theirs.Covers), theirs))
}

func (s *session) setAside(all []*merge.Doc) {
	key := keyOther + planKey(s.doc.Number)
	if len(all) == 0 {
		s.drop(key)
		return
	}
	fragments := make([]string, len(all))
	for i, d := range all {
		fragments[i] = s.encode(d)
	}
	s.keep(key, strings.Join(fragments, " "))
}

// waiting says that links were put aside because there is no room for them.
func (s *session) waiting() []page.Notice {
	if len(s.aside()) == 0 {
		return nil
	}
	return []page.Notice{{
		ID: "waiting", Text: s.voice.Say("join.full"),
		Acts: []page.Act{{Path: "/join", Button: s.voice.Say("join.again")}},
	}}
}

// joinAgain tries to join each link that was put aside.
func (s *session) joinAgain() {
	for _, other := range s.aside() {
		s.join(s.doc, other)
	}
	s.plan(planOf(s.doc))
	s.out.Focus, s.out.Say = "title", s.voice.Say("saved")
	if len(s.aside()) > 0 {
		s.out.Focus, s.out.Say = "notice-waiting", s.voice.Say("join.full")
	}
}
