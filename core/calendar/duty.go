package calendar

import (
	"slices"
	"strconv"
	"strings"
	"time"

	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/wall"
)

// X-NEWEL-DUTY is a TEXT of lines "name value", in the order below. It holds the whole
// duty, because an event cannot say that a rule has no end, that leave-by is 55 minutes
// before an appointment, or that a date is elsewhere only because of the clocks or of whose
// it is: the line "leads" has how far such dates are from their start. The
// line "is" has the fingerprint of the event's timing: while it fits, the duty is taken
// as it stands here; if somebody moved the event in their calendar, the times are
// taken from the event, and from here only how far the appointment is from its start.
//
// Who has the duty is not in it: helpers have no lasting number, and whoever takes a file
// in says themselves who has what. The line "share" marks the part of one helper of a duty
// that several share (share.go); the rest of the text is the whole duty's there too.
//
// Everything read is bounded and checked as if it came from a stranger.

// The parts of a duty that are events of their own. A duty's main event has "".
const (
	partBack = "back" // fetching the patient, where the helper goes home in between
	partDate = "date" // a single date that its series cannot say
)

// noted is what X-NEWEL-DUTY holds.
type noted struct {
	duty  plan.Duty
	part  string
	share string
	lead  int            // minutes from the event's start to the duty's own time
	leads map[string]int // the same of dates that have another one, by leadKey
	is    string         // fingerprint of the event's timing
}

// writeDuty writes the property's text, before escaping.
func writeDuty(e *event) string {
	d := e.duty
	var b strings.Builder
	line := func(name string, values ...string) {
		if text := strings.Join(values, " "); text != "" {
			b.WriteString(name + " " + text + "\n")
		}
	}
	line("id", strconv.FormatUint(uint64(d.ID), 10), strconv.Itoa(int(d.Revision)))
	line("part", e.part)
	line("share", e.share)
	line("kind", plan.DutyKeys[d.Kind])
	line("minutes", strconv.Itoa(d.Length))
	if d.Source != 0 {
		line("from", strconv.FormatUint(uint64(d.Source), 10))
	}
	r := d.Ride
	line("ride", strconv.Itoa(r.Own), strconv.Itoa(r.Drive), strconv.Itoa(r.Parking), strconv.Itoa(r.Early))
	if r.Leaves {
		line("leaves", "1")
	}
	if e.part != partBack {
		line("lead", strconv.Itoa(e.lead))
	}
	if e.part == "" {
		line("leads", e.leads...)
		line("is", e.timing().print())
		writeRule(line, d.Rule)
	}
	line("title", plan.Clean(d.Title))
	line("place", plan.Clean(d.Place))
	line("note", plan.Clean(d.Note))
	return strings.TrimSuffix(b.String(), "\n")
}

// writeRule writes the rule with the dates that differ. What RECUR writes as UNTIL is
// in UTC, so that is the zone it is read in again.
func writeRule(line func(string, ...string), r repeat.Rule) {
	line("first", r.First.String()+"T"+r.At.String())
	line("recur", r.Recur(time.UTC))
	var skipped, moved, extra []string
	for _, d := range r.Skipped {
		skipped = append(skipped, d.String())
	}
	for _, m := range r.Moved {
		moved = append(moved, m.From.String()+">"+m.To.Day.String()+"T"+m.To.At.String())
	}
	for _, m := range r.Extra {
		extra = append(extra, m.Day.String()+"T"+m.At.String())
	}
	line("not", skipped...)
	line("moved", moved...)
	line("also", extra...)
}

// readDuty reads the property's text. ok is false where anything does not fit.
func readDuty(text string) (n noted, ok bool) {
	fields := map[string]string{}
	for line := range strings.SplitSeq(text, "\n") {
		name, value, _ := strings.Cut(line, " ")
		fields[name] = value
	}
	bad := false
	numbers := func(name string, low, high int, into ...*int) {
		parts := strings.Fields(fields[name])
		bad = bad || len(parts) != len(into)
		for i := range min(len(parts), len(into)) {
			v, err := strconv.Atoi(parts[i])
			bad = bad || err != nil || v < low || v > high
			*into[i] = v
		}
	}
	d := &n.duty
	var id, revision int
	numbers("id", 0, 1<<32-1, &id, &revision)
	numbers("minutes", 0, plan.MaxLength, &d.Length)
	numbers("ride", plan.Unknown, plan.MaxDrive, &d.Ride.Own, &d.Ride.Drive, &d.Ride.Parking, &d.Ride.Early)
	d.ID, d.Revision = uint32(id), uint16(revision)
	bad = bad || revision > 1<<16-1
	kind := slices.Index(plan.DutyKeys[:], fields["kind"])
	bad = bad || kind < 0
	d.Kind = plan.DutyKind(max(0, kind))
	d.Ride.Leaves = fields["leaves"] != ""
	if from := fields["from"]; from != "" {
		n, err := strconv.ParseUint(from, 10, 32)
		bad = bad || err != nil
		d.Source = uint32(n)
	}
	d.Title, d.Place, d.Note = name40(fields["title"]), text120(fields["place"]), text120(fields["note"])
	n.part, n.share, n.is = fields["part"], fields["share"], fields["is"]
	r := d.Ride
	bad = bad || d.ID == 0 || r.Own < 0 || r.Early < 0 || r.Early > plan.MaxEarly || r.Parking > plan.MaxParking
	if n.part == "" {
		numbers("lead", -2*24*60, 2*24*60, &n.lead)
		bad = bad || !readRule(fields, &d.Rule) || !n.readLeads(fields["leads"])
	} else if fields["lead"] != "" {
		numbers("lead", -2*24*60, 2*24*60, &n.lead)
	}
	return n, !bad
}

// readLeads reads which dates begin at another time before the duty's own.
func (n *noted) readLeads(text string) bool {
	n.leads = map[string]int{}
	for _, one := range strings.Fields(text) {
		key, value, _ := strings.Cut(one, "=")
		lead, err := strconv.Atoi(value)
		_, errDay := wall.ParseDate(strings.TrimSuffix(key, "+"))
		if err != nil || errDay != nil || lead < -2*24*60 || lead > 2*24*60 || len(n.leads) > repeat.MaxCount {
			return false
		}
		n.leads[key] = lead
	}
	return true
}

func readRule(fields map[string]string, r *repeat.Rule) bool {
	first, ok := readMoment(fields["first"])
	*r = repeat.Rule{First: first.Day, At: first.At, Every: 1}
	if recur := fields["recur"]; recur != "" && ok {
		var err error
		*r, err = repeat.Parse(recur, first, time.UTC)
		ok = err == nil && r.First == first.Day
	}
	for _, s := range strings.Fields(fields["not"]) {
		d, err := wall.ParseDate(s)
		ok = ok && err == nil
		r.Skipped = append(r.Skipped, d)
	}
	for _, s := range strings.Fields(fields["moved"]) {
		from, to, _ := strings.Cut(s, ">")
		d, err := wall.ParseDate(from)
		m, fits := readMoment(to)
		ok = ok && fits && err == nil
		r.Moved = append(r.Moved, repeat.Move{From: d, To: m})
	}
	for _, s := range strings.Fields(fields["also"]) {
		m, fits := readMoment(s)
		ok = ok && fits
		r.Extra = append(r.Extra, m)
	}
	return ok && r.Check() == nil
}

func readMoment(s string) (m repeat.Moment, ok bool) {
	day, clock, _ := strings.Cut(s, "T")
	d, err := wall.ParseDate(day)
	c, errClock := wall.ParseClock(clock)
	return repeat.Moment{Day: d, At: c}, err == nil && errClock == nil && c < 24*60
}

// name40 and text120 clean a text and cut it to what a plan may hold.
func name40(s string) string  { return cut(plan.Clean(s), plan.MaxName) }
func text120(s string) string { return cut(plan.Clean(s), plan.MaxText) }
