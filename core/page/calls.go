package page

import (
	"newel/core/desk"
	"newel/core/guide"
	"newel/core/plan"
	"newel/core/wall"
)

// Calls is what the foot of every page needs: whom to call and when, and who has looked the
// text over. It is made once for a page, from the plan, since the numbers are the hospital's.
type Calls struct {
	Phone    Tel           // of the hospital
	Office   []OfficePhone // whom to call with questions, and when; empty where no number was given
	Dial     Tel           // for an ambulance
	Signs    guide.Signs
	Review   []string // who has reviewed the text and the translation, or that nobody has yet
	Fragment string   // of the plan
	Plan     bool     // Fragment is that of a plan, which is one tap away from each of its pages
	NoPlan   bool     // there is no plan, and the numbers are nobody's in particular
	Static   bool     // on the page as it is before the core has loaded
}

// OfficePhone is a number of the hospital with when somebody answers there.
type OfficePhone struct {
	Label string // "At other times"; empty for the one to call first
	Tel   Tel    // Shown is empty where only words were given
	Hours string
}

// Comma tells whether a comma stands between number and hours.
func (o *OfficePhone) Comma() bool { return o.Tel.Shown != "" && o.Hours != "" }

// officePhones lists the numbers of a program, the one to call first first.
func officePhones(v guide.Voice, p *plan.Program) []OfficePhone {
	var all []OfficePhone
	add := func(label, number, hours string) {
		if number != "" || hours != "" {
			all = append(all, OfficePhone{label, NewTel(number), hours})
		}
	}
	if p.Phone != "" {
		add("", p.Phone, p.Texts[plan.PhoneHours])
	}
	add(v.Say("phone.other-label"), p.Texts[plan.AfterPhone], p.Texts[plan.AfterHours])
	return all
}

// NewCalls makes it. p is nil where there is no plan: then it says what the hospital says for
// which the page was made.
func NewCalls(v guide.Voice, p *plan.Plan, fragment string) Calls {
	c := Calls{Fragment: fragment, NoPlan: p == nil && plan.Home == 0}
	c.Plan = p != nil && fragment != "" && !desk.IsAddress(fragment)
	if p == nil {
		p = guide.Nobody()
	}
	c.Signs = v.Signs(p)
	c.Dial, c.Phone, c.Office = NewTel(c.Signs.Number), NewTel(p.Program.Phone), officePhones(v, &p.Program)
	c.Review = review(v, &p.Program)
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
