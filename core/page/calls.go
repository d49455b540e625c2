package page

import (
	"newel/core/guide"
	"newel/core/plan"
	"newel/core/wall"
)

// Calls is what the foot of every page needs: whom to call and when, and who has looked the
// text over. It is made once for a page, from the plan, since the numbers are the hospital's.
type Calls struct {
	Phone    Tel // of the hospital
	Dial     Tel // for an ambulance
	Signs    guide.Signs
	Review   []string // who has reviewed the text and the translation, or that nobody has yet
	Fragment string   // of the plan
	NoPlan   bool     // the numbers are nobody's in particular
	Static   bool     // on the page as it is before the core has loaded
}

// NewCalls makes it. p is nil where there is no plan.
func NewCalls(v guide.Voice, p *plan.Plan, fragment string) Calls {
	c := Calls{Signs: v.Signs(p), Fragment: fragment, NoPlan: p == nil}
	c.Dial = NewTel(c.Signs.Number)
	var program plan.Program
	if p != nil {
		program = p.Program
		c.Phone = NewTel(program.Phone)
	}
	c.Review = review(v, &program)
	return c
}

func (m *maker) calls() Calls { return NewCalls(m.v, m.p, m.Fragment) }

// review says who at the hospital has reviewed the text, and in a translation who has
// reviewed that.
func review(v guide.Voice, p *plan.Program) []string {
	said := []string{reviewed(v, p, "review", plan.ReviewedBy, plan.ReviewedOn)}
	if v.Language != guide.Languages[0] {
		said = append(said, reviewed(v, p, "translation", plan.TranslatedBy, plan.TranslatedOn))
	}
	return said
}

// reviewed is one of the two: key.none, key.by or, where the day is known, key.on.
func reviewed(v guide.Voice, p *plan.Program, key string, by, on plan.ProgramText) string {
	day, err := wall.ParseDate(p.Texts[on])
	who := arg("who", p.Texts[by])
	switch {
	case p.Texts[by] == "":
		return v.Say(key + ".none")
	case err != nil:
		return v.Say(key+".by", who)
	}
	return v.Say(key+".on", who, arg("day", v.Day(day)))
}
