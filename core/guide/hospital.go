package guide

import "newel/core/plan"

// PhoneText says whom to call with questions, in one line: "555-0142, weekdays 8 to 4:30; at
// other times 555-0143, nurse on call". It is empty where the hospital has given no number.
func (v Voice) PhoneText(p *plan.Program) string {
	first := v.withHours(p.Phone, p.Texts[plan.PhoneHours])
	if p.Phone == "" {
		first = ""
	}
	second := v.withHours(p.Texts[plan.AfterPhone], p.Texts[plan.AfterHours])
	switch {
	case first == "":
		return second
	case second == "":
		return first
	}
	return v.Say("phone.other", Arg{"first", first}, Arg{"second", second})
}

func (v Voice) withHours(number, hours string) string {
	if number == "" || hours == "" {
		return number + hours
	}
	return v.Say("phone.hours", Arg{"number", number}, Arg{"hours", hours})
}

// There says what to know on arriving on the day of surgery, a line each: where to park and to
// check in, and that a parking permit was given. Of what the hospital has not said it says nothing.
func (v Voice) There(p *plan.Plan) []string {
	var lines []string
	if where := p.Program.Texts[plan.ParkAt]; where != "" {
		lines = append(lines, v.Say("there.park", Arg{"where", where}))
	}
	if p.Facts.Has(plan.ParkingPass) {
		lines = append(lines, v.Say("there.permit"))
	}
	if where := p.Program.Texts[plan.CheckIn]; where != "" {
		lines = append(lines, v.Say("there.check-in", Arg{"where", where}))
	}
	return lines
}
