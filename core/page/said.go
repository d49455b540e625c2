package page

import (
	"strconv"
	"strings"

	"newel/core/guide"
	"newel/core/merge"
	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/wall"
)

// teller says in words what a register of a plan is called and what it holds.
type teller struct {
	People
	v guide.Voice
	p *plan.Plan // as it is shown
}

func newTeller(people People, p *plan.Plan) teller { return teller{people, people.Voice, p} }

// labels are the words for what a register holds: mostly the label of its field in the
// form.
var labels = map[merge.Field]string{
	merge.Surgery: "form.date", merge.Arrival: "form.arrival", merge.Zone: "form.zone", merge.Joint: "form.joint",
	merge.Operation: "form.operation", merge.Stay: "form.stay", merge.Drive: "form.drive", merge.Parking: "form.parking",
	merge.Patient: "form.patient", merge.Program: "thing.program", merge.Hospital: "form.hospital.name",
	merge.Address: "form.hospital.address", merge.Phone: "form.hospital.phone",
	merge.Kind: "thing.kind", merge.Title: "duty-form.title", merge.Place: "duty-form.place", merge.Note: "duty-form.note",
	merge.Source: "thing.source", merge.Length: "duty-form.length", merge.Own: "duty-form.own", merge.Way: "duty-form.drive",
	merge.Walk: "duty-form.parking", merge.Early: "duty-form.early", merge.Pattern: "duty-form.repeats",
	merge.Need: "duty-form.needed", merge.Steady: "duty-form.steady",
}

// label names a register: "Feed the cat, what to bring or to know".
func (t teller) label(k merge.Key) string {
	d := t.p.Duty(k.Of)
	switch {
	case k.Field == merge.Cover:
		return t.v.Entry(plan.BuiltIn[k.Sub], "", t.v.Fills(t.p, 0, 0)...).Title
	case k.Field == merge.Shift:
		title := t.v.Entry(plan.BuiltIn[plan.StayWith], "", t.v.Fills(t.p, 0, 0)...).Title
		return t.v.Say("thing.of", arg("what", title), arg("part", t.v.Slot(t.p, plan.Slot(k.Sub))))
	case k.Field == merge.About:
		return t.v.Say("thing.about", arg("who", k.Name))
	case k.Field == merge.Out:
		return t.v.Say("thing.out", arg("who", k.Name))
	case k.Field == merge.Fact:
		return t.fact(plan.Facts(1) << k.Sub)
	case k.Field == merge.Setting:
		return t.v.Say("rule." + plan.Rules[k.Sub].Key)
	case k.Field == merge.HospitalText:
		return t.v.Say("form." + plan.ProgramTextKeys[k.Sub])
	case k.Field == merge.Line:
		return t.v.Say("line.own")
	case d == nil:
		return t.v.Say(labels[k.Field])
	}
	switch k.Field {
	case merge.Who, merge.Gone:
		return t.duty(d)
	case merge.On:
		return t.v.Say("thing.of", arg("what", t.duty(d)), arg("part", t.v.Say("repeat.weekday."+number(int(k.Sub)))))
	case merge.Takes, merge.Date:
		return t.v.Say("thing.of", arg("what", t.duty(d)), arg("part", t.v.ShortDay(wall.Date(k.Sub))))
	}
	return t.v.Say("thing.of", arg("what", t.duty(d)), arg("part", t.v.Say(labels[k.Field])))
}

// duty names one of the family's duties. Where two have one title, the rule tells them
// apart.
func (t teller) duty(d *plan.Duty) string {
	title := t.v.DutyTitle(d)
	for i := range t.p.Duties {
		if e := &t.p.Duties[i]; e.ID != d.ID && !e.Dropped && t.v.DutyTitle(e) == title {
			return t.v.Say("changed.which", arg("what", title), arg("rule", t.v.RuleShort(d.Rule)))
		}
	}
	return title
}

func (t teller) fact(f plan.Facts) string {
	for _, k := range plan.FactKeys {
		if k.Fact == f {
			return t.v.Say("fact." + k.Key)
		}
	}
	return t.v.Say("form.group.home")
}

// value says what a version of a register holds.
func (t teller) value(k merge.Key, value string) string {
	switch k.Field {
	case merge.Cover, merge.Who, merge.On, merge.Takes, merge.Shift:
		if value == "" || value == "-" {
			return t.v.Say("people.nobody")
		}
		return value
	case merge.Pattern:
		return t.pattern(k, value)
	case merge.Date:
		return t.date(k, value)
	case merge.About:
		return t.about(value)
	case merge.Line:
		if l, ok := merge.ReadLine(value); ok && l.List < plan.ListEnd {
			return t.lineWords(l)
		}
		return value
	case merge.HospitalText:
		return t.hospitalText(value)
	}
	if n, err := strconv.Atoi(value); err == nil && !isText(k.Field) {
		return t.number(k, n)
	}
	return t.text(value)
}

func isText(f merge.Field) bool {
	switch f {
	case merge.Zone, merge.Patient, merge.Hospital, merge.Address, merge.Phone, merge.Title, merge.Place, merge.Note:
		return true
	}
	return false
}

// hospitalText says one of a hospital's other texts: a day as a day.
func (t teller) hospitalText(value string) string {
	if day, err := wall.ParseDate(value); err == nil {
		return t.v.Day(day)
	}
	return t.text(value)
}

func (t teller) text(value string) string {
	if value == "" {
		return t.v.Say("thing.nothing")
	}
	return value
}

func (t teller) number(k merge.Key, n int) string {
	switch k.Field {
	case merge.Surgery:
		return t.v.Day(wall.Date(n))
	case merge.Arrival:
		return t.clock(wall.Clock(n))
	case merge.Joint:
		return t.v.Say("form.joint." + []string{"knee", "hip"}[n])
	case merge.Operation:
		return t.v.Say("form.operation." + []string{"first", "revision", "both"}[n])
	case merge.Stay:
		return t.v.Say("form.stay." + []string{"one-night", "same-day", "undecided"}[n])
	case merge.Program:
		return t.program(uint16(n))
	case merge.Setting:
		if info := plan.Rules[k.Sub]; n < info.Min { // there is no common practice
			return t.v.Say("thing.nothing")
		}
		return t.v.Amount(plan.Rules[k.Sub].Unit, n)
	case merge.Kind:
		return t.v.Entry(plan.DutyKeys[n], "").Title
	case merge.Need:
		return t.need(k.Of, plan.Need(n))
	case merge.Source:
		return t.text(strings.TrimPrefix(number(n), "0"))
	}
	if n == plan.Unknown {
		return t.v.Say("thing.unknown")
	}
	return t.v.Minutes(n)
}

func (t teller) clock(c wall.Clock) string {
	if !c.Known() {
		return t.v.Say("thing.unknown")
	}
	hour, minute := c.HourMinute()
	return t.v.Clock(hour, minute)
}

// program names a program by its hospital, as far as this page knows it.
func (t teller) program(n uint16) string {
	if known, ok := plan.Programs[n]; ok {
		return known.Program.Hospital
	}
	if n == 0 {
		return t.v.Say("thing.nothing")
	}
	return number(int(n))
}

func (t teller) pattern(k merge.Key, value string) string {
	rule, ok := merge.ReadRule(value)
	d := t.p.Duty(k.Of)
	if !ok || d == nil {
		return value
	}
	return t.v.Rule(rule, guide.Things(d.Kind))
}

// date says what was done to a single date: left out, or moved to a day and a time.
func (t teller) date(k merge.Key, value string) string {
	day, minutes, moved := strings.Cut(value, " ")
	n, err := strconv.Atoi(day)
	at, err2 := strconv.Atoi(minutes)
	if !moved || err != nil || err2 != nil {
		return t.v.Say("thing.left-out")
	}
	return t.moment(repeat.Moment{Day: wall.Date(n), At: wall.Clock(at)})
}

func (t teller) moment(m repeat.Moment) string {
	hour, minute := m.At.HourMinute()
	return t.v.Say("day.at", arg("day", t.v.ShortDay(m.Day)), arg("time", t.v.Clock(hour, minute)))
}
