package page

import (
	"newel/core/guide"
)

// SayBack is the page on which a helper says in their own words what the plan asks of them:
// six questions made from the plan, each with the answer and why, and what came of them. The
// method is teach-back: AHRQ, Health Literacy Universal Precautions Toolkit, 3rd edition,
// Tool 5. It looks at how well something was explained, not at who is asked; so the helper
// compares and says what is clear, and nothing is scored by the page.
type SayBack struct {
	Voice    guide.Voice
	Fragment string
	Plan     string // whose operation, and when
	Calls    Calls
	Notices  []Notice // of clocks: another zone, a time that comes twice
	Asked    []Asked
	Progress string
	Done     bool     // all six have been said
	Clear    string   // how many are clear
	Again    []string // the topics of those to be explained again
}

// Asked is a question with what the helper said of it.
type Asked struct {
	SayQuestion
	N    int
	Said Said
	Of   string // "Question 2 of 6"
}

// Said is how clear an answer was.
type Said uint8

// What can be said of an answer. SaidChanged: it was said, but the plan's answer is another now.
const (
	SaidNotYet Said = iota
	SaidClear
	SaidUnclear
	SaidChanged
)

// Mark is what a device remembers of one question: how clear it was, and which answer the
// plan had.
type Mark struct {
	Said Said
	Fact string
}

// questionsAsked is how many questions there are.
const questionsAsked = 6

// NewSayBack makes the view. marks has what was said before, by the question's id.
func NewSayBack(in Input, marks map[string]Mark) SayBack {
	m := newMaker(in)
	day := m.viewOfDay()
	v := SayBack{Voice: m.v, Fragment: in.Fragment, Calls: day.Calls, Plan: joined(day.Title, day.Day), Notices: append(m.behind(), m.clockNotices()...)}
	for i := range v.Notices {
		if n := &v.Notices[i]; n.ID == "zone" { // the device's own times do not stand beside them here
			n.Text = m.v.Say("say-back.zone", arg("zone", m.p.Zone))
		}
	}
	clear := 0
	for i, q := range m.sayQuestions() {
		said := said(q, marks)
		v.Asked = append(v.Asked, Asked{SayQuestion: q, N: i + 1, Said: said,
			Of: m.v.Say("say-back.of", guide.Number("n", i+1), guide.Number("of", questionsAsked))})
		switch said {
		case SaidClear:
			clear++
		case SaidUnclear:
			v.Again = append(v.Again, q.Topic)
		}
	}
	v.Done = clear+len(v.Again) == questionsAsked
	v.Clear = m.v.Count("say-back.clear", clear, guide.Number("of", questionsAsked))
	v.Progress = m.v.Count("say-back.left", questionsAsked-clear-len(v.Again))
	return v
}

// said is what holds of an earlier mark.
func said(q SayQuestion, marks map[string]Mark) Said {
	mark, ok := marks[q.ID]
	switch {
	case !ok:
		return SaidNotYet
	case mark.Fact != q.Fact:
		return SaidChanged
	}
	return mark.Said
}

// Next is the id of the element with the first question that is still open, or of the result.
func (v *SayBack) Next() string {
	for i := range v.Asked {
		if a := &v.Asked[i]; a.Said == SaidNotYet || a.Said == SaidChanged {
			return "ask-" + a.ID
		}
	}
	return "said"
}

// Text is the result as a message for the navigator.
func (v *SayBack) Text() string {
	text := v.Voice.Say("say-back.text", arg("plan", v.Plan), arg("clear", v.Clear))
	if len(v.Again) > 0 {
		text += " " + v.Voice.Say("say-back.text.again", arg("topics", v.Voice.List(v.Again)))
	}
	return text
}

// SayBackPage makes the page.
func SayBackPage(v *SayBack) string { return sayBackPage(v) }
