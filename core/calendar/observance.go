package calendar

import (
	"time"

	ical "github.com/emersion/go-ical"
)

// onset is a change of the clocks.
type onset struct {
	at         time.Time // zero: nobody knows since when
	from, to   int       // seconds ahead of UTC, before and after
	name       string    // the abbreviation, such as EDT
	isDaylight bool
}

// onsets lists the changes of the clocks that hold between two instants: the last one
// at or before from, and all up to to.
func onsets(loc *time.Location, from, to time.Time) []onset {
	all := []onset{onsetBefore(loc, from)}
	for t := from; ; {
		_, end := t.In(loc).ZoneBounds()
		if end.IsZero() || end.After(to) {
			return all
		}
		if o := onsetAt(loc, end); o.changes(loc) {
			all = append(all, o)
		}
		t = end
	}
}

// onsetBefore is the last change at or before t.
func onsetBefore(loc *time.Location, t time.Time) onset {
	for n := 0; ; n++ {
		start, _ := t.In(loc).ZoneBounds()
		if start.IsZero() || n == 100 {
			o := onsetAt(loc, t)
			o.at, o.from = time.Time{}, o.to
			return o
		}
		if o := onsetAt(loc, start); o.changes(loc) {
			return o
		}
		t = start.Add(-time.Second)
	}
}

// onsetAt is what the clocks do at an instant.
func onsetAt(loc *time.Location, t time.Time) onset {
	o := onset{at: t, isDaylight: t.In(loc).IsDST()}
	o.name, o.to = t.In(loc).Zone()
	_, o.from = t.Add(-time.Second).In(loc).Zone()
	return o
}

// changes tells whether anything changes there at all: package time also names the
// ends of a year, where a zone goes by a standing rule.
func (o onset) changes(loc *time.Location) bool {
	before := o.at.Add(-time.Second).In(loc)
	name, _ := before.Zone()
	return o.from != o.to || o.name != name || o.isDaylight != before.IsDST()
}

// timezone writes the VTIMEZONE of the plan's zone for the dates between two instants
// (RFC 5545 3.6.5). Where the zone's standing rule gives every change in that time,
// it is two observances with a yearly rule, which go on after the last date;
// otherwise each change is one observance. No RDATE: some readers then forget the
// DTSTART beside it.
func timezone(loc *time.Location, data []byte, from, to time.Time) *ical.Component {
	c := ical.NewComponent(ical.CompTimezone)
	c.Props.Set(&ical.Prop{Name: ical.PropTimezoneID, Value: loc.String()})
	if pair := yearly(onsets(loc, from.AddDate(-1, 0, 0), to), data); pair != nil {
		c.Children = pair
		return c
	}
	for _, o := range onsets(loc, from, to) {
		c.Children = append(c.Children, o.component(""))
	}
	return c
}

// component writes an observance. What winter time is called in a zone's data does not
// matter here: DAYLIGHT is what puts the clocks forward.
func (o onset) component(rule string) *ical.Component {
	name := ical.CompTimezoneStandard
	if o.isDaylight && o.to > o.from {
		name = ical.CompTimezoneDaylight
	}
	c := ical.NewComponent(name)
	for _, p := range [][2]string{
		{ical.PropDateTimeStart, o.wall()}, {ical.PropTimezoneOffsetFrom, offsetText(o.from)},
		{ical.PropTimezoneOffsetTo, offsetText(o.to)}, {ical.PropTimezoneName, o.name}, {ical.PropRecurrenceRule, rule},
	} {
		if p[1] != "" {
			c.Props.Set(&ical.Prop{Name: p[0], Value: p[1]})
		}
	}
	return c
}

// wall writes what the clocks show at the change, before it.
func (o onset) wall() string {
	if o.at.IsZero() {
		return "19700101T000000"
	}
	text := utcText(o.before())
	return text[:len(text)-1]
}

// before is what the clocks show at the change, before it, as if it were UTC.
func (o onset) before() time.Time { return o.at.UTC().Add(time.Duration(o.from) * time.Second) }

// offsetText writes a UTC-OFFSET: +0530, -0800, with seconds only where there are any.
func offsetText(seconds int) string {
	sign := "+"
	if seconds < 0 {
		sign, seconds = "-", -seconds
	}
	text := sign + digits(seconds/3600, 2) + digits(seconds/60%60, 2)
	if seconds%60 != 0 {
		text += digits(seconds%60, 2)
	}
	return text
}
