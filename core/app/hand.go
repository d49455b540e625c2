package app

import (
	"strconv"

	"newel/core/link"
	"newel/core/merge"
	"newel/core/plan"
)

// hand gives the number under which this device changes the plan. Whoever made the plan
// has merge.Maker. Every other device takes a number by chance with its first change, and
// keeps it from then on; until then the number is the same for the whole request.
func (s *session) hand() merge.Actor {
	if a, ok := s.keptHand(s.doc.Number); ok && s.doc.Last(a) < merge.LastN {
		return a
	}
	return s.freshHand()
}

// keptHand gives the number that this device has in a plan, where it has one.
func (s *session) keptHand(number uint32) (merge.Actor, bool) {
	return handOf(s.kept[keyHand+planKey(number)])
}

// handOf reads a device's number as it is stored.
func handOf(text string) (merge.Actor, bool) {
	n, err := strconv.ParseUint(text, 10, 32)
	a := merge.Actor(n)
	return a, err == nil && (a == merge.Maker || a >= merge.FirstActor && a <= merge.LastActor)
}

// chance is the 32 bits that begin at a byte of the device's chance; 0 where there are not so many.
func (s *session) chance(at int) (bits uint32) {
	if len(s.in.Random) < at+4 {
		return 0
	}
	for _, b := range s.in.Random[at : at+4] {
		bits = bits<<8 | uint32(b)
	}
	return bits
}

// freshHand takes a number that nobody in the plan has. There are four million, so two
// phones that have not heard of each other hardly ever take the same.
func (s *session) freshHand() merge.Actor {
	const numbers = uint32(merge.LastActor - merge.FirstActor) // the last one's lines are a program's (plan.FirstKnownLine)
	chance := s.chance(4)
	for { // a plan names a few hundred devices at most
		if a := merge.FirstActor + merge.Actor(chance%numbers); s.doc.Last(a) == 0 {
			return a
		}
		chance++
	}
}

// watchHand takes a new number from the next change on where somebody else uses this
// device's: a link knows more acts under it than this device made. That happens when a
// phone is restored or copied. Where the plan itself is not here (mine is nil), nobody can
// tell which acts were made under the number, so it is never used again.
func (s *session) watchHand(mine, theirs *merge.Doc) {
	a, ok := s.keptHand(theirs.Number)
	if !ok {
		return
	}
	if mine == nil || theirs.Last(a) > mine.Last(a) {
		s.drop(keyHand + planKey(theirs.Number))
	}
}

// freshDuty is the number of a duty that is added here: one that was never used, since
// calendars know duties by it. A device that has used up its numbers takes another one of
// its own first.
func (s *session) freshDuty(p plan.Plan) uint32 {
	if n := p.FreshDuty(uint32(s.hand())); n != 0 {
		return n
	}
	s.drop(keyHand + planKey(p.Number))
	return p.FreshDuty(uint32(s.hand()))
}

// made makes a plan that was put in here the plan of this request, and stores it. It is false,
// and nothing is stored, where that is more than a plan can hold.
func (s *session) made(p plan.Plan) bool {
	if !s.keepDoc(merge.New(p)) {
		return false
	}
	s.keep(keyHand+planKey(p.Number), strconv.Itoa(int(merge.Maker)))
	s.haveRead()
	return true
}

// edited stores a change that was made here, and gives the plan to go on with: where the
// change is more than a plan can hold, the one before. next is what p became.
func (s *session) edited(p, next plan.Plan) plan.Plan {
	a := s.hand()
	if !next.SameFacts(p) {
		next = revised(p, next) // also a night of the family’s, or whose a date is, may move times
	}
	if s.stale(p) {
		next = s.onto(p, next)
		if d := s.apart(p, next); len(d.Questions()) > len(s.doc.Questions()) {
			return s.take(a, d)
		}
	}
	return s.take(a, s.decided(s.named(a), a, next))
}

// act is a change of a document, and what became of it.
type act struct {
	before, after *merge.Doc
	by            merge.Actor
	next          plan.Plan
}

// decided is merge.Doc.Change, done once in a request where the same is tried to see whether it
// fits, and then kept.
func (s *session) decided(d *merge.Doc, a merge.Actor, next plan.Plan) *merge.Doc {
	if was := &s.acted; was.before == d && was.by == a && was.next.SameFacts(next) && was.next.SameTicks(&next) {
		return was.after
	}
	s.acted = act{before: d, by: a, next: next, after: d.Change(a, next)}
	return s.acted.after
}

// stale tells whether the screen that the request comes from shows an older state of the
// plan: it may have been open for an hour, in another tab than the link that came meanwhile.
func (s *session) stale(p plan.Plan) bool {
	return s.base != nil && s.base.Number == p.Number && !s.base.Covers(s.doc)
}

// onto leaves what others changed since such a screen was made.
func (s *session) onto(p, next plan.Plan) plan.Plan {
	if !s.stale(p) {
		return next
	}
	return merge.Onto(p, planOf(s.base), next)
}

// apart makes the change where the person made it: in the state that the screen showed. What
// was changed there and meanwhile is kept both then, and asked about. It takes a number of
// its own, since this device's may have made acts that the screen does not know.
func (s *session) apart(p, next plan.Plan) *merge.Doc {
	b, base := s.freshHand(), s.base
	if me := s.kept[keyMe+planKey(p.Number)]; me != "" {
		base = base.WithHand(b, me)
	}
	d, err := merge.Join(s.doc, base.Change(b, merge.Onto(planOf(base), p, next)))
	if err != nil { // two numbers; stale has looked at them
		return s.doc
	}
	return d
}

// editedFacts is edited for the facts. What they move stays to be read here too: it has
// to be gone through with everybody, whoever put the facts in.
func (s *session) editedFacts(p, next plan.Plan) plan.Plan {
	read, ok := s.kept[keyRead+planKey(p.Number)]
	next = s.edited(p, next)
	if before := keyBefore + planKey(p.Number); ok && s.kept[before] == "" && !s.full {
		s.keep(before, read)
	}
	return next
}

// named gives the document with the name of this device's helper under its number, so
// that the others see whose change it is.
func (s *session) named(a merge.Actor) *merge.Doc {
	if me := s.kept[keyMe+planKey(s.doc.Number)]; me != "" && s.doc.HandOf(a) != me {
		return s.doc.WithHand(a, me)
	}
	return s.doc
}

// take stores a document that became of the session's by an act of this device.
func (s *session) take(a merge.Actor, next *merge.Doc) plan.Plan {
	before := s.doc
	if next.Equal(before) {
		return planOf(before)
	}
	if !s.keepDoc(next) {
		s.full = true
		return planOf(before)
	}
	n := planKey(next.Number)
	s.keep(keyHand+n, strconv.Itoa(int(a)))
	s.haveChanged(before, next)
	s.haveDone(before)
	return planOf(next)
}

// reserve is what the family's duties leave free of a link, in characters, for ticks and
// for the texts of the facts.
const reserve = 2000

// fits tells whether the family's duties are few enough to be sent as a link. A change
// that adds nothing is let through, so that a plan that came too full can be emptied.
func (s *session) fits(next plan.Plan) []plan.Problem {
	d := s.decided(s.doc, s.hand(), next)
	most := max(link.MaxLength-reserve, len(s.fragment()))
	if s.holds(d) && (len(s.encode(d)) <= most || length(next) <= length(planOf(s.doc))+lengthSlack) {
		return nil
	}
	return []plan.Problem{{Field: "first", Code: plan.DutiesMany}}
}

// lengthSlack is how much longer a link may come out because a duty is marked as taken out.
const lengthSlack = 4

// length is how long a plan is in a link, in characters, apart from who changed what.
func length(p plan.Plan) int { return len(link.Encode(merge.New(p))) }
