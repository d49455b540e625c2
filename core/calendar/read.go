package calendar

import (
	"slices"
	"strconv"
	"strings"
	"time"

	ical "github.com/emersion/go-ical"

	"newel/core/plan"
)

// Left is something in a file that is not taken over, or not as it stands.
type Left struct {
	What  string // what its calendar calls it; "" if nothing
	Why   string // a code below, or that of a repeat.Fault; its sentence is import.CODE
	Value string // which part is meant: a date as 2027-04-05, a rule, a zone's name; may be ""
}

// The codes of what is left. Those of the last group go with a duty that is taken over.
const (
	LeftTodo      = "todo" // VTODO, VJOURNAL, VFREEBUSY and unknown components
	LeftJournal   = "journal"
	LeftFreeBusy  = "free-busy"
	LeftOther     = "other"
	LeftAllDay    = "all-day"
	LeftNoStart   = "no-start"
	LeftZone      = "zone"         // a TZID that nobody knows
	LeftZoneDiff  = "zone-differs" // a TZID of its own, whose clocks are not the plan's
	LeftOtherZone = "other-zone"   // a rule of another zone that is no rule here
	LeftLong      = "long"
	LeftRules     = "several-rules"
	LeftExRule    = "ex-rule"
	LeftPart      = "part-of-series"
	LeftShared    = "shared" // one helper's part of a duty, moved or taken out in their calendar
	LeftCancelled = "cancelled"
	LeftOlder     = "older"
	LeftMidnight  = "over-midnight"
	LeftSecond    = "second-hour" // in the second of two equal hours of the plan's clock

	LeftNoLength   = "no-length"
	LeftNote       = "long-note"
	LeftWords      = "other-words"
	LeftPattern    = "off-pattern"
	LeftSkip       = "skip-unmatched"
	LeftMove       = "move-unmatched"
	LeftRange      = "range"
	LeftDate       = "bad-date"
	LeftLength     = "other-length"
	LeftMoveDay    = "move-all-day"
	LeftSecondDate = "second-date"
)

// Partly tells whether what is left goes with a duty that is taken over: something to
// look at, not something that is missing.
func (l Left) Partly() bool {
	switch l.Why {
	case LeftNoLength, LeftNote, LeftWords, LeftPattern, LeftSkip, LeftMove, LeftRange, LeftDate, LeftLength, LeftMoveDay, LeftSecondDate:
		return true
	}
	return false
}

// Found is what a file says. A duty with an ID is one of the plan's own, dropped if the
// file cancels it; one with ID 0 is new. Own counts the events that the plan makes by
// itself.
type Found struct {
	Duties []plan.Duty
	Own    int
	Others int // events that another plan made by itself
	Left   []Left
}

// Read reads a calendar file into duties of a plan. loc is the plan's zone, in which
// times without one are read. Errors: Fault.
func Read(text string, p *plan.Plan, loc *time.Location) (Found, error) {
	calendars, err := decode(text)
	if err != nil {
		return Found{}, err
	}
	r := &reader{plan: p, loc: loc, zones: newZones(loc, calendars), own: ownEvents(p), singles: map[uint32][]alone{}, taken: map[uint32]bool{}, had: map[uint32]bool{}}
	groups := r.gather(calendars)
	r.mine = slices.ContainsFunc(groups, func(g *group) bool { return r.own[g.uid] != nil })
	ours := make([]known, len(groups))
	for i, g := range groups {
		ours[i] = r.recognise(g)
		r.noteSingle(g, ours[i])
	}
	for _, parts := range []bool{false, true} { // the whole duties first: they say more
		for i, g := range groups {
			if (ours[i].share != "") == parts {
				r.group(g, ours[i])
			}
		}
	}
	return r.found, nil
}

// alone is the start of a date that stands alone, and how far the duty's own time is from it.
type alone struct {
	t    time.Time
	lead int
}

type reader struct {
	taken   map[uint32]bool // the plan's duties that an entry of the file is already
	had     map[uint32]bool // the plan's duties that the file has had
	parts   map[string]part // see partOf; nil until needed
	mine    bool            // some entry is of this plan, so what it no longer has was its own
	plan    *plan.Plan
	loc     *time.Location
	zones   *zones
	own     map[string]*event  // by UID: what Write would write for the plan
	singles map[uint32][]alone // starts of dates that stand alone, by duty
	found   Found
}

func (r *reader) left(what, why, value string) {
	r.found.Left = append(r.found.Left, Left{what, why, cut(tidy(value), plan.MaxText)})
}

// group is an event with its moved dates: all that has one UID.
type group struct {
	uid  string
	main *ical.Component
	rest []*ical.Component // with RECURRENCE-ID, in the order of the file
}

// gather puts together what has one UID. Of two that are the same event, or the same
// date of it, the higher SEQUENCE counts, then the later DTSTAMP (RFC 5546 2.1.5), then
// the later in the file.
func (r *reader) gather(calendars []*ical.Calendar) []*group {
	var all []*group
	byUID := map[string]*group{}
	for _, cal := range calendars {
		for _, c := range cal.Children {
			if c.Name != ical.CompEvent {
				r.leftComponent(c)
				continue
			}
			if strings.EqualFold(value1(cal.Component, ical.PropMethod), "CANCEL") {
				c.Props.Set(&ical.Prop{Name: ical.PropStatus, Value: "CANCELLED"})
			}
			id := value1(c, ical.PropUID)
			g := byUID[id]
			if g == nil {
				g = &group{uid: id}
				all = append(all, g)
			}
			if id != "" {
				byUID[id] = g
			}
			g.add(c)
		}
	}
	return all
}

func (g *group) add(c *ical.Component) {
	of := value1(c, ical.PropRecurrenceID)
	if of == "" {
		if g.main == nil || !newer(g.main, c) {
			g.main = c
		}
		return
	}
	for i, other := range g.rest {
		if value1(other, ical.PropRecurrenceID) == of {
			if !newer(other, c) {
				g.rest[i] = c
			}
			return
		}
	}
	g.rest = append(g.rest, c)
}

// newer tells whether a is a later version than b.
func newer(a, b *ical.Component) bool {
	if m, n := sequence(a), sequence(b); m != n {
		return m > n
	}
	s, okS := single(a, ical.PropDateTimeStamp)
	t, okT := single(b, ical.PropDateTimeStamp)
	return okS && okT && s.wall.After(t.wall)
}

func sequence(c *ical.Component) uint64 {
	n, _ := strconv.ParseUint(value1(c, ical.PropSequence), 10, 31)
	return n
}

func (r *reader) leftComponent(c *ical.Component) {
	why, known := map[string]string{
		ical.CompTimezone: "", ical.CompToDo: LeftTodo, ical.CompJournal: LeftJournal, ical.CompFreeBusy: LeftFreeBusy,
	}[c.Name]
	if !known {
		why = LeftOther
	}
	if why != "" {
		r.left(title(c), why, "")
	}
}

// value1 is a property's value, or "".
func value1(c *ical.Component, name string) string {
	if p := c.Props.Get(name); p != nil {
		return strings.TrimSpace(p.Value)
	}
	return ""
}

// single reads the time of a property, as it stands.
func single(c *ical.Component, name string) (value, bool) { return readValue(value1(c, name)) }

func title(c *ical.Component) string    { return name40(unescape(value1(c, ical.PropSummary))) }
func location(c *ical.Component) string { return text120(unescape(value1(c, ical.PropLocation))) }
func note(c *ical.Component) string     { return text120(unescape(value1(c, ical.PropDescription))) }
func cancelled(c *ical.Component) bool {
	return strings.EqualFold(value1(c, ical.PropStatus), "CANCELLED")
}
