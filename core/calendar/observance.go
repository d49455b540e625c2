package calendar

import (
	"time"

	ical "github.com/emersion/go-ical"
)

// onset is a change of the clocks.
type onset struct {
	at         time.Time // zero: long ago
	from, to   int       // seconds ahead of UTC, before and after
	name       string    // the abbreviation, such as EDT
	isDaylight bool
}

// clocks is what the clocks of a zone do at an instant. Two instants are compared by it
// day by day; core/zone's tests find no zone that changes twice within two days.
// Time.ZoneBounds would be shorter, but where a zone goes by a standing rule it stops at
// the ends of years, and at some of them never goes on (Go 1.26).
func clocks(loc *time.Location, t time.Time) onset {
	o := onset{isDaylight: t.In(loc).IsDST()}
	o.name, o.to = t.In(loc).Zone()
	return o
}

const oneDay = 24 * time.Hour

// longAgo is how many days before the first date its change of the clocks is looked
// for. Where there is none, the zone is described as if it had always been like that.
const longAgo = 400

// onsets lists the changes of the clocks that hold between two instants: the last one
// at or before from, and all up to to.
func onsets(loc *time.Location, from, to time.Time) []onset {
	var all []onset
	for t := from; len(all) == 0; t = t.Add(-oneDay) {
		if from.Sub(t) > longAgo*oneDay {
			o := clocks(loc, from)
			o.from = o.to
			all = append(all, o)
		} else if o, ok := onsetWithin(loc, t.Add(-oneDay), t); ok {
			all = append(all, o)
		}
	}
	for t := from; t.Before(to); t = t.Add(oneDay) {
		if o, ok := onsetWithin(loc, t, t.Add(oneDay)); ok && !o.at.After(to) {
			all = append(all, o)
		}
	}
	return all
}

// onsetWithin finds the change after one instant and up to another, to the second.
func onsetWithin(loc *time.Location, low, high time.Time) (o onset, ok bool) {
	before := clocks(loc, low)
	if clocks(loc, high) == before {
		return o, false
	}
	for high.Sub(low) > time.Second {
		if middle := low.Add(high.Sub(low) / 2).Truncate(time.Second); clocks(loc, middle) == before {
			low = middle
		} else {
			high = middle
		}
	}
	o = clocks(loc, high)
	o.at, o.from = high, before.to
	return o, true
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
