package page

import (
	"strings"
	"time"

	"newel/core/guide"
	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/wall"
)

// dutyRow shows a duty: the time that starts it large, the others beside it.
func (m *maker) dutyRow(d *schedule.Duty) Row {
	e := m.v.Duty(m.p, d)
	r := Row{
		ID: dutyID(d), Kind: "duty", Title: e.Title, How: e.How, Why: e.Why, Sides: sides(m.v, e, m.v.Patient(m.p)),
		Branch: m.branch(d.Branch), order: 1, at: d.There.From, until: d.Free, family: d.Family != nil,
	}
	m.dutyLinks(&r, d)
	as := m.fromThere(d)
	m.lead(&r, as)
	if as != d && d.Family != nil && r.label == "duty.leave" {
		r.label, r.Label = "duty.leave.with", m.v.Say("duty.leave.with", arg("name", m.v.Patient(m.p)))
	}
	r.Facts = m.dutyFacts(as)
	if !d.Trip.Leave.IsZero() {
		r.Sum = m.sum(as)
	}
	if d.IsSlot() {
		r.series = r.Title // the morning, the afternoon, the night
	}
	if d.IsSlot() && !m.firstSlot(d) {
		r.How, r.Sides, r.Why = nil, nil, "" // they stand once
	}
	r.Note = m.v.LongDrive(m.p, d)
	if d.Family != nil {
		r.series = number(int(d.Family.ID))
		r.Note = m.familyNotes(d, r.Note)
		r.until = d.Ends.To
		if d.Free.After(r.until) {
			r.until = d.Free
		}
	}
	r.Note, r.cannot = strings.TrimSpace(m.needs(d, r.Note)+" "+m.standing(d)), m.cannot(d)
	if r.at.IsZero() {
		r.order, r.place = 0, dutyPlace(d)
		if d.Kind == schedule.Stay {
			r.order = 2 // after everything with a time
		}
	}
	if d.Open {
		r.until = m.openUntil(d)
	}
	last := d.Day
	if !r.until.IsZero() {
		last = max(last, wall.DateOf(r.until))
	}
	m.setState(&r, d.Day, last)
	return r
}

// The places in a day that has no times yet: at home, on the way, at the hospital,
// going home, at home again.
const (
	placeHome = iota
	placeWay
	placeHospital
	placeHomeward
	placeStay
)

func dutyPlace(d *schedule.Duty) int {
	switch {
	case d.Kind == schedule.Stay, d.Kind == schedule.Help:
		return placeStay
	case d.Homeward:
		return placeHomeward
	case d.Kind == schedule.Wait:
		return placeHospital
	}
	return placeWay
}

// openUntil is how long a duty counts that nobody can end beforehand: a drive home
// to the end of its day, a stay to the earliest end that is possible.
func (m *maker) openUntil(d *schedule.Duty) time.Time {
	if d.Kind != schedule.Drive {
		return d.Ends.To
	}
	end, _ := d.Day.At(m.s.Loc, 24*60)
	return end
}

// branch names the stay that a duty depends on, while that is not decided.
func (m *maker) branch(b schedule.Branch) string {
	switch {
	case m.p.Stay != plan.Undecided || b == schedule.Always:
		return ""
	case b == schedule.IfSameDay:
		return m.v.Say("branch.same-day")
	}
	return m.v.Say("branch.one-night")
}

// lead picks the time that stands large. For a drive it is when to leave home; for
// the drive home on the same day it is when to be ready, since the helper is
// usually waiting there already.
func (m *maker) lead(r *Row, d *schedule.Duty) {
	show := func(label string, t time.Time) {
		r.label, r.Label, r.Time, r.ISO, r.Yours, r.at = label, m.v.Say(label), m.v.Time(t), t.Format(time.RFC3339), m.theirs(t), t
	}
	switch {
	case d.There.From.IsZero():
	case d.Family != nil && m.Now.After(d.There.From): // under way: what counts now is how long
		if d.Free.After(d.Ends.To) {
			show("duty.free", d.Free)
		} else {
			show("duty.until", d.Ends.To)
		}
		r.Time, r.at = m.timeOn(m.today, r.at), d.There.From
	case d.Kind == schedule.Drive && d.Open:
		show("duty.ready", d.There.From)
	case d.Kind == schedule.Wait:
		show("label.from", d.There.From)
	case d.Kind == schedule.Help && d.Leave.IsZero():
		show("label.at", d.There.From)
	case d.Kind == schedule.Stay:
		show("duty.starts", d.There.From)
		r.Time = m.v.Span(d.There.From, d.There.To)
	case !d.Leave.IsZero():
		show("duty.leave", d.Leave)
	default:
		show("duty.there", d.There.From)
	}
}

func (m *maker) dutyFacts(d *schedule.Duty) []Fact {
	facts := m.ownLeave(d)
	time1 := func(label string, t time.Time) {
		if !t.IsZero() {
			facts = append(facts, m.fact(label, m.timeOn(d.Day, t), t))
		}
	}
	span := func(label string, s schedule.Span) {
		if s.Known() {
			facts = append(facts, Fact{Label: m.v.Say(label), Value: m.v.Span(s.From, s.To), Yours: m.theirSpan(s)})
		}
	}
	switch {
	case d.Family != nil:
		facts = m.familyFacts(d)
	case d.Kind == schedule.Wait:
		span("duty.ends", d.Ends)
	case d.Kind == schedule.Stay:
		label := "duty.lasts"
		if d.Open {
			label = "duty.lasts.open"
		}
		time1(label, d.Ends.To)
	case d.Open:
		facts = append(facts, Fact{Label: m.v.Say("duty.leaving"), Value: m.v.Say("duty.leaving.open")})
		time1("duty.home.open", d.Home.From)
		if m.Now.Before(d.Leave) {
			time1("duty.leave.home", d.Leave)
		}
	default:
		if !d.Leave.IsZero() {
			time1("duty.there", d.There.From)
		}
		if d.Homeward {
			time1("duty.leaving.most", d.Ends.To)
			time1("duty.home", d.Home.From)
			time1("duty.free", d.Free)
		}
	}
	if where := m.where(d); where != "" {
		facts = append(facts, Fact{Label: m.v.Say("duty.where"), Value: where, key: "duty.where"})
	}
	if d.Family == nil && d.ID == "drive-there" {
		facts = append(facts, m.there()...)
	}
	return facts
}

// there is what to know on arriving on the day of surgery, as far as the hospital has said it.
func (m *maker) there() []Fact {
	var facts []Fact
	if where := m.p.Program.Texts[plan.ParkAt]; where != "" {
		facts = append(facts, Fact{Label: m.v.Say("duty.park"), Value: where})
	}
	if m.p.Facts.Has(plan.ParkingPass) {
		facts = append(facts, Fact{Label: m.v.Say("duty.permit"), Value: m.v.Say("duty.permit.there")})
	}
	if where := m.p.Program.Texts[plan.CheckIn]; where != "" {
		facts = append(facts, Fact{Label: m.v.Say("duty.check-in"), Value: where})
	}
	return facts
}

// where names the place of a duty away from home. The head of the page has the
// address too.
func (m *maker) where(d *schedule.Duty) string {
	program := &m.p.Program
	switch {
	case d.Family != nil:
		return d.Family.Place
	case d.Place == schedule.Home:
		return ""
	case program.Hospital == "":
		return program.Address
	}
	return program.Hospital
}

// timeOn writes a time, with its day where that is not the one it stands under.
func (m *maker) timeOn(day wall.Date, t time.Time) string {
	if wall.DateOf(t) == day {
		return m.v.Time(t)
	}
	return m.v.ShortDayTime(t)
}

// sum shows how a leave-by time was worked out, line by line.
func (m *maker) sum(d *schedule.Duty) []Fact {
	t := d.Trip
	minus := func(n int) string { return m.v.Say("sum.minutes", guide.Number("n", n)) }
	percent := guide.Number("percent", m.p.Program.Get(plan.DriveSlack))
	if d.Family != nil {
		return m.rideSum(d, minus, percent)
	}
	return []Fact{
		m.fact("sum.there", m.timeOn(d.Day, t.Arrive), t.Arrive),
		{Label: m.v.Say("sum.parking"), Value: minus(t.Parking)},
		{Label: m.v.Say("sum.drive"), Value: minus(t.Drive)},
		{Label: m.v.Say("sum.slack", percent), Value: minus(t.Slack)},
		{Label: m.v.Say("sum.car"), Value: minus(t.Car)},
		m.fact("sum.leave", m.timeOn(d.Day, t.Leave), t.Leave),
	}
}
