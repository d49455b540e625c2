package calendar

import (
	"strings"
	"testing"
	"time"

	ical "github.com/emersion/go-ical"
	"github.com/stretchr/testify/require"
	"github.com/teambition/rrule-go"

	"newel/core/zone"
)

// This is a reader of its own for what Write writes: go-ical's parser, rrule-go in UTC
// for the dates on the wall, and then the zone. It shares with Write only zone.At,
// which has its own checks.

// reading says what becomes of a date whose time the clocks skip.
type reading int

const (
	placed  reading = iota // RFC 5545 3.3.5: at the offset before the gap
	dropped                // RFC 5545 3.3.10: it is ignored
)

type timed struct{ start, end string }

func parse(t testing.TB, file string) *ical.Calendar {
	t.Helper()
	cal, err := ical.NewDecoder(strings.NewReader(file)).Decode()
	require.NoError(t, err)
	return cal
}

// placeText gives the instant of a property's value.
func placeText(t testing.TB, p *ical.Prop) (at time.Time, fit zone.Fit, wallTime time.Time) {
	t.Helper()
	if strings.HasSuffix(p.Value, "Z") {
		at, err := time.Parse("20060102T150405Z", p.Value)
		require.NoError(t, err)
		require.Empty(t, p.Params, "no TZID beside UTC")
		return at, zone.Exact, at
	}
	w, err := time.Parse("20060102T150405", p.Value)
	require.NoError(t, err)
	loc := load(t, p.Params.Get("TZID"))
	at, fit = zone.At(loc, w.Year(), w.Month(), w.Day(), w.Hour(), w.Minute())
	return at, fit, w
}

// expand lists all occurrences of all timed events that are not cancelled.
func expand(t testing.TB, file string, how reading) []timed {
	t.Helper()
	return expandAll(t, parse(t, file).Children, how)
}

func expandAll(t testing.TB, components []*ical.Component, how reading) []timed {
	t.Helper()
	overrides := map[string]map[time.Time]*ical.Component{}
	var mains []*ical.Component
	for _, c := range components {
		switch {
		case c.Name != "VEVENT" || c.Props.Get("STATUS").Value == "CANCELLED" || c.Props.Get("DTSTART").Params.Get("VALUE") == "DATE":
		case c.Props.Get("RECURRENCE-ID") != nil:
			id := c.Props.Get("UID").Value
			if overrides[id] == nil {
				overrides[id] = map[time.Time]*ical.Component{}
			}
			of, _, _ := placeText(t, c.Props.Get("RECURRENCE-ID"))
			require.Nil(t, overrides[id][of.UTC()], "two overrides of one date")
			overrides[id][of.UTC()] = c
		default:
			mains = append(mains, c)
		}
	}
	var all []timed
	for _, c := range mains {
		moved := overrides[c.Props.Get("UID").Value]
		length := lengthOf(t, c)
		for at := range startsOf(t, c, how) {
			if o := moved[at]; o != nil {
				delete(moved, at)
				at, _, _ = placeText(t, o.Props.Get("DTSTART"))
				all = append(all, timed{utcText(at), utcText(at.Add(lengthOf(t, o)))})
				continue
			}
			all = append(all, timed{utcText(at), utcText(at.Add(length))})
		}
		require.Empty(t, moved, "an override of a date that the series does not have")
	}
	return all
}

func lengthOf(t testing.TB, c *ical.Component) time.Duration {
	start, _, _ := placeText(t, c.Props.Get("DTSTART"))
	if c.Props.Get("DTEND") == nil {
		return 0
	}
	end, _, _ := placeText(t, c.Props.Get("DTEND"))
	return end.Sub(start)
}

func startsOf(t testing.TB, c *ical.Component, how reading) map[time.Time]bool {
	starts := map[time.Time]bool{}
	add := func(at time.Time, fit zone.Fit) {
		if fit != zone.Skipped || how == placed {
			starts[at.UTC()] = true
		}
	}
	p := c.Props.Get("DTSTART")
	at, fit, wallTime := placeText(t, p)
	if r := c.Props.Get("RRULE"); r == nil {
		add(at, fit)
	} else {
		loc := load(t, p.Params.Get("TZID"))
		option, err := rrule.StrToROption(r.Value)
		require.NoError(t, err)
		option.Dtstart = wallTime
		if !option.Until.IsZero() {
			u := option.Until.In(loc)
			option.Until = time.Date(u.Year(), u.Month(), u.Day(), u.Hour(), u.Minute(), 0, 0, time.UTC)
		}
		set, err := rrule.NewRRule(*option)
		require.NoError(t, err)
		for _, w := range set.All() {
			add(zone.At(loc, w.Year(), w.Month(), w.Day(), w.Hour(), w.Minute()))
		}
	}
	for i := range c.Props["RDATE"] {
		at, fit, _ := placeText(t, &c.Props["RDATE"][i])
		require.NotEqual(t, zone.Skipped, fit, "an RDATE at a time that does not exist")
		starts[at.UTC()] = true
	}
	for i := range c.Props["EXDATE"] {
		at, fit, _ := placeText(t, &c.Props["EXDATE"][i])
		if fit != zone.Skipped || how == placed {
			delete(starts, at.UTC())
		}
	}
	return starts
}
