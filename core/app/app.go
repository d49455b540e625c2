// Package app answers requests: what the person did goes in, the page comes out.
//
// It works like a small web server that lives in the browser. Handle is the only
// entry. A Request is what an HTML form would send, with the clock, the zone, the
// language, chance and the device's own storage beside it; a Response is HTML, the
// new fragment and what to store. The same request always gives the same response:
// nothing in here looks anything up.
//
// Where is what: session.go holds one request's state; open.go brings the plan of
// a link and the device's copy of it together; facts.go reads the form; device.go
// is what is stored and under which names; duty.go has the pages of the family's duties,
// dutyform.go, dutyrule.go and dutyvalues.go their form; calendar.go makes and reads
// calendar files; demo.go is the example family.
package app

import (
	"newel/core/page"
	"newel/core/plan"
)

// The words that a fragment may be instead of a plan. They are too short for a
// link, so the two cannot be confused.
const (
	wordStart = "start"
	wordDemo  = "demo"
)

// Handle answers one request. It never fails: what is wrong is said on the page.
func Handle(r Request) Response {
	s := newSession(r)
	switch r.Path {
	case "/start":
		s.start()
	case "/forget":
		s.forget()
	case "/put-back":
		s.putBack()
	case "/clock":
		s.setClock()
	default:
		s.withPlan(r.Path)
	}
	return s.out
}

// withPlan answers what needs the plan in the fragment.
func (s *session) withPlan(path string) {
	switch s.in.Fragment {
	case "", "main", "signs", "lists", "next", "days":
		// Ids of the page itself: somebody tapped a jump before any script had run.
		s.out.Fragment = ""
		s.front(page.Front{})
		return
	case wordStart:
		s.start()
		return
	case wordDemo:
		s.demo()
		return
	}
	p, ok := s.open()
	if !ok {
		return
	}
	switch path {
	case "/facts":
		s.asked = true
		s.facts(p)
	case "/tick":
		s.tick(p)
	case "/arrival":
		s.inline(p, "arrival")
	case "/way":
		s.inline(p, "drive", "parking")
	case "/read":
		s.markRead(p)
	case "/keep-mine":
		s.keepMine(p)
	case "/use-link":
		s.useLink(p)
	case "/send":
		s.send(p)
	case "/":
		s.plan(p)
	default:
		s.family(p, path)
	}
}

// tick marks a step as done, or as not done where the box was emptied.
func (s *session) tick(p plan.Plan) {
	t := plan.Tick{Code: uint16(s.number("code")), N: uint8(s.number("n"))}
	done := s.field("done") != ""
	title := s.stepTitle(p, t)
	if title == "" || s.number("n") != int(t.N) {
		s.plan(p) // no such step in this plan
		return
	}
	p = p.WithTick(t, done)
	p.Edition = p.NextEdition()
	p = s.keepPlan(p)
	s.plan(p)
	if done {
		s.out.Say = s.voice.Say("ticked", arg("what", title))
	} else {
		s.out.Say = s.voice.Say("unticked", arg("what", title))
	}
}

// send hands the link to the person's own way of sending things.
func (s *session) send(p plan.Plan) {
	s.plan(p)
	if s.out.Path != "/" {
		return // it cannot be laid out here; the form says why
	}
	s.drop(keyOwn + planKey(p.Number)) // what was changed here is on its way to the others
	title := page.Title(s.voice.Book, &p)
	s.out.Send = &Send{
		Title: title,
		Text:  s.voice.Say("send.text", arg("title", title), arg("day", s.voice.Day(p.Surgery))),
	}
	s.out.Say = s.voice.Say("send.said")
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
