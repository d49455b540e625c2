package guide

import (
	"strconv"
	"strings"

	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/schedule"
	"newel/core/wall"
)

// Problem is the one sentence about a problem of a form: which field, what is
// wrong, what to do. typed is what stands in the field.
func (v Voice) Problem(p plan.Problem, label, typed string) string {
	args := []Arg{
		{"field", strings.Trim(label, "¿?")}, {"typed", typed},
		{"example", (v.Today + 14).String()},
		{"low", v.bound(p.Field, p.Low)}, {"high", v.bound(p.Field, p.High)},
	}
	if day, err := wall.ParseDate(typed); err == nil {
		args = append(args, Arg{"day", v.Day(day)})
	}
	if c, err := wall.ParseClock(typed); err == nil {
		hour, minute := c.HourMinute()
		args = append(args, Arg{"time", v.Clock(hour, minute)})
	}
	code := p.Code
	if fault, ok := strings.CutPrefix(code, plan.RuleFault); ok {
		return v.RuleFault(repeat.Fault{Code: fault}, typed)
	}
	if typed == "?" { // the browser could not read what stands there, so nobody can repeat it
		if said := strings.Replace(code, "unreal", "unreadable", 1); v.Has("problem." + said) {
			code = said
		}
	}
	return v.Say("problem."+code, args...)
}

// bound writes the end of a range in the unit of the field.
func (v Voice) bound(field string, n int) string {
	if key, ok := strings.CutPrefix(field, "rule."); ok {
		if r, ok := plan.RuleByKey(key); ok {
			return v.Amount(plan.Rules[r].Unit, n)
		}
	}
	return strconv.Itoa(n)
}

// Amount writes a rule's number with its unit: 4 days, 11:00 PM, yes.
func (v Voice) Amount(u plan.Unit, n int) string {
	switch u {
	case plan.Days:
		return v.Count("unit.days", n)
	case plan.Hours:
		return v.Count("unit.hours", n)
	case plan.Minutes:
		return v.Count("unit.minutes", n)
	case plan.Percent:
		return v.Say("unit.percent", Number("n", n))
	case plan.ClockTime:
		if n == 24*60 {
			return wall.Clock(n).String() // 24:00, which no twelve-hour clock can say
		}
		hour, minute := wall.Clock(n).HourMinute()
		return v.Clock(hour, minute)
	case plan.Degrees:
		return v.Degrees(n)
	}
	if n == 1 {
		return v.Say("yes")
	}
	return v.Say("no")
}

// Degrees writes tenths of a degree on the scale on which they are meant: 101 °F.
func (v Voice) Degrees(tenths int) string {
	if celsius, ok := plan.Celsius(tenths); ok && celsius {
		return v.Say("unit.celsius", Arg{"n", v.tenths(tenths)})
	}
	return v.Say("unit.fahrenheit", Arg{"n", v.tenths(tenths)})
}

// Concern is the navigator's sentence about a rule that is laxer than guidance.
func (v Voice) Concern(c schedule.Concern) string {
	if c.Own.IsZero() {
		return v.Say("concern.liquids-before.any")
	}
	guide := v.DayTime(c.Guide)
	if wall.DateOf(c.Own) == wall.DateOf(c.Guide) {
		guide = v.Time(c.Guide)
	}
	return v.Say("concern."+plan.Rules[c.Rule].Key, Arg{"own", v.DayTime(c.Own)}, Arg{"guide", guide})
}
