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
// A link that this device has had before is an old message tapped again, or the
// browser's way back: the device's plan is shown without a word. A new link with
// the same facts adds its ticks. One with other facts is taken over if it is newer
// and nothing was changed here in the meantime; otherwise it is put to the person
// as a question, and until that is answered the device's plan is shown.
func (s *session) open() (plan.Plan, bool) {
	s.in.Fragment = link.Trim(s.in.Fragment)
	p, err := link.Decode(s.in.Fragment)
	if err != nil {
		s.broken(err)
		return plan.Plan{}, false
	}
	n := planKey(p.Number)
	mine, have := s.stored(keyPlan, p.Number)
	switch {
	case !have:
		s.keep(keyRead+n, s.in.Fragment)
	case s.had(keySeen + n), s.had(keyWas + n):
		p = mine
	case mine.SameFacts(p):
		p = joined(mine, p)
	case p.Edition > mine.Edition && s.kept[keyOwn+n] == "" && !lacksDuty(&p, &mine):
		p = after(mine, joined(p, mine))
		s.drop(keyOther + n)
	default:
		s.keep(keyOther+n, s.in.Fragment) // until the person has chosen
		p = mine
	}
	// The states of the plan on this device have marks of their own. Among those of
	// the messages, a few weeks of ticking would push out the first message.
	if !s.had(keyWas + n) {
		s.addMark(keySeen+n, s.in.Fragment)
	}
	return s.keepPlan(p), true
}

// joined gives p with the ticks of another copy added. Where that changes nothing
// the edition stays, so that opening a link does not make a new one.
func joined(p, other plan.Plan) plan.Plan {
	before := len(p.Ticked)
	for _, t := range other.Ticked {
		p = p.WithTick(t, true)
	}
	p.Edition = max(p.Edition, other.Edition)
	if len(p.Ticked) > before {
		p.Edition = p.NextEdition()
	}
	return p
}

// lacksDuty tells whether a copy does not know one of the family's duties, which no
// change takes out without a trace: the two were changed apart from each other.
func lacksDuty(p, mine *plan.Plan) bool {
	for i := range mine.Duties {
		if d := &mine.Duties[i]; !d.Dropped && p.Duty(d.ID) == nil {
			return true
		}
	}
	return false
}

// after gives next with revisions that calendars take for newer than those of the plan
// that it takes the place of (RFC 5546 2.1.4). A newer copy has them already, unless the
// two were changed apart from each other.
func after(mine, next plan.Plan) plan.Plan {
	later := next
	for i := range next.Duties {
		if was := mine.Duty(next.Duties[i].ID); was != nil && next.Duties[i].Revision <= was.Revision {
			later = later.WithDuty(next.Duties[i].After(*was))
		}
	}
	later = revised(mine, later)
	if !later.SameFacts(next) {
		later.Edition = later.NextEdition()
	}
	return later
}

// choice asks which of two copies to go on with, where a link was not taken over.
func (s *session) choice(mine plan.Plan) []page.Notice {
	other, ok := s.stored(keyOther, mine.Number)
	if !ok {
		return nil
	}
	text := "older.same"
	if other.Edition < mine.Edition && s.kept[keyOwn+planKey(mine.Number)] == "" {
		text = "older.link"
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
	other, ok := s.stored(keyOther, mine.Number)
	if !ok {
		s.plan(mine)
		return
	}
	other = joined(other, mine)
	other.Edition = other.NextEdition()
	s.drop(keyOther + planKey(mine.Number))
	s.drop(keyOwn + planKey(mine.Number))
	s.plan(s.keepPlan(after(mine, other)))
	s.out.Focus, s.out.Say = "title", s.voice.Say("saved")
}

// moved lists what is on another day or time than when the person last said that
// they have read it.
func (s *session) moved(now *schedule.Schedule) []page.Notice {
	key := keyRead + planKey(now.Plan.Number)
	read, ok := s.stored(keyRead, now.Plan.Number)
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
	notice, ok := page.MovesNotice(s.voice, before, now)
	if !ok {
		s.keep(key, link.Encode(now.Plan))
		return nil
	}
	s.movedSay = notice.Text
	return []page.Notice{notice}
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
