package app

import (
	"errors"

	"newel/core/link"
	"newel/core/page"
	"newel/core/plan"
	"newel/core/schedule"
)

// open reads the plan of the fragment and brings it together with this device's
// copy of the same plan. Where that is not possible it has answered already.
//
// Of two copies the one with the higher edition counts; what was ticked on either
// stays ticked. A link whose facts this device has had before is just an old
// message tapped again, or the browser's way back: the device's plan is shown
// without a word. Any other link that is not newer is put to the person as a
// question, and until it is answered the device's plan is shown.
func (s *session) open() (plan.Plan, bool) {
	p, err := link.Decode(s.in.Fragment)
	if err != nil {
		s.broken(err)
		return plan.Plan{}, false
	}
	mine, known := s.kept(keyPlan, p.Number)
	switch {
	case !known:
		s.keep(keyRead+planKey(p.Number), s.in.Fragment)
	case mine.SameFacts(p):
		p = newerTicks(mine, p)
	case p.Edition > mine.Edition && !s.hasSeen(p):
		p = withTicks(p, mine)
	case s.hasSeen(p):
		p = mine
	default:
		s.keep(keyOther+planKey(p.Number), link.Encode(p))
		p = mine
	}
	s.keepPlan(p)
	return p, true
}

// newerTicks joins two copies that differ in ticks only. The newer copy's ticks
// count alone, so that what was unticked since does not come back.
func newerTicks(mine, theirs plan.Plan) plan.Plan {
	if mine.Edition >= theirs.Edition {
		return mine
	}
	return theirs
}

// withTicks adds the ticks of one copy to another.
func withTicks(p, from plan.Plan) plan.Plan {
	for _, t := range from.Ticked {
		p = p.WithTick(t, true)
	}
	return p
}

// choice asks which of two copies to go on with, where a link was not taken over.
func (s *session) choice(mine plan.Plan) []page.Notice {
	other, ok := s.kept(keyOther, mine.Number)
	if !ok {
		return nil
	}
	text := "older.link"
	if mine.Edition == other.Edition {
		text = "older.same"
	}
	return []page.Notice{{ID: "older", Text: s.voice.Say(text), Acts: []page.Act{
		{Path: "/keep-mine", Button: s.voice.Say("older.keep")},
		{Path: "/use-link", Button: s.voice.Say("older.use")},
	}}}
}

func (s *session) keepMine(mine plan.Plan) {
	s.drop(keyOther + planKey(mine.Number))
	s.plan(mine)
	s.out.Focus, s.out.Say = "title", s.voice.Say("saved")
}

// useLink takes over the link that was opened but not shown.
func (s *session) useLink(mine plan.Plan) {
	other, ok := s.kept(keyOther, mine.Number)
	if !ok {
		s.plan(mine)
		return
	}
	other = withTicks(other, mine)
	other.Edition = max(mine.Edition, other.Edition)
	other.Edition = other.NextEdition()
	s.drop(keyOther + planKey(mine.Number))
	s.keepPlan(other)
	s.plan(other)
	s.out.Focus, s.out.Say = "title", s.voice.Say("saved")
}

// moved lists what is on another day or time than when the person last said that
// they have read it.
func (s *session) moved(now *schedule.Schedule) []page.Notice {
	key := keyRead + planKey(now.Plan.Number)
	read, ok := s.kept(keyRead, now.Plan.Number)
	if !ok {
		s.keep(key, link.Encode(now.Plan))
		return nil
	}
	if read.SameFacts(now.Plan) {
		return nil
	}
	before, err := schedule.Build(read)
	if err != nil {
		return nil
	}
	moves := schedule.Moves(before, now)
	if len(moves) == 0 {
		s.keep(key, link.Encode(now.Plan))
		return nil
	}
	return []page.Notice{page.MovesNotice(s.voice, &now.Plan, moves)}
}

func (s *session) markRead(p plan.Plan) {
	s.keep(keyRead+planKey(p.Number), link.Encode(p))
	s.plan(p)
	s.out.Focus, s.out.Say = "next", s.voice.Say("saved")
}

// broken answers a link that does not open. The device's own plans are offered.
func (s *session) broken(err error) {
	key := "link.damaged"
	if errors.Is(err, link.ErrNewer) {
		key = "link.newer"
	}
	s.front(page.Front{Trouble: s.voice.Say(key), How: s.voice.Say(key + ".how")})
}
