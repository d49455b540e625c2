package calendar

import (
	"strconv"
	"time"

	ical "github.com/emersion/go-ical"

	"newel/core/plan"
	"newel/core/schedule"
)

// Two properties of our own (RFC 5545 3.8.8.2). The first holds a family's duty, the
// second marks what the plan makes by itself, so that Read leaves it alone.
const (
	propDuty = "X-NEWEL-DUTY"
	propPlan = "X-NEWEL-PLAN"
)

// event is one VEVENT, or a series with its moved dates.
type event struct {
	key       string // of the item; the UID is made from it
	uid       string // of an event that only the memory knows; else made from key
	sequence  int
	start     stamp
	end       stamp // the same as start: no DTEND
	rule      string
	last      stamp   // where the rule has its last date
	skipped   []stamp // EXDATE
	extra     []stamp // RDATE
	moved     []moved
	regular   []stamp // where the rule and the RDATEs have it, for the memory
	text      text
	duty      *plan.Duty // of the family
	part      string     // which part of the duty it is, see duty.go
	share     string     // whose part of its dates it is, see share.go; "" for all of them
	lead      int        // minutes from the start to the duty's own time
	leads     []string   // the same of dates that have another one, see writeDuty
	free      bool       // it takes nobody's time
	quiet     bool       // it does not remind
	builtIn   bool       // a duty that every plan has
	own       string     // the words of a line of the family's own; "" for anything else
	cancelled bool
}

// moved is a date of a series that is at another time than its rule says.
type moved struct {
	of         stamp // where the rule has it
	start, end stamp
	text       text
	gone       bool // it was moved in an earlier file, and the series has no such date any more
}

// text is what a person reads.
type text struct{ summary, description, location string }

type writer struct {
	Input
	plan     *plan.Plan
	loc      *time.Location
	events   []event
	titles   map[string]string // see gone.go; nil until needed
	rest     bool              // the dates that Choice.Who has not, where they have others; with Choice.All
	from, to time.Time         // the span of all times with the zone's name
}

// ends sets start and end to a span. Where the wall cannot say one of them, both are in
// UTC: DTEND has to be of DTSTART's kind (RFC 5545 3.8.2.2).
func (w *writer) ends(s schedule.Span) (start, end stamp) {
	start, end = instant(w.loc, s.From), instant(w.loc, s.To)
	if start.form != end.form {
		start.form, end.form = utc, utc
	}
	return start, end
}

// components writes an event and its moved dates.
func (w *writer) components(e *event) []*ical.Component {
	main := w.component(e, e.start, e.end, e.text)
	if e.rule != "" {
		main.Props.Set(&ical.Prop{Name: ical.PropRecurrenceRule, Value: e.rule})
		w.cover(e.last)
	}
	if e.duty != nil {
		main.Props.Set(&ical.Prop{Name: propDuty, Value: escape(writeDuty(e))})
	}
	// One value a property, of DTSTART's kind and zone: the form that all readers take.
	for _, s := range e.skipped {
		main.Props.Add(w.time(ical.PropExceptionDates, s))
	}
	for _, s := range e.extra {
		main.Props.Add(w.time(ical.PropRecurrenceDates, s))
	}
	all := []*ical.Component{main}
	for _, m := range e.moved {
		of := *e
		of.cancelled = e.cancelled || m.gone
		c := w.component(&of, m.start, m.end, m.text)
		c.Props.Set(w.time(ical.PropRecurrenceID, m.of))
		all = append(all, c)
	}
	return all
}

func (w *writer) component(e *event, start, end stamp, t text) *ical.Component {
	c := ical.NewComponent(ical.CompEvent)
	set := func(name, value string) {
		if value != "" {
			c.Props.Set(&ical.Prop{Name: name, Value: value})
		}
	}
	set(ical.PropUID, e.id(w.plan.Number))
	set(ical.PropDateTimeStamp, utcText(w.Now))
	set(ical.PropSequence, strconv.Itoa(e.sequence))
	c.Props.Set(w.time(ical.PropDateTimeStart, start))
	if !end.t.Equal(start.t) {
		c.Props.Set(w.time(ical.PropDateTimeEnd, end))
	}
	set(ical.PropSummary, escape(tidy(t.summary)))
	set(ical.PropDescription, escape(tidy(t.description)))
	set(ical.PropLocation, escape(tidy(t.location)))
	set(ical.PropStatus, e.status())
	if e.free {
		set(ical.PropTransparency, "TRANSPARENT")
	}
	if e.duty == nil {
		set(propPlan, "1")
	}
	if w.Choice.Alarm >= 0 && start.form != date && !e.cancelled && !e.quiet {
		c.Children = append(c.Children, alarm(w.Choice.Alarm, t.summary))
	}
	return c
}

func (e *event) id(number uint32) string {
	if e.uid != "" {
		return e.uid
	}
	return uid(number, e.key)
}

func (e *event) status() string {
	if e.cancelled {
		return "CANCELLED"
	}
	return "CONFIRMED"
}

// time writes a time.
func (w *writer) time(name string, s stamp) *ical.Prop {
	w.cover(s)
	return s.prop(name, w.loc.String())
}

// cover widens the span that the zone's description has to cover.
func (w *writer) cover(s stamp) {
	if s.form != local {
		return
	}
	if w.from.IsZero() || s.t.Before(w.from) {
		w.from = s.t
	}
	if s.t.After(w.to) {
		w.to = s.t
	}
}

// alarm reminds so many minutes before the start (RFC 5545 3.6.6).
func alarm(minutes int, summary string) *ical.Component {
	c := ical.NewComponent(ical.CompAlarm)
	trigger := "-PT" + strconv.Itoa(minutes) + "M"
	if minutes == 0 {
		trigger = "PT0M"
	}
	for _, p := range [][2]string{
		{ical.PropAction, "DISPLAY"}, {ical.PropTrigger, trigger}, {ical.PropDescription, escape(tidy(summary))},
	} {
		c.Props.Set(&ical.Prop{Name: p[0], Value: p[1]})
	}
	return c
}

// who is put before a summary in everybody's file.
func (w *writer) who(who uint8, summary string) string {
	if !w.Choice.All {
		return summary
	}
	return w.Voice.Say("calendar.of", arg("who", w.name(who)), arg("what", summary))
}

// chosen tells whether a duty that every plan has goes into the file: by its id, or by
// who has it.
func (w *writer) chosen(key string, who uint8) bool {
	if w.Choice.Duty != "" {
		return w.Choice.Duty == key
	}
	return w.Choice.All || w.Choice.Who == who
}
