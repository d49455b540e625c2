package app

import (
	"strconv"
	"strings"

	"newel/core/merge"
	"newel/core/page"
	"newel/core/plan"
)

// The answers to "whose device is this?" beside the helpers, who are numbered.
const (
	meOther  = "other"
	meNobody = "none"
)

// me asks whose device this is, and takes the answer. The name goes with every change that
// was and will be made here, so that the others see whose it was; nothing else hangs on it.
func (s *session) me(p plan.Plan) {
	if len(s.in.Fields) == 0 {
		s.meForm(p, nil)
		return
	}
	name, problems := s.answeredMe(p)
	if len(problems) > 0 {
		s.meForm(p, problems)
		return
	}
	p, problems = s.withMe(p, name)
	if len(problems) > 0 {
		s.meForm(p, problems)
		return
	}
	if !s.full {
		s.keep(keyMe+planKey(p.Number), name)
	}
	s.plan(p)
	s.out.Focus, s.out.Say = "title", s.voice.Say("saved")
}

// answeredMe reads the answer: a helper’s first name, or "" for somebody who is none.
func (s *session) answeredMe(p plan.Plan) (name string, problems []plan.Problem) {
	wrong := func(field, code string) []plan.Problem {
		return []plan.Problem{{Field: field, Code: code, High: plan.MaxName}}
	}
	who := s.field("who")
	name = s.field("name")
	if who == "" && name != "" { // typing the name says as much as choosing the line above it
		who = meOther
	}
	switch who {
	case meNobody:
		return "", nil
	case meOther:
		if name == "" || name == "-" {
			return "", wrong("who", plan.ChoiceUnknown)
		}
		if len([]rune(name)) > plan.MaxName {
			return "", wrong("name", plan.TextLong)
		}
		for _, known := range p.Helpers {
			if strings.EqualFold(known, name) {
				return known, nil // as the others write it
			}
		}
		return name, nil
	default:
		n, err := strconv.ParseUint(who, 10, 8)
		if name = p.Helper(uint8(n)); err != nil || name == "" {
			return "", wrong("who", plan.ChoiceUnknown)
		}
		return name, nil
	}
}

// withMe writes the name under this device's number. Somebody who is no helper needs no
// entry, unless a name has to be taken back.
func (s *session) withMe(p plan.Plan, name string) (plan.Plan, []plan.Problem) {
	a := s.hand()
	if s.doc.HandOf(a) == name {
		return p, nil
	}
	next, _, problems := s.helper(p, name)
	if len(problems) > 0 {
		return p, problems
	}
	return s.take(a, s.doc.Change(a, next).WithHand(a, name)), nil
}

func (s *session) meForm(p plan.Plan, problems []plan.Problem) {
	in, ok := s.input(p)
	if !ok {
		return
	}
	chosen := s.field("who")
	if me, known := s.kept[keyMe+planKey(p.Number)]; chosen == "" && known {
		chosen = meNobody
		for i, name := range p.Helpers {
			if name == me {
				chosen = strconv.Itoa(i + 1)
			}
		}
	}
	form := page.NewMeForm(page.MeInput{
		Input: in, Chosen: chosen, Other: meOther, Nobody: meNobody, Name: s.field("name"), Problems: problems,
	})
	s.screen("/me", form.Title, page.FormPage(form))
	if len(problems) > 0 {
		s.out.Focus, s.out.Say = "problems", s.voice.Count("form.problems", len(problems))
	}
}

// whoseDevice is the line that says whose device this is; "" while nobody has said.
func (s *session) whoseDevice() string {
	me, known := s.kept[keyMe+planKey(s.doc.Number)]
	switch {
	case !known:
		return ""
	case me == "":
		return s.voice.Say("me.nobody-here")
	}
	return s.voice.Say("me.here", arg("who", me))
}

// whoAreYou asks for the name once something was changed here that the others will see.
// Making a plan is no such change: whoever makes it is mostly no helper.
func (s *session) whoAreYou(p plan.Plan, in page.Input) []page.Notice {
	a, ok := s.keptHand(p.Number)
	_, known := s.kept[keyMe+planKey(p.Number)]
	switch {
	case page.Over(in.Schedule, s.voice.Today):
		return nil // nobody has a part to come
	case known || s.isDemo(p) || ok && a == merge.Maker && s.doc.Last(a) < 2:
		return nil
	case !ok:
		return s.isThisYou(p)
	}
	return []page.Notice{{
		ID: "me", Text: s.voice.Say("me.ask"),
		Acts: []page.Act{{Path: "/me", Button: s.voice.Say("me.say")}},
	}}
}

// namesMost is how many helpers are asked about by a button each; with more the form is shorter.
const namesMost = 6

// isThisYou asks whoever opens somebody's link for the first time, so that the page can
// begin with their part. One tap answers it, also that it is nobody's.
func (s *session) isThisYou(p plan.Plan) []page.Notice {
	if len(p.Helpers) == 0 {
		return nil
	}
	n := page.Notice{ID: "you", Text: s.voice.Say("me.first")}
	if len(p.Helpers) <= namesMost {
		for i, name := range p.Helpers {
			n.Acts = append(n.Acts, page.Act{Path: "/me", Button: name, Fields: []page.Hidden{{Name: "who", Value: strconv.Itoa(i + 1)}}})
		}
	}
	if len(p.Helpers) <= namesMost {
		n.Acts = append(n.Acts, page.Act{Path: "/me", Button: s.voice.Say("me.first.other")})
	} else {
		n.Acts = append(n.Acts, page.Act{Path: "/me", Button: s.voice.Say("me.first.choose")})
	}
	n.Acts = append(n.Acts,
		page.Act{Path: "/me", Button: s.voice.Say("me.first.nobody"), Fields: []page.Hidden{{Name: "who", Value: meNobody}}})
	return []page.Notice{n}
}
