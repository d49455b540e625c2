package page

import (
	"slices"
	"strconv"
	"strings"
	"time"

	"newel/core/guide"
	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/wall"
)

// ClassSample is whose days the class sees: nobody's. It says what differs between patients
// that come to one class.
type ClassSample struct {
	Joint   plan.Joint
	SameDay bool
	NotYet  bool // the arrival time is not known yet
}

// The sample's own numbers; the page says each of them.
const (
	classArrival = 6 * 60
	classDrive   = 20
	classParking = 15
)

// ClassPlan is the sample as a plan: surgery on a Tuesday some weeks from today. Where nobody has said
// the zone it is UTC, in which every time of day stands as it was put in.
func ClassPlan(known *plan.Known, c ClassSample, today wall.Date) plan.Plan {
	p := plan.Plan{
		Surgery: today + 21 + (wall.Date(time.Tuesday)-wall.Date(today.Weekday())+7)%7, Arrival: classArrival, Joint: c.Joint,
		Zone: known.Zone, Drive: classDrive, Parking: classParking, Facts: known.Given, Program: known.Program, Lines: known.Lines,
	}
	if p.Zone == "" {
		p.Zone = "UTC"
	}
	if c.SameDay {
		p.Stay = plan.SameDay
	}
	if c.NotYet {
		p.Arrival = wall.NoClock
	}
	return p
}

// path is the place of one day of a sample: /desk/class/4/hip/same-day/not-yet.
func (c ClassSample) path(day int) string {
	path := "/desk/class/" + strconv.Itoa(day)
	if c.Joint == plan.Hip {
		path += "/hip"
	}
	if c.SameDay {
		path += "/same-day"
	}
	if c.NotYet {
		path += "/not-yet"
	}
	return path
}

// ReadClassPath reads what comes behind "/desk/class/". What it does not know is left out, and a
// day that is none is the first.
func ReadClassPath(rest string) (c ClassSample, day int) {
	for _, part := range strings.Split(rest, "/") {
		switch part {
		case "hip":
			c.Joint = plan.Hip
		case "same-day":
			c.SameDay = true
		case "not-yet":
			c.NotYet = true
		default:
			if n, err := strconv.ParseUint(part, 10, 8); err == nil {
				day = int(n)
			}
		}
	}
	return c, day
}

// Class is the page for the class itself: one day of a sample at a time, in large letters.
type Class struct {
	Voice    guide.Voice
	Fragment string
	Calls    Calls
	Path     string
	Lead     string
	Stops    []ClassStop // all days, as the rail on top has them
	At       int
	Title    string // how far the day is from surgery
	Sub      string // which day of the week that is for the sample; empty on the day of surgery
	Rows     []Row
	Daily    []string // what the patient does every day by then
	Before   string
	After    string // paths; empty: there is none
	Kinds    []ClassKind
}

// ClassStop is one day on the rail.
type ClassStop struct {
	Short, Long, Path string
	Here, Surgery     bool
}

// ClassKind is a choice of what the sample is.
type ClassKind struct {
	Title string
	All   []ClassWay
}

// ClassWay is one answer of it.
type ClassWay struct {
	Label, Path string
	Chosen      bool
}

// NewClass makes the view of one day. in.Schedule is that of ClassPlan.
func NewClass(in Input, c ClassSample, day int) Class {
	p := &in.Schedule.Plan
	// Seen from long before: nothing is past or overdue, and no day is called tomorrow.
	in.Now, _ = (p.Surgery - classBefore).At(in.Schedule.Loc, 12*60)
	m := newMaker(in)
	var v View
	m.fillDays(&v)
	anybody := *m.p
	anybody.Surgery = 0 // what to say on the phone names no day of a sample
	out := Class{Voice: m.v, Fragment: in.Fragment, Calls: NewCalls(m.v, &anybody, in.Fragment), Kinds: m.classKinds(c, day), At: min(day, len(v.Days)-1)}
	out.Path = c.path(out.At)
	for i, d := range v.Days {
		out.Stops = append(out.Stops, m.classStop(d, c.path(i), i == out.At))
	}
	here := v.Days[out.At]
	out.Title = out.Stops[out.At].Long
	if here.date != p.Surgery {
		out.Sub = m.v.Say("class.sample-day", arg("surgery", m.v.Weekday(p.Surgery)), arg("weekday", m.v.Weekday(here.date)))
	}
	out.Rows, out.Daily = classRows(here.Rows), m.everyDay(here.date)
	if out.At > 0 {
		out.Before = c.path(out.At - 1)
	}
	if out.At < len(v.Days)-1 {
		out.After = c.path(out.At + 1)
	}
	out.Lead = m.classLead(c)
	return out
}

// classBefore is from how many days before surgery the sample is seen: more than any rule of a
// program reaches back.
const classBefore = 150

// classOpen is on a day of how many rows, at most, how and why stand open: there is room for them.
const classOpen = 3

// everyDay are the titles of what is kept up day after day after surgery, as far as it has begun.
func (m *maker) everyDay(day wall.Date) []string {
	var all []string
	for _, s := range m.singleSteps() {
		if (s.Due == schedule.Daily || s.Due == schedule.Onward) && s.First >= m.p.Surgery && s.First <= day && (s.Due == schedule.Onward || s.Last >= day) {
			all = append(all, m.words(s).Title)
		}
	}
	return all
}

// classLead says what the sample is.
func (m *maker) classLead(c ClassSample) string {
	if c.NotYet {
		return m.v.Say("class.lead.not-yet", arg("drive", m.v.Minutes(classDrive)))
	}
	return m.v.Say("class.lead", arg("arrival", m.v.Clock(classArrival/60, classArrival%60)), arg("drive", m.v.Minutes(classDrive)))
}

func (m *maker) classStop(d Day, path string, here bool) ClassStop {
	n := int(d.date - m.p.Surgery)
	s := ClassStop{Path: path, Here: here, Surgery: n == 0, Short: strconv.Itoa(n)}
	switch {
	case n == 0:
		s.Short, s.Long = m.v.Say("class.surgery.short"), m.v.Say("class.surgery")
	case n < 0:
		s.Short, s.Long = "−"+strconv.Itoa(-n), m.v.Count("class.before", -n)
	default:
		s.Short, s.Long = "+"+strconv.Itoa(n), m.v.Count("class.after", n)
	}
	return s
}

// classRows are rows to be looked at, not to be done: without boxes, dates and counts.
func classRows(rows []Row) []Row {
	var all []Row
	for _, r := range rows {
		r.Tick, r.Due, r.Open, r.AskWho, r.Sum = nil, "", "", "", nil
		r.Facts = slices.DeleteFunc(slices.Clone(r.Facts), func(f Fact) bool { return f.key == "duty.lasts" }) // a date of the sample
		if r.Kind == "gathered" {
			r.Note = ""
		}
		all = append(all, r)
	}
	return all
}

// classKinds are what a class may want to see instead, each as the way to the same day of it.
func (m *maker) classKinds(c ClassSample, day int) []ClassKind {
	way := func(key string, other ClassSample) ClassWay {
		return ClassWay{Label: m.v.Say(key), Path: other.path(day), Chosen: other == c}
	}
	knee, hip, night, same, known, not := c, c, c, c, c, c
	knee.Joint, hip.Joint = plan.Knee, plan.Hip
	night.SameDay, same.SameDay = false, true
	known.NotYet, not.NotYet = false, true
	return []ClassKind{
		{m.v.Say("form.joint"), []ClassWay{way("form.joint.knee", knee), way("form.joint.hip", hip)}},
		{m.v.Say("form.stay"), []ClassWay{way("form.stay.one-night", night), way("form.stay.same-day", same)}},
		{m.v.Say("form.arrival"), []ClassWay{way("class.arrival.known", known), way("class.arrival.not-yet", not)}},
	}
}

// ClassPage makes the page.
func ClassPage(c *Class) string { return classPage(c) }
