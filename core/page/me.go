package page

import (
	"strconv"

	"newel/core/plan"
)

// MeInput is what the form "whose device is this?" is made from.
type MeInput struct {
	Input
	Chosen        string // the answer that stands there, in the values of the choice
	Other, Nobody string // the values for another name and for no helper's; helpers have their place
	Name          string // as typed
	Problems      []plan.Problem
}

// NewMeForm makes the view of the form.
func NewMeForm(in MeInput) Form {
	v := in.Voice
	p := &in.Schedule.Plan
	m := &former{FormInput{Voice: v, Values: map[string]string{"who": in.Chosen, "name": in.Name}, Problems: in.Problems}, v}
	who := m.field("who", "choice", v.Say("me.who"), "")
	option := func(value, label string) {
		who.Options = append(who.Options, Option{Value: value, Label: label, Chosen: value == in.Chosen})
	}
	for i, name := range p.Helpers {
		option(strconv.Itoa(i+1), name)
	}
	option(in.Other, v.Say("me.other"))
	option(in.Nobody, v.Say("me.nobody"))
	f := Form{
		Voice: v, Fragment: in.Fragment, Calls: NewCalls(v, p, in.Fragment), Action: "/me", Back: "/",
		Title: v.Say("me.title"), Lead: v.Say("me.lead"), Submit: v.Say("save"),
		Groups: []Group{{ID: "who", Fields: []Field{who, m.field("name", "text", v.Say("me.name"), "")}}},
	}
	f.gatherProblems(v, in.Problems)
	return f
}
