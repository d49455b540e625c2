package app

import (
	"errors"
	"slices"
	"strings"
	"time"

	"newel/core/page"
	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/zone"
)

// newDuty shows the empty form of a kind, or adds the duty that was put in. A second
// time of the day makes a second duty, so that each can be given to somebody.
func (s *session) newDuty(p plan.Plan, key string) {
	kind := slices.Index(plan.DutyKeys[:], key)
	if kind < 0 {
		s.plan(p)
		return
	}
	fresh := plan.Duty{ID: s.freshDuty(p), Kind: plan.DutyKind(kind)}
	in := page.DutyFormInput{Kind: fresh.Kind, Path: "/duty/new/" + key, Back: "/"}
	in.New = true
	if len(s.in.Fields) == 0 {
		in.Values = s.freshDutyValues(p, fresh.Kind)
		s.dutyForm(p, in)
		return
	}
	next, d, problems := s.enteredDuty(p, fresh)
	again := (&entry{values: s.typed()}).again(&problems, d.Rule.At)
	next = next.WithDuty(d)
	if again.Known() {
		second := d
		second.ID, second.Rule.At = s.freshDuty(next), again
		next = next.WithDuty(second)
	}
	if len(problems) == 0 {
		problems = tooMany(&p, &next)
	}
	if len(problems) == 0 {
		problems = s.fits(next)
	}
	if len(problems) > 0 {
		in.Values, in.Problems = s.typed(), problems
		s.dutyForm(p, in)
		return
	}
	s.dutyPage(s.edited(p, next), d.ID, "")
	s.out.Say = s.voice.Say("saved")
}

func (s *session) changeDuty(p plan.Plan, old plan.Duty) {
	path := dutyPath(old.ID)
	in := page.DutyFormInput{Kind: old.Kind, Path: path + "/change", Back: path, Shared: old.Shared()}
	if len(s.in.Fields) == 0 {
		in.Values = dutyValues(p, old)
		s.dutyForm(p, in)
		return
	}
	next, d, problems := s.enteredDuty(p, old)
	d = withDates(d)
	if len(problems) == 0 {
		next = s.onto(p, next.WithDuty(d))
		if now := next.Duty(d.ID); now != nil {
			d = *now
		}
		problems = s.fits(next)
	}
	if len(problems) > 0 {
		in.Values, in.Problems = s.typed(), problems
		s.dutyForm(p, in)
		return
	}
	s.keepDuty(p, next, d)
}

func (s *session) dutyForm(p plan.Plan, in page.DutyFormInput) {
	if _, ok := s.input(p); !ok { // it also puts the plan's own link into the address
		return
	}
	in.Voice, in.Fragment, in.Helpers, in.Plan = s.voice, s.out.Fragment, p.Helpers, &p
	form := page.NewDutyForm(in)
	s.screen(in.Path, form.Title, page.FormPage(form))
	if len(in.Problems) > 0 {
		s.out.Focus, s.out.Say = "problems", s.voice.Count("form.problems", len(in.Problems))
	}
}

// enteredDuty reads the form into a duty that already has its number and kind.
func (s *session) enteredDuty(p plan.Plan, d plan.Duty) (next plan.Plan, out plan.Duty, problems []plan.Problem) {
	e := &entry{values: s.typed()}
	next, d.Who, problems = s.helper(p, e.values["who"])
	d.Title, d.Place, d.Note = e.values["title"], e.values["place"], e.values["note"]
	d.Length = max(e.minutes("length"), 0)
	if e.values["need"] != "" { // a choice is always sent with its form; without it the box beside it says nothing
		d.Need, d.Steady = plan.Need(e.choice("need", page.NeedKeys)), e.values["steady"] != ""
	}
	d.Ride = plan.Ride{Own: max(e.minutes("own"), 0), Drive: plan.Unknown, Parking: plan.Unknown}
	if d.Kind.IsRide() {
		d.Ride.Drive, d.Ride.Parking = e.minutes("drive"), e.minutes("parking")
		d.Ride.Early = max(e.minutes("early"), 0)
		d.Ride.Leaves = e.choice("leaves", leaveAnswers) == 1
	}
	loc, err := zone.Load(p.Zone)
	if err != nil {
		e.wrong("first", plan.ZoneUnknown)
		loc = time.UTC
	}
	d.Rule = e.rule(d.Rule, loc)
	for _, problem := range plan.CheckDuty(&d) {
		// Of the rule's own faults only the first is known; what was typed wrong comes before it.
		if !e.has(problem.Field) && !(len(e.problems) > 0 && strings.HasPrefix(problem.Code, plan.RuleFault)) {
			e.problems = append(e.problems, problem)
		}
	}
	if len(problems)+len(e.problems) == 0 && s.allOver(d.Rule) && !s.confirmed(e.values["first"]) {
		e.problems = append(e.problems, plan.Problem{Field: "first", Code: plan.DutyOver, Ask: true})
	}
	return next, d, append(problems, e.problems...)
}

// allOver tells whether a rule has no date from today on, which is more often a slip of
// the finger than meant.
func (s *session) allOver(r repeat.Rule) bool {
	dates, _ := r.All()
	return len(dates) > 0 && dates[len(dates)-1].Day < s.voice.Today
}

// The answers of the duty's choices.
var (
	leaveAnswers = []string{"wait", "back"}
	oftenAnswers = []string{"once", "daily", "weekly", "monthly", "text"}
	monthAnswers = []string{"day", "end", "nth", "last"}
	endAnswers   = []string{"weeks", "times", "day", "never"}
)

func (s *session) ruleFault(err error) string {
	var fault repeat.Fault
	errors.As(err, &fault)
	return s.voice.RuleFault(fault, fault.Value)
}
