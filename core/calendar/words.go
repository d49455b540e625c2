package calendar

import (
	"strings"
	"time"

	"newel/core/guide"
	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/wall"
)

func arg(name, value string) guide.Arg { return guide.Arg{Name: name, Value: value} }

// lines gathers what a description says, one sentence a line.
type lines []string

func (l *lines) add(text string) {
	if text != "" {
		*l = append(*l, text)
	}
}

func (l lines) text() string { return strings.Join(l, "\n") }

// beside writes a time for a line about a day: with "the day before" or "the next day"
// where it is not on it. A series has one text for all its days, so none is named.
func (w *writer) beside(day wall.Date, t time.Time) string {
	return w.besideSpan(day, schedule.Span{From: t, To: t})
}

func (w *writer) besideSpan(day wall.Date, s schedule.Span) string {
	first := wall.DateOf(s.From)
	if wall.DateOf(s.To) != first {
		return w.beside(day, s.From) + " – " + w.beside(day, s.To)
	}
	clock := w.Voice.Span(s.From, s.To)
	switch {
	case first < day:
		return w.Voice.Say("calendar.day-before", arg("time", clock))
	case first > day:
		return w.Voice.Say("calendar.next-day", arg("time", clock))
	}
	return clock
}

// close ends a description: whom to call, and whose word counts.
func (w *writer) close(l *lines) { w.closeWith(l, "calendar.call") }

func (w *writer) closeWith(l *lines, call string) {
	program := &w.plan.Program
	hospital := program.Hospital
	if hospital == "" {
		hospital = w.Voice.Say("ask.arrival.hospital")
	}
	if phone := w.Voice.PhoneText(program); phone != "" {
		l.add(w.Voice.Say(call, arg("hospital", hospital), arg("phone", phone)))
	}
	l.add(w.Voice.Say("calendar.caution"))
}

// familyText is what a date of a family's duty says; part 1 is fetching the patient.
func (w *writer) familyText(d *schedule.Duty, part int, whose holders) text {
	v, f := w.Voice, d.Family
	key, clock, leave := "calendar.summary", d.Session.From, d.Leave
	switch {
	case part > 0:
		key, clock, leave = "calendar.back", d.Session.To, d.Gap.To
	case !leave.IsZero():
		key = "calendar.leave-by"
	}
	summary := v.Say(key, arg("what", v.DutyTitle(f)), arg("time", v.Time(clock)), arg("leave", w.beside(wall.DateOf(clock), leave)))
	if !whose.several {
		summary = w.who(whose.who, summary)
	}
	return text{summary: summary, description: w.familyLines(d, part, whose), location: f.Place}
}

func (w *writer) familyLines(d *schedule.Duty, part int, whose holders) string {
	v, f, day := w.Voice, d.Family, wall.DateOf(d.Session.From)
	var l lines
	say := func(key string, at time.Time) {
		if !at.IsZero() {
			l.add(v.Say(key, arg("time", w.beside(day, at))))
		}
	}
	switch {
	case part > 0:
		say("calendar.fetch-leave", d.Gap.To)
		say("calendar.fetch", d.Session.To)
	case f.Kind.IsRide():
		say("calendar.leave", d.Leave)
		if d.Own > 0 && !d.Leave.IsZero() {
			say("calendar.pick-up", d.Leave.Add(time.Duration(d.Own)*time.Minute))
		}
		if f.Ride.Early > 0 {
			say("calendar.there", d.There.From)
		}
		say("calendar.appointment", d.Session.From)
		if d.Gap.Known() {
			l.add(v.Say("calendar.gap", arg("from", w.beside(day, d.Gap.From)), arg("to", w.beside(day, d.Gap.To))))
		}
		say("calendar.ends", d.Session.To)
	default:
		say("calendar.leave", d.Leave)
		say("calendar.begins", d.Session.From)
		say("calendar.ends", d.Session.To)
	}
	if d.Free.After(d.Session.To) {
		say("calendar.free", d.Free)
	}
	if d.Needs != schedule.Nothing {
		l.add(v.Say("duty.needs-ride"))
	}
	l.add(whose.text)
	for _, note := range v.DutyNotes(d) {
		l.add(note)
	}
	l.add(v.LongDrive(w.plan, d))
	l.add(f.Note)
	for _, line := range v.Duty(w.plan, d).How {
		l.add(line.Text)
	}
	switch {
	case f.Kind.IsRide():
		w.closeWith(&l, "calendar.call-ride")
	case f.Kind != plan.PetCare && f.Kind != plan.Meals: // the hospital cannot help a neighbour with the cat
		w.close(&l)
	}
	l.add(v.Say("calendar.zone", arg("zone", w.plan.Zone)))
	return l.text()
}
