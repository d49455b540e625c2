package page

import (
	"slices"
	"strings"
	"time"

	"newel/core/guide"
	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/schedule"
	"newel/core/wall"
)

// FamilyDuty is one of the family's duties in the list of them.
type FamilyDuty struct {
	Path  string // of its own page
	Title string
	Who   string // whose its dates to come are; empty: nobody's yet
	Rule  string // when it is, in few words
	Next  string // its next date; empty: there is none
	Over  bool
	Notes []string
}

// daysAhead is how far the days of the page go with the family's duties, from today and
// from surgery; later dates stand on each duty's own page.
const daysAhead = 14

// inDays tells whether a duty stands in the days. The family's are shown from today
// on, since what is gone by needs nobody any more.
func (m *maker) inDays(d *schedule.Duty) bool {
	near := d.Day <= m.today+daysAhead || d.Day >= m.p.Surgery-1 && d.Day <= m.p.Surgery+daysAhead
	return d.Family == nil || near && lastDay(d) >= m.today
}

// lastDay is the day on which a duty of the family is over.
func lastDay(d *schedule.Duty) wall.Date {
	end := d.Ends.To
	if d.Free.After(end) {
		end = d.Free
	}
	return wall.DateOf(end)
}

// Over tells whether a plan lies behind on a day: the days in which to look out for clots are
// gone by, and so is every duty.
func Over(s *schedule.Schedule, today wall.Date) bool {
	return today > s.Plan.Surgery+wall.Date(s.Plan.Program.Get(plan.ClotDays)) &&
		!slices.ContainsFunc(s.Duties, func(d schedule.Duty) bool { return lastDay(&d) >= today })
}

// dutyPath is the page of one of the family's duties.
func dutyPath(id uint32) string { return "/duty/" + number(int(id)) }

// dutyID is the id of a duty's row. Of the family's each date has its own: the day
// of the pattern, or the moment of an extra date.
func dutyID(d *schedule.Duty) string {
	if d.IsSlot() {
		return "duty-" + d.ID + "-slot-" + number(int(d.Slot))
	}
	if d.Family == nil {
		return "duty-" + d.ID + "-" + number(int(d.Branch))
	}
	id := "duty-f" + number(int(d.Family.ID)) + "-" + d.On.Of.String()
	if d.On.Kind == repeat.Added {
		id += "-" + number(int(d.On.At))
	}
	return id
}

// family lists the family's duties: what is still to come before what is over.
func (m *maker) family() []FamilyDuty {
	var ahead, over []FamilyDuty
	for i := range m.s.Series {
		f := m.familyDuty(&m.s.Series[i])
		if f.Over {
			over = append(over, f)
		} else {
			ahead = append(ahead, f)
		}
	}
	return append(ahead, over...)
}

func (m *maker) familyDuty(series *schedule.Series) FamilyDuty {
	d := series.Duty
	dates := m.coming(series)
	h := m.holders(dates)
	f := FamilyDuty{
		Path: dutyPath(d.ID), Title: m.v.DutyTitle(d), Who: m.whose(h), Rule: m.v.RuleShort(d.Rule), Over: true,
	}
	all, some := m.openWho(dates)
	if all != "" {
		f.Who = all
	}
	if next := m.nextDate(series); next != nil {
		f.Over = false
		if d.Rule.Freq != repeat.Once {
			f.Next = m.v.Say("family.next", arg("day", m.v.Near(next.On.Day)), arg("time", m.v.Time(next.Session.From))) + m.beside(next.Session.From)
			if len(h.on) > 1 || m.open(h) != "" {
				f.Next = m.v.Say("family.next.who", arg("next", f.Next), arg("who", m.nameOf(next)))
			}
		}
		for _, note := range []string{m.open(h), some, m.clashing(dates)} {
			if note != "" {
				f.Notes = append(f.Notes, note)
			}
		}
		if next.Needs == schedule.NeedsRide {
			f.Notes = append(f.Notes, m.v.Say("duty.needs-ride"))
		}
		if early := m.beforeSurgery(next); early != "" {
			f.Notes = append(f.Notes, early)
		}
	}
	return f
}

// dropped lists what was taken out of the plan, so that it can be put back.
func (m *maker) dropped() []FamilyDuty {
	var gone []FamilyDuty
	for i := range m.p.Duties {
		if d := &m.p.Duties[i]; d.Dropped {
			gone = append(gone, FamilyDuty{Path: dutyPath(d.ID), Title: m.v.DutyTitle(d), Rule: m.v.RuleShort(d.Rule)})
		}
	}
	return gone
}

// beforeSurgery asks about therapy that is dated before the patient is home: most often
// the surgery was moved and the rides were not.
func (m *maker) beforeSurgery(d *schedule.Duty) string {
	if first, _ := m.s.HomeDays(); d.Family.Kind != plan.TherapyRide || d.On.Day > first || m.today > m.p.Surgery {
		return ""
	}
	return m.v.Say("duty.before-surgery")
}

// nextDate is the first date of a series that is not over.
func (m *maker) nextDate(series *schedule.Series) *schedule.Duty {
	for _, i := range series.Dates {
		if d := &m.s.Duties[i]; d.Session.To.After(m.Now) {
			return d
		}
	}
	return nil
}

// familyFacts are the times of a date of one of the family's duties, from leaving to
// being free again.
func (m *maker) familyFacts(d *schedule.Duty) []Fact {
	var facts []Fact
	show := func(label string, s schedule.Span) {
		if s.Known() {
			facts = append(facts, Fact{Label: m.v.Say(label), Value: m.spanOn(d.Day, s), Yours: m.theirSpan(s)})
		}
	}
	at := func(label string, s schedule.Span) { show(label, schedule.Span{From: s.From, To: s.From}) }
	if d.Kind == schedule.Help {
		if !d.Leave.IsZero() {
			at("duty.there", d.There)
		}
		show("duty.until", schedule.Span{From: d.Ends.To, To: d.Ends.To})
		return facts
	}
	if !d.Leave.IsZero() {
		pickUp := d.Leave.Add(time.Duration(d.Own) * time.Minute)
		if d.Own > 0 {
			show("duty.pick-up", schedule.Span{From: pickUp, To: pickUp})
		}
		show("duty.there", d.There)
	}
	show("duty.appointment", d.Session)
	if d.Gap.Known() {
		at("duty.own-home", schedule.Span{From: d.Gap.From})
		at("duty.leave-again", schedule.Span{From: d.Gap.To})
	}
	if d.Home.Known() {
		facts = append(facts, Fact{
			Label: m.v.Say("duty.home-of", arg("name", m.v.Patient(m.p))), Value: m.spanOn(d.Day, d.Home), Yours: m.theirSpan(d.Home),
		})
	}
	if d.Home.Known() {
		show("duty.free", schedule.Span{From: d.Free, To: d.Free})
	}
	return facts
}

// rideSum shows how the leave-by time of a ride was worked out.
func (m *maker) rideSum(d *schedule.Duty, minus func(int) string, percent guide.Arg) []Fact {
	t := d.Trip
	sum := []Fact{m.fact("duty.appointment", m.timeOn(d.Day, d.Session.From), d.Session.From)}
	for _, part := range []struct {
		label string
		n     int
	}{{"sum.early", t.Early}, {"sum.parking", t.Parking}, {"sum.drive", t.Drive}, {"sum.slack", t.Slack}, {"sum.car", t.Car}, {"sum.own", t.Own}} {
		if part.n > 0 {
			sum = append(sum, Fact{Label: m.v.Say(part.label, percent), Value: minus(part.n)})
		}
	}
	return append(sum, m.fact("sum.leave", m.timeOn(d.Day, t.Leave), t.Leave))
}

// familyKinds are what can be added, with the words for it.
func familyKinds(v *View) []Option {
	var kinds []Option
	for _, key := range plan.DutyKeys {
		kinds = append(kinds, Option{Value: key, Label: v.Voice.Entry(key, "").Title})
	}
	return kinds
}

// spanOn writes a span, with its day where that is not the one it stands under.
func (m *maker) spanOn(day wall.Date, s schedule.Span) string {
	text, on := m.v.Span(s.From, s.To), wall.DateOf(s.From)
	if on == day || on != wall.DateOf(s.To) {
		return text
	}
	return m.v.Say("day.time", arg("day", m.v.ShortDay(on)), arg("time", text))
}

// familyNotes gathers what to know about a date of one of the family's duties.
func (m *maker) familyNotes(d *schedule.Duty, more string) string {
	notes := append([]string{m.beforeSurgery(d)}, m.v.DutyNotes(d)...)
	notes = slices.DeleteFunc(append(notes, more), func(s string) bool { return s == "" })
	return strings.Join(notes, " ")
}

// beside is a time on the device's own clock in brackets, where that differs.
func (m *maker) beside(t time.Time) string {
	if yours := m.theirs(t); yours != "" {
		return " (" + yours + ")"
	}
	return ""
}
