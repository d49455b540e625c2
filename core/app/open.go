package app

import (
	"errors"
	"slices"
	"sort"

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
	keepBoth(joined, mine, theirs)
	key := keyOther + planKey(mine.Number)
	if s.keepDoc(joined) {
		if other, ok := s.stored(keyOther, mine.Number); ok && joined.Covers(other) {
			s.drop(key)
		}
		return
	}
	s.keep(key, s.encode(theirs))
}

// keepBoth puts back what two devices with one number would lose of each other. Where both
// copies have an entry and the joined one has none, each copy counts the other's for
// replaced by its own, which cannot be: somebody used a number twice. Then both stay, and
// the page asks. joined is not known to anybody else yet.
func keepBoth(joined, mine, theirs *merge.Doc) {
	for _, k := range mine.Keys() {
		x, y := mine.Get(k), theirs.Get(k)
		if len(y) == 0 || len(joined.Get(k)) > 0 {
			continue
		}
		both := slices.Concat(x, y)
		sort.Slice(both, func(i, j int) bool { return both[i].Compare(both[j]) < 0 })
		joined.Set(k, slices.Compact(both))
	}
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

// broken answers a link that does not open. The device's own plans are offered.
func (s *session) broken(err error) {
	key := "link.damaged"
	switch {
	case errors.Is(err, link.ErrNewer):
		key = "link.newer"
	case errors.Is(err, errFull):
		key = "link.full"
	}
	s.front(page.Front{Trouble: s.voice.Say(key), How: s.voice.Say(key + ".how")})
}
