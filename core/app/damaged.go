package app

import (
	"errors"

	"newel/core/link"
	"newel/core/merge"
	"newel/core/page"
	"newel/core/plan"
)

// broken answers a link that opens no plan.
func (s *session) broken(err error) {
	switch {
	case errors.Is(err, link.ErrLocked):
		s.locked()
	case errors.Is(err, link.ErrPart):
		s.part()
	case errors.Is(err, link.ErrNewer):
		s.newer()
	case errors.Is(err, errNewerHere):
		s.front(page.Front{Trouble: s.voice.Say("link.newer"), How: s.voice.Say("link.newer.here")})
	case errors.Is(err, errLeftOut):
		s.out.Fragment = s.in.Fragment // with it in the address the next request has the plan
		s.front(page.Front{Trouble: s.voice.Say("link.left-out"), How: s.voice.Say("link.left-out.how")})
	case errors.Is(err, errFull):
		s.tooMuch()
	default:
		s.front(s.damaged())
	}
}

// tooMuch says that a link asks for more than a page can hold.
func (s *session) tooMuch() {
	s.front(page.Front{Trouble: s.voice.Say("link.full"), How: s.voice.Say("link.full.how")})
}

// damaged says that a link was cut off, and whom to ask. Of a plan that this device has,
// the others are known who wrote in it; where that is one person alone, they are named
// beside "whoever sent it", who is always right.
func (s *session) damaged() page.Front {
	f := page.Front{Trouble: s.voice.Say("link.damaged"), How: s.voice.Say("link.damaged.how")}
	number, ok := link.Guess(s.in.Fragment)
	if !ok {
		return f
	}
	d, ok := s.ownCopy(number)
	if !ok {
		return f
	}
	f.Here = s.here(d)
	if name := s.onlyOther(d); name != "" {
		f.How = s.voice.Say("link.damaged.ask", arg("who", name))
	}
	return f
}

// onlyOther names the one helper beside this device's who wrote in a plan; "" where there
// is none or more than one.
func (s *session) onlyOther(d *merge.Doc) string {
	mine, known := s.keptHand(d.Number)
	me, only := s.kept[keyMe+planKey(d.Number)], ""
	for _, seen := range d.Seen() {
		name := d.HandOf(seen.Actor)
		if known && seen.Actor == mine || me != "" && name == me {
			continue
		}
		if name == "" || only != "" && only != name {
			return ""
		}
		only = name
	}
	return only
}

// newer says that a link needs a newer page, and shows its day, which stands at its head
// in every version.
func (s *session) newer() {
	f := page.Front{Trouble: s.voice.Say("link.newer"), How: s.voice.Say("link.newer.how")}
	head, err := link.ReadHead(s.in.Fragment)
	if (err == nil || errors.Is(err, link.ErrNewer)) && head.Surgery != 0 {
		f.Day = s.headDay(head)
		if d, ok := s.stored(keyPlan, head.Number); ok {
			f.Here = s.here(d)
		}
	}
	s.front(f)
}

// headDay is the day and the time that a link's head says, in the words of web/first.ts.
func (s *session) headDay(head link.Head) string {
	day := arg("day", s.voice.Day(head.Surgery))
	switch {
	case head.Surgery < s.voice.Today:
		return s.voice.Say("first.past", day)
	case !head.Arrival.Known():
		return s.voice.Say("first.unknown", day)
	}
	return s.voice.Say("first.known", day, arg("time", s.voice.Clock(head.Arrival.HourMinute())))
}

// here is a plan as this device has it, to be offered in place of a link.
func (s *session) here(d *merge.Doc) *page.KeptPlan {
	p := planOf(d)
	k := s.keptPlan(&p)
	return &k
}

// newerPlan is a plan that a later page wrote, as the front lists it: by its day.
func (s *session) newerPlan(n string, head link.Head) page.KeptPlan {
	k := page.KeptPlan{Fragment: s.kept[keyPlan+n], Title: s.voice.Say("front.newer"), Number: n}
	if head.Surgery != 0 {
		k.Day = s.voice.Day(head.Surgery)
	}
	return k
}

// keptPlan is a plan of this device as the front lists it.
func (s *session) keptPlan(p *plan.Plan) page.KeptPlan {
	n := planKey(p.Number)
	return page.KeptPlan{
		Fragment: s.soundCopy(n), Title: page.Title(s.voice.Book, p), Day: s.voice.Day(p.Surgery), Number: n,
		Earlier: s.isEarlier(*p),
	}
}
