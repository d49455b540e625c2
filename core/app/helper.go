package app

import (
	"slices"
	"strconv"
	"strings"

	"newel/core/page"
	"newel/core/plan"
)

// oneHelper answers the paths of the helpers:
//
//	/helper/new              the form of a new one
//	/helper/N                what the helper in place N can do and when
//	/helper/N/out, back      they can no longer help, or can again
//	/helper/N/remove         takes a name off the list that nothing hangs on
//
// A place may be another's once a link was joined; so each form has the name beside it.
func (s *session) oneHelper(p plan.Plan, place, act string) {
	if place == "new" {
		s.newHelper(p)
		return
	}
	who := s.helperOf(&p, place)
	if who == 0 {
		s.plan(p)
		return
	}
	switch act {
	case "out", "back":
		s.setOut(p, who, act == "out")
	case "remove":
		s.removeHelper(p, who)
	default:
		s.changeHelper(p, who)
	}
}

// helperOf finds the helper that a request is about; 0: there is none any more.
func (s *session) helperOf(p *plan.Plan, place string) uint8 {
	if name := s.field("of"); name != "" {
		return placeOf(p, name)
	}
	n, err := strconv.ParseUint(place, 10, 8)
	if err != nil || p.Helper(uint8(n)) == "" {
		return 0
	}
	return uint8(n)
}

// placeOf is 1 + the place of a helper's name; 0: nobody has it.
func placeOf(p *plan.Plan, name string) uint8 {
	return uint8(1 + slices.IndexFunc(p.Helpers, func(known string) bool { return sameName(known, name) }))
}

// myName is the helper whose device this is; "" where nobody has said so, or it is no helper's.
func (s *session) myName(number uint32) string { return s.kept[keyMe+planKey(number)] }

func sameName(a, b string) bool { return strings.EqualFold(a, b) }

func helperPath(who uint8) string { return "/helper/" + strconv.Itoa(int(who)) }

// newHelper shows the empty form, or adds the helper that was put in.
func (s *session) newHelper(p plan.Plan) {
	in := page.HelperFormInput{Path: "/helper/new"}
	in.New = true
	if len(s.in.Fields) == 0 {
		in.Values = freshAboutValues()
		s.helperForm(p, 0, in)
		return
	}
	e := &entry{values: s.typed()}
	name := e.helperName(&p)
	about := e.about(plan.About{}, anchorOf(&p, s.voice.Today))
	next := p
	if len(e.problems) == 0 {
		var who uint8
		if next, who = p.WithHelper(name); who == 0 {
			e.problems = append(e.problems, plan.Problem{Field: "name", Code: plan.HelpersMany, High: plan.MaxHelpers})
		}
		next = next.WithAbout(who, about)
	}
	s.keepHelper(p, next, name, in, e.problems)
}

// changeHelper shows what is known of a helper, or takes over what was changed.
func (s *session) changeHelper(p plan.Plan, who uint8) {
	in := page.HelperFormInput{Path: helperPath(who), Name: p.Helper(who)}
	old := p.AboutOf(who)
	if len(s.in.Fields) == 0 {
		in.Values, _ = aboutValues(old)
		s.helperForm(p, who, in)
		return
	}
	e := &entry{values: s.typed()}
	about := e.about(old, anchorOf(&p, s.voice.Today))
	s.keepHelper(p, p.WithAbout(who, about), p.Helper(who), in, e.problems)
}

// keepHelper takes over what was put in of a helper, or shows the form with what is wrong.
func (s *session) keepHelper(p, next plan.Plan, name string, in page.HelperFormInput, problems []plan.Problem) {
	if len(problems) == 0 {
		problems = s.helperFits(next, placeOf(&next, name))
	}
	if len(problems) > 0 {
		in.Values, in.Problems = s.typed(), problems
		s.helperForm(p, placeOf(&p, in.Name), in)
		return
	}
	p = s.edited(p, next)
	if sameName(name, s.myName(p.Number)) {
		s.plan(p) // somebody said it of themselves, and goes on with their part
	} else {
		s.splitPage(p)
	}
	s.out.Push, s.out.Focus, s.out.Say = false, "title", s.voice.Say("helper.saved", arg("who", name))
}

// helperFits looks for what the form's own fields do not say: bounds of core/plan, and
// the length of the link.
func (s *session) helperFits(next plan.Plan, who uint8) []plan.Problem {
	about := next.AboutOf(who)
	problems := plan.CheckAbout(&about)
	for i := range problems {
		problems[i].Field = "when"
	}
	if len(problems) > 0 {
		return problems
	}
	problems = s.fits(next)
	for i := range problems {
		problems[i].Field = "" // it is about the plan as a whole
	}
	return problems
}

func (s *session) helperForm(p plan.Plan, who uint8, in page.HelperFormInput) {
	base, ok := s.input(p)
	if !ok {
		return
	}
	in.Voice, in.Fragment, in.Plan, in.Patient = s.voice, s.out.Fragment, &p, s.voice.Patient(&p)
	about := p.AboutOf(who)
	_, rest := aboutValues(about)
	for _, i := range rest {
		in.Other = append(in.Other, page.Option{
			Value: keepName(i), Label: page.TimesText(s.voice, about.Times[i]), Chosen: in.Values[keepName(i)] != "",
		})
	}
	view := page.NewHelperView(page.HelperInput{Input: base, Form: in, Who: who, Known: s.isHand(p.Helper(who))})
	s.screen(in.Path, view.Form.Title, page.HelperPage(view))
	if len(in.Problems) > 0 {
		s.out.Focus, s.out.Say = "problems", s.voice.Count("form.problems", len(in.Problems))
	}
}

// isHand tells whether some device says that it is a helper's.
func (s *session) isHand(name string) bool {
	return name != "" && slices.ContainsFunc(s.hands(), func(h string) bool { return sameName(h, name) })
}

// hands are the names under which devices changed the plan.
func (s *session) hands() []string {
	var all []string
	for _, stamp := range s.doc.Seen() {
		if name := s.doc.HandOf(stamp.Actor); name != "" {
			all = append(all, name)
		}
	}
	return append(all, s.myName(s.doc.Number))
}

// setOut notes that somebody can no longer help, or can again, and shows at once what that
// leaves without anybody.
func (s *session) setOut(p plan.Plan, who uint8, out bool) {
	if len(s.in.Fields) == 0 { // only asked for, such as by the browser's way back
		s.changeHelper(p, who)
		return
	}
	about := p.AboutOf(who)
	about.Out = out
	name, before := p.Helper(who), s.fragment()
	p = s.edited(p, p.WithAbout(who, about))
	if out {
		s.canUndo(before, s.voice.Say("helper.is-out", arg("who", name)))
	}
	s.backTo(p)
	key := "helper.back-again"
	if out {
		key = "helper.is-out"
	}
	s.out.Focus, s.out.Say = "title", s.voice.Say(key, arg("who", name))
	if who = placeOf(&p, name); out && who != 0 {
		s.out.Say = s.outSaid(p, who)
		s.out.Focus = "notice-open"
	}
}

// removeHelper takes a helper off the list. It leaves one who has anything.
func (s *session) removeHelper(p plan.Plan, who uint8) {
	name := p.Helper(who)
	if len(s.in.Fields) == 0 || p.HasDuty(who) || s.isHand(name) {
		s.changeHelper(p, who)
		return
	}
	before, said := s.fragment(), s.voice.Say("helper.removed", arg("who", name))
	p = s.edited(p, withoutHelper(p, who))
	s.canUndo(before, said)
	s.splitPage(p)
	s.out.Focus, s.out.Say = "title", said
	s.atUndo()
}

// withoutHelper drops a helper who has no duty; those behind them move up.
func withoutHelper(p plan.Plan, who uint8) plan.Plan {
	i := int(who) - 1
	p.Helpers = slices.Delete(slices.Clone(p.Helpers), i, i+1)
	if i < len(p.About) {
		p.About = slices.Delete(slices.Clone(p.About), i, i+1)
	}
	up := func(n *uint8) {
		if *n > who {
			*n--
		}
	}
	for i := range p.Cover {
		up(&p.Cover[i])
	}
	p.Shifts = slices.Clone(p.Shifts)
	for i := range p.Shifts {
		up(&p.Shifts[i].Who)
	}
	p.Duties = slices.Clone(p.Duties)
	for i := range p.Duties {
		d := &p.Duties[i]
		up(&d.Who)
		d.Takes = slices.Clone(d.Takes)
		for j := range d.On {
			up(&d.On[j])
		}
		for j := range d.Takes {
			up(&d.Takes[j].Who)
		}
	}
	return p
}
