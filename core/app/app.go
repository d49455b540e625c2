// Package app answers requests: what the person did goes in, the page comes out.
//
// It works like a small web server that lives in the browser. Handle answers
// everything; Near, the same for the most common requests, leaves the others to it (rooms.go). A Request is what an HTML form would send, with the clock, the zone, the
// language, chance and the device's own storage beside it; a Response is HTML, the
// new fragment and what to store. The same request always gives the same response:
// nothing in here looks anything up.
//
// A plan is two things in here. The session's document (s.doc, core/merge) is the plan
// with the history that it takes to join it with other copies: links and the device's
// storage hold it. The plan.Plan that goes from function to function is what the document
// shows. A change makes the next plan of it and hands both to edited, which writes what
// differs into the document under this device's number.
//
// Where is what: session.go holds one request's state; open.go joins the plan of a link with
// the device's copy of it; hand.go is the number under which this device changes a plan;
// damaged.go, lock.go and part.go show what a link opens that is no plan; paste.go finds a
// link in a pasted text; link.go hands a plan over, and afresh.go gives it a new number;
// unread.go is what the others changed since the person last looked; settle.go answers
// questions; language.go which language the page speaks here; me.go whose device it is;
// facts.go reads the form; device.go is what is stored and under which names, forget.go removes a plan and puts it back, and wipe.go all that is there; duty.go has the
// pages of the family's duties, dutyform.go, dutyrule.go and dutyvalues.go their form;
// calendar.go makes and reads calendar files; demo.go is the example family.
package app

import (
	"strings"

	"newel/core/desk"
	"newel/core/guide"
	"newel/core/pack"
	"newel/core/page"
	"newel/core/plan"
)

// The words that a fragment may be instead of a plan. They are too short for a
// link, so the two cannot be confused.
const (
	wordStart = "start"
	wordDemo  = "demo"
)

// Prepare does a little, less than a hundredth, of what the first request that reads a link would wait for in the
// model of texts, and tells whether nothing of that is left. Answers do not depend on it.
func Prepare() (done bool) { return pack.Prime(linesAtOnce) }

const linesAtOnce = 8 // of a thousand

// Near answers one request just as Handle does, or with nothing but Response.Elsewhere: then
// Handle has to be asked, and nothing has happened.
func Near(r Request) Response { return answered(r, &near) }

// answered answers a request with the rooms that there are. What the focus goes to is there: where
// it is in a fold whose inside was left out, the page is made with all of them.
func answered(r Request, has *rooms) Response {
	out := answeredOnce(r, has)
	if r.Open == nil || out.Focus == "" || strings.Contains(out.HTML, ` id="`+out.Focus+`"`) {
		return out
	}
	r.Open = nil
	return answeredOnce(r, has)
}

func answeredOnce(r Request, has *rooms) Response {
	s := newSession(r)
	s.rooms = has
	s.answer()
	if guide.Lacked() || s.out.Elsewhere {
		return Response{Elsewhere: true}
	}
	s.saySent()
	if s.full {
		s.sayFull()
	}
	s.out.Language, s.out.Direction = s.voice.Language, guide.Direction(s.voice.Language)
	return s.out
}

// answer does what the request's path says.
func (s *session) answer() {
	switch s.in.Path {
	case "/start":
		s.visit(s.rooms.start, plan.Plan{}, "", "")
	case "/forget":
		s.forget()
	case "/put-back":
		s.putBack()
	case "/clock":
		s.setClock()
	case "/language":
		s.setLanguage()
	case "/device", "/device/wipe":
		s.visit(s.rooms.device, plan.Plan{}, "", "")
	case "/open":
		s.visit(s.rooms.paste, plan.Plan{}, "", "")
	default:
		s.withPlan(s.in.Path)
	}
}

// sayFull says that a change did not fit, in place of whatever was to be said of it.
func (s *session) sayFull() {
	s.out.Say = s.voice.Say("problem.duties-many")
	if s.out.Path == "/" {
		s.out.Focus = "notice-full"
	}
}

// withPlan answers what needs the plan in the fragment.
func (s *session) withPlan(path string) {
	switch s.in.Fragment {
	case "", "main", "signs", "lists", "next", "days":
		// Ids of the page itself: somebody tapped a jump before any script had run.
		s.out.Fragment = ""
		if !s.general(path, page.NewCalls(s.voice, nil, "")) {
			s.removedElsewhere()
			s.front(page.Front{})
		}
		return
	case wordStart:
		s.visit(s.rooms.start, plan.Plan{}, "", "")
		return
	case wordDemo:
		s.demo()
		return
	}
	if page.IsSaid(s.in.Fragment) {
		s.visit(s.rooms.said, plan.Plan{}, path, "")
		return
	}
	if desk.IsAddress(s.in.Fragment) {
		s.visit(s.rooms.desk, plan.Plan{}, path, "")
		return
	}
	p, ok := s.open()
	if !ok {
		return
	}
	if path != "/link/part" { // a helper's part brings the others nothing
		s.handedOver()
	}
	switch path {
	case "/facts", "/arrival", "/way":
		s.visit(s.rooms.facts, p, path[1:], "")
	case "/tick":
		s.tick(p)
	case "/read":
		s.markRead(p)
	case "/join":
		s.joinAgain()
	case "/settle":
		s.settle(p)
	case "/me":
		s.me(p)
	case "/undo":
		s.undo(p)
	case "/send":
		s.send(p)
	case "/link", "/link/part", "/link/lock", "/link/afresh":
		s.handOver(p, path)
	case "/":
		s.plan(p)
	default:
		s.family(p, path)
	}
}

// tick marks a step as done, or as not done where the box was emptied.
func (s *session) tick(p plan.Plan) {
	done := s.field("done") != ""
	next, title := s.withTicked(p, done)
	if title == "" {
		s.plan(p) // no such step in this plan
		return
	}
	s.backToList(s.edited(p, next))
	if done {
		s.out.Say = s.voice.Say("ticked", arg("what", title))
	} else {
		s.out.Say = s.voice.Say("unticked", arg("what", title))
	}
}

// withTicked gives the plan with what was ticked, and its title; "" where there is no such thing.
func (s *session) withTicked(p plan.Plan, done bool) (next plan.Plan, title string) {
	if line := s.field("line"); line != "" {
		return withLineDone(p, line, done, s.voice.Language)
	}
	t := plan.Tick{Code: uint16(s.number("code")), N: uint8(s.number("n"))}
	if s.number("n") != int(t.N) {
		return p, ""
	}
	return p.WithTick(t, done), s.stepTitle(p, t)
}

// setClock changes between the 12-hour and the 24-hour clock on this device.
func (s *session) setClock() {
	style := s.field("clock")
	if style == "12" || style == "24" {
		s.keep(keyClock, style)
		s.voice.Clock12 = style == "12"
	}
	s.in.Fields = nil // they are answered; the page is only shown again
	s.withPlan("/")
	s.out.Say = s.voice.Say("saved")
}
