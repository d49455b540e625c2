package guide

import (
	"strconv"

	"newel/core/plan"
)

// Signs is when to call, and what to say.
type Signs struct {
	Number                 string // to dial for an ambulance
	Emergency, Office, Say Entry
	Clots                  Entry // the signs of a clot alone, which stay in view for plan.ClotDays
}

// Signs gives the signs with the hospital's own numbers filled in, and what else it asks to be
// called about at their ends. Where it has given no number, they say whom to ask. p is nil on
// the page without a plan.
func (v Voice) Signs(p *plan.Plan) Signs {
	if p == nil {
		p = Nobody()
	}
	args := append(v.Fills(p, 0, 0),
		Arg{"number", p.Program.Emergency()}, Arg{"fever", v.fever(&p.Program)}, Arg{"bowels", v.bowels(&p.Program)},
		Arg{"operation", v.Operation(p)}, Arg{"day", v.surgeryDay(p)})
	say := ""
	if p.Surgery == 0 {
		say = "general"
	}
	signs := Signs{
		Number: p.Program.Emergency(), Emergency: v.Entry("signs-emergency", "", args...), Office: v.Entry("signs-office", "", args...),
		Say: v.Entry("signs-say", say, args...), Clots: v.Entry("signs-clots", "", args...),
	}
	signs.Emergency.How = append(signs.Emergency.How, v.told(p, plan.CallNow)...)
	signs.Office.How = append(signs.Office.How, v.told(p, plan.CallOffice)...)
	return signs
}

// told gives the hospital's own signs of a list.
func (v Voice) told(p *plan.Plan, list plan.List) []Line {
	var lines []Line
	for _, l := range plan.LinesOf(p, list) {
		lines = append(lines, Line{Text: l.In(v.Language), Point: true, Typed: true})
	}
	return lines
}

func (v Voice) surgeryDay(p *plan.Plan) string {
	if p.Surgery == 0 {
		return ""
	}
	return v.Day(p.Surgery)
}

// Operation is what is or was done: "knee replacement".
func (v Voice) Operation(p *plan.Plan) string {
	return v.Say([...]string{"title.", "title.revision.", "title.both."}[p.Operation] + [...]string{"knee", "hip"}[p.Joint])
}

// fever says from which temperature on to call, on both scales; the converted one is
// rounded down, so that it is never the later one.
func (v Voice) fever(p *plan.Program) string {
	n := p.Get(plan.Fever)
	celsius, ok := plan.Celsius(n)
	if !p.Own(plan.Fever) || !ok {
		return v.Say("signs.fever.ask")
	}
	other := (n - 320) * 5 / 9
	keys := [...]string{"unit.fahrenheit", "unit.celsius"}
	if celsius {
		other = n*9/5 + 320
		keys = [...]string{"unit.celsius", "unit.fahrenheit"}
	}
	return v.Say("signs.fever", Arg{"degrees", v.Say(keys[0], Arg{"n", v.tenths(n)})}, Arg{"other", v.Say(keys[1], Arg{"n", v.tenths(other)})})
}

// tenths writes a number of tenths: 100.4, or 101 where there are none.
func (v Voice) tenths(n int) string {
	if n%10 == 0 {
		return strconv.Itoa(n / 10)
	}
	return v.Say("number.decimal", Number("whole", n/10), Number("tenth", n%10))
}

func (v Voice) bowels(p *plan.Program) string {
	if !p.Own(plan.BowelDays) {
		return v.Say("signs.bowels.ask")
	}
	return v.Count("signs.bowels", p.Get(plan.BowelDays))
}
