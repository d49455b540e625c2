package calendar

import (
	"strings"
	"time"

	"newel/core/guide"
	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/wall"
)

// duties writes the chosen duties that every plan has.
func (w *writer) duties() {
	for i := range w.Schedule.Duties {
		d := &w.Schedule.Duties[i]
		if who := w.Schedule.Who(d); d.Family == nil && w.chosen(d.ID, who) {
			w.events = append(w.events, w.builtIn(d, who))
		}
	}
}

// branchKeys tell the two ways of an undecided stay apart. They stay when it is
// decided, so that the event does.
var branchKeys = [...]string{"", ".same-day", ".one-night"}

// builtInKey is the item key of a duty that every plan has. A part of staying with the patient
// has its slot's, whichever stay it is for, so that the event stays when that is decided.
// Files of before there were parts had one event for each branch under the key of the others:
// that is cancelled (memory.go).
func builtInKey(d *schedule.Duty) string {
	if d.IsSlot() {
		return d.Slot.Name()
	}
	return d.ID + branchKeys[d.Branch]
}

// builtIn writes one duty. Where its busy time is not known it is the time to be
// there, and where that is not known either, its day.
func (w *writer) builtIn(d *schedule.Duty, who uint8) event {
	e := event{key: builtInKey(d), sequence: int(w.plan.Revision), builtIn: true}
	busy := d.Busy()
	switch {
	case len(busy) > 0:
		e.start, e.end = w.ends(busy[0])
	case d.There.Known():
		end := d.Ends.To
		if d.Open && d.Home.From.After(end) {
			end = d.Home.From
		}
		e.start, e.end = w.ends(schedule.Span{From: d.There.From, To: end})
	default:
		e.start, e.end = onDay(w.loc, d.Day), onDay(w.loc, d.Day+1)
	}
	e.text = w.builtInText(d, who)
	return e
}

func (w *writer) builtInText(d *schedule.Duty, who uint8) text {
	v := w.Voice
	entry := v.Duty(w.plan, d)
	summary := entry.Title
	switch {
	case d.There.From.IsZero() || d.Kind != schedule.Drive:
	case d.Open:
		summary = v.Say("calendar.from", arg("what", summary), arg("time", v.Time(d.There.From)))
	case d.Leave.IsZero():
		summary = v.Say("calendar.summary", arg("what", summary), arg("time", v.Time(d.There.From)))
	default:
		summary = v.Say("calendar.leave-by",
			arg("what", summary), arg("time", v.Time(d.There.From)), arg("leave", w.beside(wall.DateOf(d.There.From), d.Leave)))
	}
	t := text{summary: w.who(who, summary), description: w.builtInLines(d, entry.How)}
	if d.Place == schedule.Hospital {
		t.location = w.hospital()
	}
	return t
}

// ownLeave says when whoever has a duty leaves their own home. The event begins when the
// patient leaves or comes home: that is one time in all files.
func (w *writer) ownLeave(d *schedule.Duty, own time.Time) string {
	time := arg("time", w.beside(d.Day, own))
	if w.Choice.All || w.Choice.Duty != "" {
		return w.Voice.Say("calendar.own-leave-of", arg("who", w.name(w.Schedule.Who(d))), time)
	}
	return w.Voice.Say("calendar.own-leave", time)
}

func (w *writer) hospital() string {
	var parts []string
	for _, s := range []string{w.plan.Program.Hospital, w.plan.Program.Address} {
		if s != "" {
			parts = append(parts, s)
		}
	}
	return strings.Join(parts, ", ")
}

// isDriveThere tells whether a duty is the drive to the hospital for the surgery.
func (w *writer) isDriveThere(d *schedule.Duty) bool {
	return d.Family == nil && d.ID == "drive-there"
}

func (w *writer) branch(b schedule.Branch) string {
	switch {
	case w.plan.Stay != plan.Undecided || b == schedule.Always:
		return ""
	case b == schedule.IfSameDay:
		return w.Voice.Say("branch.same-day")
	}
	return w.Voice.Say("branch.one-night")
}

func (w *writer) builtInLines(d *schedule.Duty, how []guide.Line) string {
	v := w.Voice
	var l lines
	say := func(key string, s schedule.Span) {
		if s.Known() {
			l.add(v.Say(key, arg("time", w.besideSpan(d.Day, s))))
		}
	}
	if branch := w.branch(d.Branch); branch != "" {
		l.add(v.Say("calendar.if", arg("branch", branch)))
	}
	single := func(t time.Time) schedule.Span { return schedule.Span{From: t, To: t} }
	if own := d.OwnLeave(); !own.IsZero() {
		l.add(w.ownLeave(d, own))
	}
	switch {
	case d.Kind == schedule.Drive:
		say("calendar.leave", single(d.Leave))
		say("calendar.there", single(d.There.From))
	default:
		say("calendar.begins", d.There)
		say("calendar.ends", d.Ends)
	}
	say("calendar.home", d.Home)
	say("calendar.free", single(d.Free))
	switch {
	case d.Needs == schedule.NeedsArrival:
		l.add(v.Say("duty.needs-arrival"))
	case d.Needs != schedule.Nothing:
		l.add(v.Say("duty.needs-drive"))
	}
	if d.Open {
		l.add(v.Say("calendar.open"))
	}
	if w.isDriveThere(d) {
		for _, line := range w.Voice.There(w.plan) {
			l.add(line)
		}
	}
	for _, line := range how {
		l.add(line.Text)
	}
	l.add(v.LongDrive(w.plan, d))
	w.close(&l)
	if !d.There.From.IsZero() {
		l.add(v.Say("calendar.zone", arg("zone", w.plan.Zone)))
	}
	return l.text()
}
