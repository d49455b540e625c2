package app

import (
	"slices"

	"newel/core/page"
	"newel/core/plan"
)

// who says who has a duty that every plan has.
func (s *session) who(p plan.Plan, id string) {
	slot, isSlot := plan.SlotNamed(id)
	i := slices.Index(plan.BuiltIn[:], id)
	in, ok := s.input(p)
	if !ok {
		return
	}
	problem := ""
	if len(s.in.Fields) > 0 && (i >= 0 || isSlot) {
		next, who, trouble := s.helper(p, s.field("who"))
		if len(trouble) == 0 {
			if isSlot {
				next = next.WithShift(slot, who)
			} else {
				next = next.WithCover(i, who)
			}
			s.plan(s.edited(p, next))
			s.out.Say, s.out.Focus = s.voice.Say("saved"), "title"
			return
		}
		problem = s.voice.Problem(trouble[0], s.voice.Say("duty-form.who"), s.field("who"))
	}
	view, ok := page.NewWhoView(in, id, problem)
	if !ok {
		s.plan(p)
		return
	}
	s.screen("/who/"+id, view.Title, page.WhoPage(view))
	s.out.Say = problem
}

// helper finds the helper with a name, or adds one.
func (s *session) helper(p plan.Plan, name string) (next plan.Plan, who uint8, problems []plan.Problem) {
	if len([]rune(name)) > plan.MaxName {
		return p, 0, []plan.Problem{{Field: "who", Code: plan.TextLong, High: plan.MaxName}}
	}
	if name == "-" { // a dash in a field for a name means nobody, and so it does in core/merge
		name = ""
	}
	next, who = p.WithHelper(name)
	if name != "" && who == 0 {
		return p, 0, []plan.Problem{{Field: "who", Code: plan.HelpersMany, High: plan.MaxHelpers}}
	}
	return next, who, nil
}
