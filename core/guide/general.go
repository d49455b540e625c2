package guide

import (
	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/wall"
	"newel/core/zone"
)

// Fills gives what the words of a plan's steps and duties may name: which of
// several, the patient, and the numbers of the hospital's program.
func (v Voice) Fills(p *plan.Plan, n, of int) []Arg {
	return []Arg{
		Number("n", n), Number("of", of), {"name", v.Patient(p)},
		Number("hours", p.Program.Get(plan.NoShaveHours)),
		Number("stay", p.Program.Get(plan.StayWithHours)),
		Number("presence", max(p.Program.Get(plan.StayWithHours), p.Program.Get(plan.PresenceHours))),
		Number("days", p.Program.Get(plan.HardestDays)),
	}
}

// Patient is what to call the patient in a sentence.
func (v Voice) Patient(p *plan.Plan) string {
	if p.Patient == "" {
		return v.Say("patient.default")
	}
	return p.Patient
}

// lightMeal is how many minutes before the arrival a light meal has to end: ASA 2017 and
// 2023, 6 hours.
const lightMeal = 6 * 60

// Nobody is a plan that is nobody's in particular: it says what the hospital says for which the
// page was made, or else common practice.
func Nobody() *plan.Plan {
	home := plan.BaseOf(plan.Home)
	return &plan.Plan{Program: home.Program, Lines: home.Lines, Facts: home.Given}
}

// General gives the words of a step for nobody's plan in particular, with the numbers of the
// page's own hospital, or else of common practice. What is counted back from the arrival is said as a rule (Relative), never
// as a time; where an early arrival would bring a time forward, that is said.
func (v Voice) General(k *schedule.Kind) Entry {
	variant := map[string]string{"supper": "open", "food-stop": "open"}[k.ID]
	p := Nobody()
	early := p.Program.Get(plan.FoodStop) + lightMeal - 24*60
	e := v.Entry(k.ID, variant, append(v.Fills(p, 0, 0), Arg{"early", v.Clock(early/60, early%60)})...)
	if k.ID == "wash" {
		e.Title = v.Count("wash.all", p.Program.Get(plan.WashDays)+p.Program.Get(plan.WashMorning))
	}
	return e
}

// GeneralDuty gives the words of a duty for nobody's plan in particular.
func (v Voice) GeneralDuty(id string) Entry {
	p := Nobody()
	leave := v.clockRule(&p.Program, plan.DischargeLeave)
	return v.Entry(id, "", append(v.Fills(p, 0, 0), Arg{"leave", leave})...)
}

// Durations says in one sentence how long the parts of the day in the hospital
// usually take, for when no time of day can be given.
func (v Voice) Durations(p *plan.Plan) string {
	least, most := plan.SurgeryRange(p.Operation)
	return v.Say("stage.unknown",
		Arg{"prep", v.minutes(p.Program.Get(plan.PrepMinutes))},
		Arg{"surgery", v.range1(p.Program.Get(least), p.Program.Get(most))},
		Arg{"recovery", v.range1(p.Program.Get(plan.RecoveryMin), p.Program.Get(plan.RecoveryMax))})
}

func (v Voice) range1(least, most int) string {
	if least == most {
		return v.minutes(least)
	}
	return v.Say("stage.range", Arg{"least", v.minutes(least)}, Arg{"most", v.minutes(most)})
}

// minutes writes whole hours as hours.
func (v Voice) minutes(n int) string {
	if n > 0 && n%60 == 0 {
		return v.Count("unit.hours", n/60)
	}
	return v.Count("unit.minutes", n)
}

func (v Voice) clockRule(p *plan.Program, r plan.Rule) string {
	hour, minute := wall.Clock(p.Get(r)).HourMinute()
	return v.Clock(hour, minute)
}

// Until says how long a step is kept up that has no last day.
func (v Voice) Until(id string) string {
	if v.Has("until." + id) {
		return v.Say("until." + id)
	}
	return v.Say("days.onward")
}

// Relative says when a step is due as counted from surgery: "7 days before surgery
// at the latest".
func (v Voice) Relative(k *schedule.Kind) string {
	switch t := k.Due; t.How {
	case schedule.Computed:
		return v.computed(k)
	case schedule.ByWash:
		return v.Say("due.by-wash")
	case schedule.By:
		return v.Count("due.by", Nobody().Program.Get(t.Rule))
	case schedule.OnHome:
		return v.Say("due.home")
	case schedule.On:
		return v.dayFromSurgery(t.From)
	default:
		return v.kept(k)
	}
}

// dayFromSurgery names a day by its distance from surgery.
func (v Voice) dayFromSurgery(n int) string {
	switch {
	case n == -1:
		return v.Say("due.eve")
	case n == 0:
		return v.Say("due.day")
	case n < 0:
		return v.Count("days.before", -n)
	}
	return v.Count("days.after", n)
}

// kept says how long a step is kept up.
func (v Voice) kept(k *schedule.Kind) string {
	t := k.Due
	last := t.To
	if t.ByRule {
		last = Nobody().Program.Get(t.Rule)
	}
	switch {
	case t.Open:
		return v.Until(k.ID)
	case last == 0:
		return v.Say("due.before")
	}
	return v.Say("span.days", Arg{"from", v.dayFromSurgery(t.From)}, Arg{"to", v.dayFromSurgery(last)})
}

func (v Voice) computed(k *schedule.Kind) string {
	n, program := 0, &Nobody().Program
	switch k.ID {
	case "wash":
		n = program.Get(plan.WashDays)
	case "no-shaving":
		n = program.Get(plan.NoShaveHours)
	case "drink", "liquid-stop":
		n = program.Get(plan.LiquidsBefore) / 60
	}
	return v.Say("due."+k.ID, Number("n", n), Arg{"time", v.clockRule(program, plan.FoodStop)})
}

// DutyTitle is what one of the family's duties is called: in the family's own words
// or in those of its kind.
func (v Voice) DutyTitle(d *plan.Duty) string {
	if d.Title != "" {
		return d.Title
	}
	return v.Entry(plan.DutyKeys[d.Kind], "").Title
}

// Duty gives the words of a duty of a plan's schedule.
func (v Voice) Duty(p *plan.Plan, d *schedule.Duty) Entry {
	e := v.Entry(d.ID, "", append(v.Fills(p, 0, 0), Arg{"leave", v.Time(d.Ends.To)})...)
	switch {
	case d.Family != nil && d.Family.Title != "":
		e.Title = d.Family.Title
	case d.IsSlot():
		e.Title = v.Say("stay."+partKeys[d.Slot.Part()], v.Fills(p, 0, 0)...)
	}
	return e
}

// partKeys name the parts of a day in keys of words.
var partKeys = [...]string{plan.Morning: "morning", plan.Afternoon: "afternoon", plan.Night: "night"}

// Slot names a part of staying with the patient by its day: "Wed, Mar 10, overnight".
func (v Voice) Slot(p *plan.Plan, s plan.Slot) string {
	return v.Say("slot."+partKeys[s.Part()], Arg{"day", v.ShortDay(p.Surgery + wall.Date(s.Day()))})
}

// LongDrive is a caution for sitting long after a joint replacement, or "". Source: CDC,
// Blood Clots and Travel (more than four hours); the hour is common practice, no
// published source.
func (v Voice) LongDrive(p *plan.Plan, d *schedule.Duty) string {
	drive := d.Trip.Drive
	if d.Family == nil {
		drive = p.Drive
	}
	switch {
	case d.Kind != schedule.Drive, d.Family == nil && !d.Homeward, drive <= 60:
		return ""
	case drive > 4*60:
		return v.Say("very-long-drive")
	}
	return v.Say("long-drive")
}

// DutyNotes is what to know about a date of one of the family's duties: an odd time on the
// night of a clock change, and an appointment that is too short to go home. RFC 5545
// 3.3.10 would leave a date out whose time the clocks skip; 3.3.5, which holds here, reads
// it as an hour later.
func (v Voice) DutyNotes(d *schedule.Duty) []string {
	var notes []string
	wanted, at := Arg{"wanted", v.Clock(d.On.At.HourMinute())}, Arg{"time", v.Time(d.Session.From)}
	switch d.Fit {
	case zone.Skipped:
		notes = append(notes, v.Say("duty.skipped", wanted, at))
	case zone.Repeated:
		notes = append(notes, v.Say("duty.repeated", at))
	}
	if d.Kind == schedule.Drive && d.Family.Ride.Leaves && d.Needs == schedule.Nothing && !d.Gap.Known() {
		notes = append(notes, v.Say("duty.no-gap"))
	}
	return notes
}
