package app

import (
	"errors"
	"strconv"
	"time"

	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/wall"
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
