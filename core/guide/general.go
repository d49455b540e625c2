package guide

import (
	"strings"

	"newel/core/plan"
	"newel/core/schedule"
)

// Numbers are the numbers of a plan that the words of its steps and duties may
// name: which of several, and those of the hospital's program.
func Numbers(p *plan.Plan, n, of int) []Arg {
	return []Arg{
		Number("n", n), Number("of", of),
		Number("hours", p.Program.Get(plan.NoShaveHours)),
		Number("stay", p.Program.Get(plan.StayWithHours)),
		Number("days", p.Program.Get(plan.HardestDays)),
	}
}

// General gives the words of a step for nobody's plan in particular, with the
// numbers of common practice.
func (v Voice) General(k *schedule.Kind) Entry {
	variant := ""
	if k.ID == "drink" || k.ID == "liquid-stop" {
		variant = "ask" // without an arrival there is no time, so: what to ask
	}
	washes := plan.Rules[plan.WashDays].Common + plan.Rules[plan.WashMorning].Common
	var nobody plan.Plan // its program is common practice
	e := v.Entry(k.ID, variant, Numbers(&nobody, 0, 0)...)
	if k.ID == "wash" {
		e.Title = v.Count("wash.all", washes)
	}
	return e
}

// Relative says when a step is due as counted from surgery: "7 days before surgery
// at the latest".
func (v Voice) Relative(k *schedule.Kind) string {
	how, what, _ := strings.Cut(k.Due, ":")
	switch {
	case how == "computed":
		return v.computed(k)
	case k.Due == "by:wash":
		return v.Say("due.by-wash")
	case how == "by":
		return v.Count("due.by", common(what))
	case k.Due == "on:-1":
		return v.Say("due.eve")
	case k.Due == "on:0":
		return v.Say("due.day")
	case k.Due == "on:home":
		return v.Say("due.home")
	case strings.HasSuffix(what, "open"):
		return v.Say("due.onward")
	}
	return v.Count("due.daily", plan.Rules[plan.HardestDays].Common)
}

func (v Voice) computed(k *schedule.Kind) string {
	n := 0
	switch k.ID {
	case "wash":
		n = plan.Rules[plan.WashDays].Common
	case "no-shaving":
		n = plan.Rules[plan.NoShaveHours].Common
	case "drink", "liquid-stop":
		n = plan.Rules[plan.LiquidsBefore].Common
	}
	hour, minute := plan.Clock(plan.Rules[plan.FoodStop].Common).HourMinute()
	return v.Say("due."+k.ID, Number("n", n), Arg{"time", v.Clock(hour, minute)})
}

// common is the common practice of a rule named in steps.txt.
func common(key string) int {
	r, ok := plan.RuleByKey(key)
	if !ok {
		panic("steps.txt: no rule is called " + key)
	}
	return plan.Rules[r].Common
}
