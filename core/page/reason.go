package page

import (
	"time"

	"newel/core/guide"
	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/split"
	"newel/core/wall"
)

// reason says in a sentence why somebody cannot do a duty: "Luis is at work until 15:00."
func (m *maker) reason(d *schedule.Duty, who uint8, r split.Reason) string {
	name := arg("who", m.p.Helper(who))
	switch r.Why {
	case split.NoCar:
		return m.v.Say("why.drive", name)
	case split.NoNight:
		return m.v.Say("why.night", name)
	case split.NoSteady:
		return m.v.Say("why.steady", name)
	case split.NoPets:
		return m.v.Say("why.pets", name)
	case split.IsOut:
		return m.v.Say("helper.is-out", name)
	case split.AtWork:
		return m.during("why.work.", d, who, r)
	case split.IsAway:
		return m.during("why.away.", d, who, r)
	case split.NotThen:
		return m.notThen(d, who, r)
	}
	return m.hasOther(d, who, r)
}

// during says when somebody is at work or away, as it bears on the duty: until when, if
// that is in its way as it begins, else from when.
func (m *maker) during(key string, d *schedule.Duty, who uint8, r split.Reason) string {
	name := arg("who", m.p.Helper(who))
	from, until := arg("from", m.timeNear(d, r.From)), arg("until", m.timeNear(d, r.Until))
	begins, ends := m.needed(d)
	switch {
	case r.From.IsZero() || r.Until.IsZero():
		return m.v.Say(key+"then", name)
	case !r.From.After(begins) && r.Until.Before(ends):
		return m.v.Say(key+"until", name, until)
	case r.From.After(begins) && !r.Until.Before(ends):
		return m.v.Say(key+"from", name, from)
	}
	return m.v.Say(key+"span", name, from, until)
}

// notThen says when somebody could, if there is such a time near it.
func (m *maker) notThen(d *schedule.Duty, who uint8, r split.Reason) string {
	name := arg("who", m.p.Helper(who))
	if r.From.IsZero() || r.Until.IsZero() {
		return m.v.Say("why.not-then", name)
	}
	if from := r.From.In(m.s.Loc); wall.DateOf(from) != d.Day {
		return m.v.Say("why.only.day", name, arg("when", m.shortSpan(from, r.Until)))
	}
	key := "why.only"
	if !d.There.From.Before(r.From) && !d.Ends.To.After(r.Until) {
		key = "why.only.way" // only the way here or back is outside it
	}
	return m.v.Say(key, name, arg("from", m.timeNear(d, r.From)), arg("until", m.timeNear(d, r.Until)))
}

// hasOther says what else somebody has at that time.
func (m *maker) hasOther(d *schedule.Duty, who uint8, r split.Reason) string {
	name := arg("who", m.p.Helper(who))
	if r.Other < 0 || r.Other >= len(m.s.Duties) {
		return m.v.Say("why.not-then", name)
	}
	other := &m.s.Duties[r.Other]
	args := []guide.Arg{
		name, arg("what", m.v.Duty(m.p, other).Title),
		arg("until", m.timeNear(d, r.Until)), arg("from", m.timeNear(d, r.From)),
	}
	begins, _ := m.needed(d)
	switch {
	case r.Until.IsZero():
		return m.v.Say("why.other", args...)
	case !r.From.IsZero() && r.From.After(begins) && other.Kind == schedule.Drive:
		return m.v.Say("why.other.leave", args...)
	case !r.From.IsZero() && r.From.After(begins):
		return m.v.Say("why.other.from", args...)
	case drivesBack(other, d):
		return m.v.Say(backKey(other), args...)
	}
	return m.v.Say("why.other.until", args...)
}

// drivesBack tells whether what was to be done there is over when a duty begins, and only
// the way back is in its way.
func drivesBack(other, d *schedule.Duty) bool {
	over, begins := other.Ends.From, d.There.From
	if !other.Session.To.IsZero() {
		over = other.Session.To
	}
	if !d.Session.From.IsZero() {
		begins = d.Session.From
	}
	return other.Kind == schedule.Drive && !over.IsZero() && !over.After(begins)
}

// backKey is the sentence for the way back from a ride.
func backKey(d *schedule.Duty) string {
	if d.Family == nil || d.Family.Title != "" || !d.Family.Kind.IsRide() {
		return "why.back"
	}
	return "why.back." + plan.DutyKeys[d.Family.Kind]
}

// needed is from when until when a duty takes its helper.
func (m *maker) needed(d *schedule.Duty) (from, to time.Time) {
	if busy := d.Busy(); len(busy) > 0 {
		return busy[0].From, busy[len(busy)-1].To
	}
	return d.There.From, d.Ends.To
}

// timeNear writes a time within what is said of a duty, with its day where it is another one.
func (m *maker) timeNear(d *schedule.Duty, t time.Time) string {
	t = t.In(m.s.Loc)
	if wall.DateOf(t) == d.Day {
		return m.v.Time(t)
	}
	return m.v.ShortDayTime(t)
}

// whenOf writes when a duty is where room is scarce, with the stay for which it holds.
func (m *maker) whenOf(d *schedule.Duty) string {
	text := m.v.ShortDay(d.Day)
	switch {
	case d.Family != nil && d.Kind != schedule.Help || d.Family != nil && d.Family.Kind != plan.Nights:
		text = m.v.ShortDayTime(d.Session.From)
	case d.Kind == schedule.Stay && !d.There.From.IsZero() && !d.Ends.To.IsZero() || d.Family != nil:
		text = m.shortSpan(d.There.From, d.Ends.To)
	case !d.There.From.IsZero():
		text = m.v.ShortDayTime(d.There.From)
	}
	return m.inBranch(m.branch(d.Branch), text)
}

// shortSpan writes a time from until with its day, or its days.
func (m *maker) shortSpan(from, to time.Time) string {
	from, to = from.In(m.s.Loc), to.In(m.s.Loc)
	if wall.DateOf(from) == wall.DateOf(to) {
		return m.v.Say("day.time", arg("day", m.v.ShortDay(wall.DateOf(from))), arg("time", m.v.Span(from, to)))
	}
	return m.v.Say("span.days", arg("from", m.v.ShortDayTime(from)), arg("to", m.v.ShortDayTime(to)))
}
