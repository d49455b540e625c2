package calendar

import (
	"strings"
	"time"

	ical "github.com/emersion/go-ical"

	"newel/core/zone"
)

// zones finds what a TZID in a file means. It is one of our zones by its name; some
// systems put a path before the name. A name that only its maker knows is taken for
// the plan's zone, if the file describes it and its clocks are the plan's at every
// time that is asked for.
type zones struct {
	plan      *time.Location
	described map[string]*ical.Component
	clocks    map[string]clock
}

func newZones(plan *time.Location, calendars []*ical.Calendar) *zones {
	z := &zones{plan: plan, described: map[string]*ical.Component{}, clocks: map[string]clock{}}
	for _, cal := range calendars {
		for _, c := range cal.Children {
			if id := c.Props.Get(ical.PropTimezoneID); c.Name == ical.CompTimezone && id != nil {
				z.described[id.Value] = c
			}
		}
	}
	return z
}

// load finds the zone of a TZID. asPlan tells that it is taken for the plan's, so that
// each time has to be asked about (same).
func (z *zones) load(tzid string) (loc *time.Location, asPlan bool) {
	name := strings.TrimPrefix(tzid, "/")
	for range 6 {
		if loc, err := zone.Load(name); err == nil {
			return loc, false
		}
		var ok bool
		if _, name, ok = strings.Cut(name, "/"); !ok {
			break
		}
	}
	if z.described[tzid] == nil {
		return nil, false
	}
	return z.plan, true
}

// same tells whether the file's clock for a TZID shows the same as the plan's at an
// instant.
func (z *zones) same(tzid string, t time.Time) bool {
	c, ok := z.clocks[tzid]
	if !ok {
		c = readClock(z.described[tzid])
		z.clocks[tzid] = c
	}
	offset, ok := c.offset(t.Unix())
	_, want := t.In(z.plan).Zone()
	return ok && offset == want
}
