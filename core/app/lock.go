package app

import (
	"unicode/utf8"

	"newel/core/link"
	"newel/core/page"
	"newel/core/plan"
)

// leastPhrase is how many letters a passphrase has at least (NIST SP 800-63B, 5.1.1.1:
// eight for a secret that somebody chooses and remembers).
const leastPhrase = 8

// lock asks for a passphrase and has the shell lock the plan's link with it (web/lock.ts),
// which comes back in the field "locked"; "unable": the browser cannot. Of the phrase, here
// and in locked, spaces count once and what cannot be seen does not count (plan.Clean):
// nobody could tell those on.
func (s *session) lock(p plan.Plan) {
	view := page.LockView{Voice: s.voice, Fragment: s.fragment(), Calls: page.NewCalls(s.voice, &p, s.fragment())}
	locked, phrase := s.field("locked"), s.field("phrase")
	head, err := link.ReadHead(locked)
	switch {
	case err == nil && head.Locked:
		s.showLocked(view, locked)
		return
	case s.sent("unable"):
		view.Problem = s.voice.Say("lock.unable")
	case s.sent("phrase") && utf8.RuneCountInString(phrase) < leastPhrase:
		view.Problem, view.Typed = s.voice.Say("lock.short"), phrase
	case s.sent("phrase"):
		view.State = page.LockWorked
		s.out.Lock = &Lock{Phrase: phrase, Fragment: s.fragment()}
	}
	s.screen("/link/lock", s.voice.Say("lock.title"), page.LockPage(view))
	switch {
	case view.Problem != "":
		s.out.Focus, s.out.Say = "field-phrase", view.Problem
	case view.State == page.LockWorked:
		s.out.Focus, s.out.Say = "notice-lock", s.voice.Say("lock.working")
	}
}

// showLocked shows the locked link. Its message says nothing of the plan, since the link
// says nothing either. The phrase is shown once, to be read out; no field sends it on.
func (s *session) showLocked(view page.LockView, locked string) {
	view.State, view.Phrase = page.LockDone, s.field("phrase")
	view.Ways = s.ways(locked, s.voice.Say("text.locked"))
	view.Ways.Action = "/link/lock"
	view.Ways.Fields = []page.Hidden{{Name: "locked", Value: locked}}
	title := s.voice.Say("lock.done")
	s.screen("/link/lock", title, page.LockPage(view))
	s.out.Say = title
	s.handsOver(s.voice.Say("app.name"), view.Ways)
}

// locked shows the page of a locked link, or has the shell open it. The answer comes back
// as the plan's own fragment, or to "/unlock" with what is wrong.
func (s *session) locked() {
	view := page.UnlockView{Voice: s.voice}
	phrase := s.field("phrase")
	switch {
	case s.in.Path != "/unlock":
	case s.sent("wrong"):
		view.Problem, view.Typed = s.voice.Say("unlock.wrong"), phrase
	case s.sent("damaged"):
		view.Problem = s.voice.Say("unlock.damaged")
	case s.sent("unable"):
		view.Problem = s.voice.Say("unlock.unable")
	case s.sent("phrase") && phrase == "":
		view.Problem = s.voice.Say("unlock.empty")
	case s.sent("phrase"):
		view.Working = true
		s.out.Unlock = &Lock{Phrase: phrase, Fragment: s.in.Fragment}
	}
	s.out.Fragment, s.out.Path, s.out.Focus = s.in.Fragment, "/", "title"
	title := s.voice.Say("unlock.title")
	s.out.Title = title + " · " + s.voice.Say("app.name")
	s.out.Say = title
	switch {
	case view.Problem != "":
		s.out.Focus, s.out.Say = "field-phrase", view.Problem
	case view.Working:
		s.out.Focus, s.out.Say = "notice-unlock", s.voice.Say("unlock.working")
	}
	s.out.HTML = page.UnlockPage(view)
}
