package app

import (
	"slices"
	"strconv"
	"strings"

	"newel/core/plan"
	"newel/core/wall"
)

// entered reads the form into a plan that already has its number, the family's part and
// ticks. Faults of reading come first, then those of the plan; page.NewForm puts
// them in order. A question that was answered with yes is none.
func (s *session) entered(p plan.Plan) (plan.Plan, []plan.Problem) {
	e := &entry{values: s.typed()}
	p.Patient, p.Zone = e.values["patient"], e.values["zone"]
	p.Surgery = e.date("surgery")
	p.Arrival = e.clock("arrival")
	p.Joint = plan.Joint(e.choice("joint", joints))
	p.Operation = plan.Operation(e.choice("operation", operations))
	p.Stay = plan.Stay(e.choice("stay", stays))
	p.Drive, p.Parking = e.minutes("drive"), e.minutes("parking")
	p.Facts = e.facts()
	p.Program = e.program(p.Program.Number)
	p = s.withLimits(p, e)
	for _, problem := range plan.Check(&p, s.voice.Today) {
		if !e.has(problem.Field) && !(problem.Ask && s.confirmed(e.values[problem.Field])) {
			e.problems = append(e.problems, problem)
		}
	}
	return p, e.problems
}

// confirmed tells whether the person said "yes, that is right" to this very value.
func (s *session) confirmed(value string) bool {
	for _, f := range s.in.Fields {
		if f.Name == "confirm" && f.Value == value {
			return true
		}
	}
	return false
}

// entry reads typed fields and gathers what is wrong with them.
type entry struct {
	values   map[string]string
	problems []plan.Problem
}

func (e *entry) wrong(field, code string) {
	e.problems = append(e.problems, plan.Problem{Field: field, Code: code})
}

func (e *entry) has(field string) bool {
	return slices.ContainsFunc(e.problems, func(p plan.Problem) bool { return p.Field == field })
}

func (e *entry) date(name string) wall.Date {
	typed := e.values[name]
	if typed == "" {
		return 0 // plan.Check asks for it
	}
	d, err := wall.ParseDate(typed)
	if err != nil {
		e.wrong(name, plan.DateFault(err))
	}
	return d
}

func (e *entry) clock(name string) wall.Clock {
	typed := e.values[name]
	if typed == "" {
		return wall.NoClock
	}
	c, err := wall.ParseClock(typed)
	if err != nil {
		e.wrong(name, plan.ClockUnreal)
	}
	return c
}

func (e *entry) choice(name string, answers []string) int {
	i := slices.Index(answers, e.values[name])
	if i < 0 {
		e.wrong(name, plan.ChoiceUnknown)
		return 0
	}
	return i
}

func (e *entry) minutes(name string) int {
	typed := e.values[name]
	if typed == "" {
		return plan.Unknown
	}
	n, ok := e.number(name, typed)
	if ok && n < 0 {
		e.wrong(name, plan.NumberNegative)
	}
	return n
}

// number reads a whole number. One too large for any field counts as none.
func (e *entry) number(name, typed string) (n int, ok bool) {
	n, err := strconv.Atoi(strings.TrimPrefix(typed, "+"))
	if err != nil || n > 1<<20 || n < -1<<20 {
		e.wrong(name, plan.NumberUnreal)
		return 0, false
	}
	return n, true
}

func (e *entry) facts() plan.Facts {
	var f plan.Facts
	for _, k := range plan.FactKeys {
		if e.values["fact."+k.Key] != "" {
			f |= k.Fact
		}
	}
	// Any tick is an answer; that none applies has to be said, since an untouched form
	// must not take lines away.
	if f&plan.HomeFacts != 0 || e.values["home-none"] != "" {
		f |= plan.HomeAnswered
	}
	return f
}

// program reads the hospital's part. The number of a program that comes with the page is
// not asked for; the fields show what it says, and where they differ they hold.
func (e *entry) program(number uint16) plan.Program {
	p := plan.Program{Number: number, Hospital: e.values["hospital"], Address: e.values["address"], Phone: e.values["phone"]}
	for t, key := range plan.ProgramTextKeys {
		p.Texts[t] = e.values[key]
	}
	for r, info := range plan.Rules {
		name := "rule." + info.Key
		typed := e.values[name]
		if typed == "" {
			continue
		}
		n, ok := 0, true
		if info.Unit == plan.Degrees {
			n, ok = e.degrees(name, typed)
		} else if info.Unit == plan.ClockTime {
			n = int(e.clock(name))
			ok = !e.has(name)
			if n == 0 && info.Min > 0 {
				n = 24 * 60 // "00:00" for a time of the evening is its midnight
			}
		} else {
			n, ok = e.number(name, typed)
		}
		if ok && !p.Set(plan.Rule(r), n) {
			e.problems = append(e.problems, plan.Problem{Field: name, Code: plan.RuleOutside, Low: info.Min, High: info.Max})
		}
	}
	return p
}
