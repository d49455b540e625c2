// Package calendar turns a plan's duties and steps into an iCalendar file (RFC 5545)
// and reads such files, its own and those that a clinic sends.
//
//	file, memory := calendar.Write(calendar.Input{Schedule: s, Voice: v, Now: now, Choice: choice, Before: before})
//	found, err := calendar.Read(text, &p, loc)
//
// An event is the helper's busy time: it begins at leave-by and ends at free-again;
// when the appointment itself is, its summary says. Steps of one day that belong to one list,
// such as what to pack, are one event, with a UID by the list; a line of the family's own is an
// event by itself, with a UID by its number, so that lines that come and go move nothing. A duty that repeats is one event
// with a rule, not fifty copies. Its rule is on the wall clock of leave-by. Leave-by is
// counted back from the appointment in elapsed time, so on a night of a clock change
// the two can part: such a date is written on its own.
//
// Everybody's file has whole series. One helper's has only their own dates; where they
// have some of a series, those are a part with a UID of its own (share.go).
//
// A file that is taken in again updates what it wrote before. UIDs stay (uid.go);
// SEQUENCE rises when a time moved (RFC 5546 2.1.4); what is no longer in the plan
// comes as cancelled. For the last, and for times that moved without the
// plan counting it, the device remembers a few bytes about each file (memory.go).
// There is no METHOD: with one, RFC 5546 3.2.1 would demand an ORGANIZER, an address.
//
// go-ical holds, writes and reads the components. What it does not do is here: lines
// of 75 octets (fold.go), the VTIMEZONE (observance.go, footer.go), commas in texts and
// lists, and its reader's panics kept out of reach (lines.go). Nothing that a person
// typed goes into a parameter, since go-ical writes a line end there as it is.
//
// Read refuses files over MaxBytes or MaxEvents, and never guesses: what it cannot take
// over is listed in Found.Left with a code, whose sentence core/guide keeps as
// import.CODE. In its own events the property X-NEWEL-DUTY holds what an event cannot
// say (duty.go), so that a file that nobody changed comes back as the same duties.
package calendar

import (
	"strings"
	"time"

	ical "github.com/emersion/go-ical"

	"newel/core/guide"
	"newel/core/schedule"
	"newel/core/zone"
)

// Choice is what goes into a file.
type Choice struct {
	All   bool   // everybody's duties; else those of Who
	Who   uint8  // one helper's: 1 + place in Plan.Helpers; 0: those that nobody has yet
	Duty  string // only this one, whoever has it: "f12" is the family's duty 12, "drive-there" one of the plan's own
	Alarm int    // minutes before an event at which the phone reminds; -1: it does not
	Steps bool   // the steps of the lists too
}

// MaxAlarm is the longest lead of a reminder, in minutes: a week.
const MaxAlarm = 7 * 24 * 60

// Input is what Write needs. Before is the memory that the last Write of the same
// choice gave, or ""; Others are those of the other choices of this plan.
type Input struct {
	Schedule *schedule.Schedule
	Voice    guide.Voice
	Now      time.Time
	Choice   Choice
	Before   string
	Others   []string
}

// Write gives the file, with CRLF line ends, and what this device has to remember of
// it. The file is "" where there is nothing to put in: iCalendar has no empty file.
// The same input gives the same bytes.
func Write(in Input) (file, memory string) {
	w := &writer{Input: in, plan: &in.Schedule.Plan, loc: in.Schedule.Loc}
	w.Choice.Alarm = min(w.Choice.Alarm, MaxAlarm)
	w.duties()
	w.family()
	if in.Choice.Steps && in.Choice.Duty == "" {
		w.steps()
	}
	memory = w.remember()
	if len(w.events) == 0 {
		return "", memory
	}
	return w.file(), memory
}

// file encodes the events. The zone's description comes first and covers every time
// that is written with its name.
func (w *writer) file() string {
	cal := ical.NewCalendar()
	for _, p := range [][2]string{
		{ical.PropProductID, "-//Newel//Newel 1//" + strings.ToUpper(w.Voice.Language)},
		{ical.PropVersion, "2.0"}, {ical.PropCalendarScale, "GREGORIAN"},
	} {
		cal.Props.Set(&ical.Prop{Name: p[0], Value: p[1]})
	}
	var components []*ical.Component
	for i := range w.events {
		components = append(components, w.components(&w.events[i])...)
	}
	if !w.from.IsZero() {
		data, err := zone.Data(w.loc.String())
		if err != nil {
			panic("calendar: the schedule’s zone has no data: " + err.Error())
		}
		cal.Children = append(cal.Children, timezone(w.loc, data, w.from, w.to))
	}
	cal.Children = append(cal.Children, components...)
	var b strings.Builder
	if err := ical.NewEncoder(&b).Encode(cal); err != nil {
		panic("calendar: an event of ours cannot be written: " + err.Error())
	}
	return fold(b.String())
}
