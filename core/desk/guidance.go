package desk

import (
	"newel/core/guide"
	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/wall"
)

// Laxity is a hospital's own rule that is laxer than published guidance, or that says less.
// The hospital's rule holds; the navigator is told, beside the field.
type Laxity struct {
	Rule   plan.Rule
	Own    string // what the rule comes to: an amount or a time, see laxText
	Guide  string // what is published, in the same form
	Code   string // settings.lax.CODE is the sentence
	Source string // a key of core/guide/sources.txt
}

// earliestArrival is the earliest arrival for which a rule by the clock is held against a
// guideline that counts back from the procedure. Common practice, no published source: few
// hospitals ask anybody to come before five.
const earliestArrival wall.Clock = 5 * 60

// The published amounts, and where they are from.
const (
	// WHO 2016/2018, recommendation 8: shaving is strongly discouraged at all times. Two days are
	// common practice, no published source.
	guideNoShave = 48
	// 42 CFR 416.52(c)(3): discharged with a responsible adult; ASA, Anesthesia & You, as quoted:
	// 24 hours without driving or deciding.
	guideStayWith = 24
	// ACCP 2012, from memory: at least 10 to 14 days of prevention, up to 35.
	guideClotLeast, guideClotMost = 14, 35
)

// Lax lists the rules that are laxer than what is published. Only the hospital's own rules are
// asked: common practice is held to the guideline by the schedule itself. What is not in the
// list has no published number, or cannot be laxer within its range (plan.Rules): washing is
// at least on the evening before, as CDC 2017 asks.
func Lax(s *Settings, v guide.Voice) []Laxity {
	all := laxFasting(s, v)
	p := &s.Program
	add := func(r plan.Rule, least int, code, source string) {
		if n := p.Get(r); p.Own(r) && n < least {
			unit := plan.Rules[r].Unit
			all = append(all, Laxity{r, v.Amount(unit, n), v.Amount(unit, least), code, source})
		}
	}
	add(plan.NoShaveHours, guideNoShave, "no-shave-hours", "who-ssi")
	add(plan.StayWithHours, guideStayWith, "stay-with-hours", "asa-after")
	if p.Get(plan.ClotDays) < guideClotLeast {
		add(plan.ClotDays, guideClotLeast, "clot-days.least", "vte")
	} else {
		add(plan.ClotDays, guideClotMost, "clot-days", "vte")
	}
	return all
}

// laxFasting asks the schedule, which knows the limits: a plan with the earliest arrival, in a
// zone without clock changes. It counts from arrival; where the time it takes to get ready
// brings the rule within the guideline, that is said.
func laxFasting(s *Settings, v guide.Voice) []Laxity {
	p := blankOf(*s)
	p.Surgery, p.Arrival, p.Zone, p.Facts = v.Today+1, earliestArrival, "UTC", 0
	sched, err := schedule.Build(p)
	if err != nil {
		return nil // the settings have a fault, which is told
	}
	ready := s.Program.Get(plan.PrepMinutes)
	var all []Laxity
	for _, c := range sched.Fasting.Concerns {
		short := int(c.Own.Sub(c.Guide).Minutes()) // by which the rule misses the guideline, counted from arrival
		l := Laxity{Rule: c.Rule, Code: plan.Rules[c.Rule].Key, Source: "asa-fasting"}
		own := int(sched.Arrival.Sub(c.Own).Minutes())
		if c.Own.Minute() == 59 { // midnight, which the schedule shows as the minute before
			own, short = own-1, short+1
		}
		l.Own, l.Guide = v.Minutes(own), v.Minutes(own+short)
		if short <= ready {
			l.Code += ".ready"
		}
		all = append(all, l)
	}
	return all
}

// LaxText is the sentence of a laxity, with the works that it is from. Those of which nobody
// here has read a copy are marked so.
func LaxText(v guide.Voice, l Laxity) string {
	hour, minute := earliestArrival.HourMinute()
	text := v.Say("settings.lax."+l.Code, guide.Arg{Name: "own", Value: l.Own}, guide.Arg{Name: "guide", Value: l.Guide},
		guide.Arg{Name: "arrival", Value: v.Clock(hour, minute)})
	text += " " + v.Say("settings.lax.holds")
	for _, source := range guide.Sources() {
		if source.Key != l.Source {
			continue
		}
		for _, c := range source.Citations {
			key := "settings.lax.source"
			if c.Memory {
				key = "settings.lax.source.memory"
			}
			text += " " + v.Say(key, guide.Arg{Name: "source", Value: c.Text})
		}
	}
	return text
}

// CommonText says what is common practice for a rule, where it has a number.
func CommonText(v guide.Voice, r plan.Rule) string {
	info := plan.Rules[r]
	if info.Common < info.Min {
		return v.Say("settings.common.nobody")
	}
	key := "settings.common"
	if info.Unit == plan.ClockTime && info.Max == 24*60 && info.Min > 0 {
		key = "settings.common.midnight"
	}
	return v.Say(key, guide.Arg{Name: "value", Value: v.Amount(info.Unit, info.Common)})
}
