package app

import (
	"slices"

	"newel/core/page"
	"newel/core/plan"
)

// settle takes an answer to a question: two people changed the same thing apart from each
// other, and somebody says what holds. Only what the page asks can be answered, and only
// with one of the answers that it gives.
func (s *session) settle(p plan.Plan) {
	answer, ok := page.FindAnswer(s.people(), &p, s.field("key"), s.field("value"))
	if !ok {
		s.plan(p) // somebody else has settled it
		s.out.Focus, s.out.Say = "title", s.voice.Say("question.over")
		return
	}
	if s.base != nil && !slices.Equal(s.base.Get(answer.Key), s.doc.Get(answer.Key)) {
		s.plan(p) // one more answer has come since the question was read
		s.out.Focus, s.out.Say = "title", s.voice.Say("question.more")
		return
	}
	a := s.hand()
	settled := s.named(a).Settle(a, answer.Key, answer.Value)
	next := revised(p, planOf(settled))
	for _, d := range next.Duties {
		if was := p.Duty(d.ID); was != nil {
			next = next.WithDuty(d.After(*was)) // calendars have to be told (RFC 5546 2.1.4)
		}
	}
	read, ok := s.kept[keyRead+planKey(p.Number)]
	p = s.take(a, settled.Change(a, next))
	if before := keyBefore + planKey(p.Number); ok && s.kept[before] == "" && !s.full {
		s.keep(before, read) // what the answer moves is to be read like any other change of the facts
	}
	s.plan(p)
	s.out.Focus, s.out.Say = "title", s.voice.Say("question.settled", arg("answer", answer.Words))
}
