package app

import (
	"strings"

	"newel/core/merge"
	"newel/core/page"
	"newel/core/plan"
)

// What the others may not have yet, by device and plan: letters under "own.N".
const (
	ownSent   = "s" // the link was handed over at least once, so that there are others
	ownTicks  = "t" // something was ticked since
	ownChange = "c" // something else was changed since
)

// haveChanged notes that something was changed here.
func (s *session) haveChanged(before, after *merge.Doc) {
	letter, now := ownChange, planOf(after)
	if was := planOf(before); was.SameFacts(now) {
		letter = ownTicks
	}
	key := keyOwn + planKey(after.Number)
	if !strings.Contains(s.kept[key], letter) {
		s.keep(key, s.kept[key]+letter)
	}
}

// handedOver notes that the link is on its way to the others: the shell says so once it was
// shared or copied, in the field "sent". What a text message or a photographed code carried
// away is not known here.
func (s *session) handedOver() {
	how := s.field("sent")
	if s.doc == nil || how != "shared" && how != "copied" {
		return
	}
	s.keep(keyOwn+planKey(s.doc.Number), ownSent)
}

// saySent says what came of handing a link over.
func (s *session) saySent() {
	switch s.field("sent") {
	case "shared":
		s.out.Say = s.voice.Say("send.sent")
	case "copied":
		s.out.Say = s.voice.Say("send.copied")
		if s.wholeTable() {
			s.out.Say = s.voice.Say("desk-rows.copied")
		}
	}
}

// unsent tells whether something was changed here that the others may not have, if there are
// others; ticked: only ticks.
func (s *session) unsent(p plan.Plan) (ticked, changed bool) {
	own := s.kept[keyOwn+planKey(p.Number)]
	others := strings.Contains(own, ownSent) || len(p.Helpers) > 1 || len(s.doc.Seen()) > 1
	if s.isDemo(p) || !others {
		return false, false
	}
	changed = strings.Contains(own, ownChange)
	return !changed && strings.Contains(own, ownTicks), changed
}

// toSend is the notice that goes with it: a change of who drives is worth nothing before the
// others have it.
func (s *session) toSend(p plan.Plan) []page.Notice {
	if _, changed := s.unsent(p); !changed {
		return nil
	}
	return []page.Notice{{
		ID: "unsent", Text: s.voice.Say("send.unsent"),
		Acts: []page.Act{{Path: "/send", Button: s.voice.Say("send")}},
	}}
}
