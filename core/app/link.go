package app

import (
	"strconv"

	"newel/core/guide"
	"newel/core/link"
	"newel/core/message"
	"newel/core/page"
	"newel/core/plan"
)

// The pages on which a plan is handed over:
//
//	/link          the plan's link, with the ways of sending it
//	/link/part     a link for one helper, to read only
//	/link/lock     the link locked with a passphrase
//	/link/afresh   the plan under a new number, see afresh.go
//
// Sending and copying go to the page they stand on, with the field "act".
func (s *session) handOver(p plan.Plan, path string) {
	if _, ok := s.input(p); !ok { // what cannot be laid out is not sent on
		return
	}
	switch path {
	case "/link":
		if s.sent("locked") || s.sent("unable") {
			s.visit(s.rooms.lock, p, "", "")
			return
		}
		s.planLink(p, false)
	case "/link/part":
		s.visit(s.rooms.partLink, p, "", "")
	case "/link/lock":
		s.visit(s.rooms.lock, p, "", "")
	case "/link/afresh":
		s.visit(s.rooms.afresh, p, "", "")
	}
}

// planLink shows the link of the plan. fresh: it was just made anew.
func (s *session) planLink(p plan.Plan, fresh bool) {
	ways := s.ways(s.fragment(), s.planTexts(p)...)
	ways.Action = "/link"
	s.out.Fragment = s.fragment()
	title := page.Title(s.voice.Book, &p)
	s.screen("/link", s.voice.Say("link-page.title"), page.LinkPage(page.LinkView{
		Voice: s.voice, Fragment: s.fragment(), Calls: page.NewCalls(s.voice, &p, s.fragment()),
		Plan: s.voice.Say("link-page.lead", arg("title", title), arg("day", s.voice.Day(p.Surgery))),
		Ways: ways, Demo: s.isDemo(p), Fresh: fresh, Helpers: len(s.withDuties(p)) > 0,
	}))
	s.handsOver(title, ways)
}

// partLink asks for whom a link is to be, or shows it. Questions are settled first: a part
// holds one answer of two, and whoever gets it does not see that there is another.
func (s *session) partLink(p plan.Plan) {
	view := page.HelperLinkView{
		Voice: s.voice, Fragment: s.fragment(), Calls: page.NewCalls(s.voice, &p, s.fragment()), Helpers: s.withDuties(p),
	}
	title := s.voice.Say("link-part.title")
	if len(s.doc.Questions()) > 0 {
		view.Problem = s.voice.Say("link-part.questions")
	} else if who := s.partOf(p); who != "" {
		title = page.PartTitle(s.voice, who)
		view.Who, view.Ways = who, s.partWays(p, who)
	}
	s.screen("/link/part", title, page.HelperLinkPage(view))
	s.handsOver(title, view.Ways)
}

// partOf is the helper whose place was sent; "" where there is none.
func (s *session) partOf(p plan.Plan) string {
	n := s.number("part")
	if n > len(p.Helpers) {
		return ""
	}
	return p.Helper(uint8(n))
}

func (s *session) partWays(p plan.Plan, who string) page.Ways {
	w := s.ways(link.EncodePart(p, who),
		s.voice.Say("text.part", arg("who", who), s.textDay(p)), s.voice.Say("text.part.short"))
	w.Action, w.Fields = "/link/part", []page.Hidden{{Name: "part", Value: strconv.Itoa(s.number("part"))}}
	return w
}

// withDuties lists the helpers who have something to do, by their place in the plan.
func (s *session) withDuties(p plan.Plan) []page.Option {
	var all []page.Option
	for i, name := range p.Helpers {
		if hasDuty(p, uint8(i+1)) {
			all = append(all, page.Option{Value: strconv.Itoa(i + 1), Label: name})
		}
	}
	return all
}

func hasDuty(p plan.Plan, who uint8) bool {
	for _, has := range p.Cover {
		if has == who {
			return true
		}
	}
	for _, shift := range p.Shifts {
		if shift.Who == who {
			return true
		}
	}
	for i := range p.Duties {
		if d := &p.Duties[i]; !d.Dropped && d.Has(who) {
			return true
		}
	}
	return false
}

// planTexts are the wordings of a message with a plan's link, the best first. The
// operation is named in none: a message stands on a locked screen for all to see.
func (s *session) planTexts(p plan.Plan) []string {
	short := s.voice.Say("text.plan.short", s.textDay(p))
	if p.Patient == "" {
		return []string{short}
	}
	return []string{s.voice.Say("text.plan", arg("name", p.Patient), s.textDay(p)), short}
}

// textDay is the day of surgery in the letters of text messages.
func (s *session) textDay(p plan.Plan) guide.Arg {
	return arg("day", message.Plain(s.voice.Day(p.Surgery)))
}

// ways gives the ways of handing over a link.
func (s *session) ways(fragment string, texts ...string) page.Ways {
	return page.NewWays(s.voice, s.in.Page+"#"+fragment, fragment, texts...)
}

// handsOver has the shell hand a link over where that was asked for.
func (s *session) handsOver(title string, w page.Ways) {
	act := s.field("act")
	if w.Fragment == "" || act != "send" && act != "copy" {
		return
	}
	s.out.Send = &Send{Title: title, Text: w.Text, Fragment: w.Fragment}
	s.out.Focus, s.out.Say = "", "" // what came of it is said once it is known
	if act == "copy" {
		s.out.Send.Text, s.out.Send.Copy = "", true
	}
}

// send hands the plan's link over from the plan's own page.
func (s *session) send(p plan.Plan) {
	s.plan(p)
	if s.out.Path != "/" {
		return // it cannot be laid out here; the form says why
	}
	ways := s.ways(s.fragment(), s.planTexts(p)...)
	s.out.Send = &Send{Title: page.Title(s.voice.Book, &p), Text: ways.Text, Fragment: ways.Fragment}
}
