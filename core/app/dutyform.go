package app

import (
	"errors"
	"slices"
	"strconv"
	"strings"
	"time"

	"newel/core/page"
	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/wall"
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
	fresh := plan.Duty{ID: p.FreshDuty(), Kind: plan.DutyKind(kind)}
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
		second.ID, second.Rule.At = next.FreshDuty(), again
		next = next.WithDuty(second)
	}
	if len(problems) == 0 {
		problems = fits(&next)
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
	path := "/duty/" + strconv.Itoa(int(old.ID))
	in := page.DutyFormInput{Kind: old.Kind, Path: path + "/change", Back: path}
	if len(s.in.Fields) == 0 {
		in.Values = dutyValues(p, old)
		s.dutyForm(p, in)
		return
	}
	next, d, problems := s.enteredDuty(p, old)
	if len(problems) == 0 {
		next = next.WithDuty(d)
		problems = fits(&next)
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
	in.Voice, in.Fragment, in.Helpers, in.Phone = s.voice, s.out.Fragment, p.Helpers, p.Program.Phone
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

// rule reads when and how often. Dates that were left out, moved or added before
// stay, as far as the new rule still has them.
func (e *entry) rule(old repeat.Rule, loc *time.Location) repeat.Rule {
	r := repeat.Rule{First: e.date("first"), At: e.clock("at"), Every: 1, Week: time.Monday}
	switch {
	case e.has("at"):
	case e.values["at"] == "":
		e.wrong("at", plan.ClockMissing)
	case r.At == 24*60:
		e.wrong("at", plan.RuleFault+repeat.TimeFault)
	}
	often := e.choice("often", oftenAnswers)
	if oftenAnswers[often] == "text" {
		if len(e.problems) > 0 {
			return r
		}
		parsed, err := repeat.Parse(e.values["rule"], repeat.Moment{Day: r.First, At: r.At}, loc)
		if err != nil {
			e.fault("rule", err)
			return r
		}
		r = parsed
	} else {
		r.Freq = repeat.Freq(often)
		e.pattern(&r)
		r = r.Canonical() // the first day is now one of the rule's
		e.ends(&r)
	}
	r.Skipped, r.Moved, r.Extra = old.Skipped, old.Moved, old.Extra
	return r.Canonical()
}

func (e *entry) pattern(r *repeat.Rule) {
	if r.Freq != repeat.Once && e.values["every"] != "" {
		r.Every, _ = e.number("every", e.values["every"])
	}
	switch r.Freq {
	case repeat.Weekly:
		for d := range time.Weekday(7) {
			if e.values["day-"+strconv.Itoa(int(d))] != "" {
				r.Days |= repeat.DaysOf(d)
			}
		}
		if r.Days == 0 {
			e.wrong("days", plan.RuleFault+repeat.DayFault)
			r.Days = repeat.DaysOf(r.First.Weekday())
		}
	case repeat.Monthly:
		_, _, day := r.First.YMD()
		switch monthAnswers[e.choice("month", monthAnswers)] {
		case "day":
			r.MonthDays = []int8{int8(day)}
		case "end":
			r.MonthDays = []int8{-1}
		case "nth":
			r.Nth = []repeat.Nth{{N: int8((day + 6) / 7), Day: r.First.Weekday()}}
		case "last":
			r.Nth = []repeat.Nth{{N: -1, Day: r.First.Weekday()}}
		}
	}
}

func (e *entry) ends(r *repeat.Rule) {
	if r.Freq == repeat.Once {
		return
	}
	switch endAnswers[e.choice("ends", endAnswers)] {
	case "weeks":
		if n, ok := e.needed("weeks"); ok {
			r.Last = r.First + wall.Date(7*min(max(n, 0), repeat.MaxSpan)) - 1
		}
	case "times":
		if n, ok := e.needed("times"); ok {
			r.Count = n
			if n < 1 {
				e.wrong("times", plan.RuleFault+repeat.CountFault)
			}
		}
	case "day":
		r.Last = e.date("last")
		if r.Last == 0 && !e.has("last") {
			e.wrong("last", plan.DateUnreal)
		}
	}
}

// needed reads a number that the chosen answer asks for.
func (e *entry) needed(name string) (int, bool) {
	if e.values[name] == "" {
		e.wrong(name, plan.NumberMissing)
		return 0, false
	}
	n, ok := e.number(name, e.values[name])
	if ok && name == "weeks" && (n < 1 || n*7 > repeat.MaxSpan) {
		e.problems = append(e.problems, plan.Problem{Field: name, Code: plan.RuleOutside, Low: 1, High: repeat.MaxSpan / 7})
		return 0, false
	}
	return n, ok
}

// fault puts a rule's fault beside a field.
func (e *entry) fault(field string, err error) {
	var fault repeat.Fault
	if errors.As(err, &fault) {
		e.wrong(field, plan.RuleFault+fault.Code)
	}
}

// again reads the second time of the day, where one was put in.
func (e *entry) again(problems *[]plan.Problem, first wall.Clock) wall.Clock {
	again := e.clock("again")
	if again == 24*60 || again.Known() && again == first {
		e.wrong("again", plan.ClockUnreal)
	}
	*problems = append(*problems, e.problems...)
	return again
}

func (s *session) ruleFault(err error) string {
	var fault repeat.Fault
	errors.As(err, &fault)
	return s.voice.RuleFault(fault, fault.Value)
}

// freshDutyValues are what the form of a new duty begins with. The lengths are
// common practice, no published source, and stand there to be changed; how far it is
// comes from the last duty of the kind.
func (s *session) freshDutyValues(p plan.Plan, kind plan.DutyKind) map[string]string {
	v := map[string]string{"often": "once", "ends": "weeks", "month": "day", "leaves": "wait", "every": "1"}
	switch kind {
	case plan.TherapyRide:
		v["often"], v["length"], v["early"] = "weekly", "45", "10"
	case plan.VisitRide, plan.OtherRide:
		v["length"], v["early"] = "30", "10"
	case plan.PetCare:
		v["often"], v["length"] = "daily", "20"
	case plan.Meals:
		v["often"], v["at"], v["length"] = "daily", "12:00", "30"
	case plan.Nights:
		v["often"], v["at"], v["length"] = "daily", "21:00", "600"
	case plan.OtherDuty:
		v["length"] = "60"
	}
	for i := range p.Duties {
		if d := &p.Duties[i]; d.Kind == kind && kind.IsRide() && !d.Dropped {
			v["place"], v["drive"], v["parking"] = d.Place, minutes(d.Ride.Drive), minutes(d.Ride.Parking)
		}
	}
	return v
}

// dutyValues writes a duty as the fields of its form.
func dutyValues(p plan.Plan, d plan.Duty) map[string]string {
	v := map[string]string{
		"title": d.Title, "place": d.Place, "note": d.Note, "who": p.Helper(d.Who), "length": minutes(d.Length),
		"drive": minutes(d.Ride.Drive), "parking": minutes(d.Ride.Parking), "early": minutes(d.Ride.Early), "own": minutes(d.Ride.Own),
		"leaves": leaveAnswers[0], "first": d.Rule.First.String(), "at": d.Rule.At.String(),
		"often": oftenAnswers[d.Rule.Freq], "every": strconv.Itoa(d.Rule.Every), "month": "day", "ends": "weeks",
	}
	if d.Ride.Leaves {
		v["leaves"] = leaveAnswers[1]
	}
	ruleValues(v, d.Rule)
	if loc, err := zone.Load(p.Zone); err == nil && !sayable(v, d.Rule, loc) {
		v["often"], v["rule"] = "text", d.Rule.Recur(nil)
	}
	return v
}

func ruleValues(v map[string]string, r repeat.Rule) {
	for d := range time.Weekday(7) {
		if r.Days.Has(d) {
			v["day-"+strconv.Itoa(int(d))] = "1"
		}
	}
	switch {
	case len(r.MonthDays) == 1 && r.MonthDays[0] == -1:
		v["month"] = "end"
	case len(r.Nth) == 1 && r.Nth[0].N == -1:
		v["month"] = "last"
	case len(r.Nth) == 1:
		v["month"] = "nth"
	}
	switch span := int(r.Last-r.First) + 1; {
	case r.Count > 0:
		v["ends"], v["times"] = "times", strconv.Itoa(r.Count)
	case r.Last != 0 && span%7 == 0:
		v["weeks"] = strconv.Itoa(span / 7)
	case r.Last != 0:
		v["ends"], v["last"] = "day", r.Last.String()
	case r.Endless():
		v["ends"] = "never"
	}
}

// sayable tells whether the form's plain controls can say a rule. What they cannot
// came as a text, and is shown as one.
func sayable(values map[string]string, r repeat.Rule, loc *time.Location) bool {
	e := &entry{values: values}
	return e.rule(r, loc).Equal(r) && len(e.problems) == 0
}
