//go:build !near

package link

import (
	"encoding/binary"
	"time"

	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/wall"
)

// The family's part, after the ticks:
//
//	helpers: their number, then each name
//	who has the duties that every plan has, one number each
//	revision of the plan's times
//	duties: their number, then each: number as a step from the one before, revision,
//	kind, flags (1 does not wait, 2 dropped), who, source, title, place, note, length; own
//	way, drive + 1, parking + 1, early; the rule
//
// A rule: first day from 1 January 2000, time, kind, every; then weekdays and week,
// or days of the month, or weekdays of the month; how it ends (0 not, 1 count, 2 last
// day) and that; skipped, moved and extra dates, each with their number. Numbers that
// may be negative are zigzag varints.

// versionOf is the lowest version that can hold a plan, so that older pages open what
// they can.
func versionOf(p *plan.Plan) byte {
	if len(p.Helpers) == 0 && p.Cover == [len(p.Cover)]uint8{} && len(p.Duties) == 0 && p.Revision == 0 {
		return 1
	}
	return lastOld
}

type writer struct{ b []byte }

func (w *writer) number(n int)             { w.b = binary.AppendUvarint(w.b, uint64(n)) }
func (w *writer) signed(n int)             { w.b = binary.AppendVarint(w.b, int64(n)) }
func (w *writer) text(s string)            { w.number(len(s)); w.b = append(w.b, s...) }
func (w *writer) day(d wall.Date)          { w.number(int(d - wall.FirstDate)) }
func (w *writer) at(c wall.Clock)          { w.number(int(c)) }
func (w *writer) since(d, first wall.Date) { w.signed(int(d - first)) }

func appendFamily(b []byte, p *plan.Plan) []byte {
	w := &writer{b}
	w.number(len(p.Helpers))
	for _, name := range p.Helpers {
		w.text(name)
	}
	for _, who := range p.Cover {
		w.number(int(who))
	}
	w.number(int(p.Revision))
	w.number(len(p.Duties))
	var last uint32
	for i := range p.Duties {
		d := &p.Duties[i]
		w.number(int(d.ID - last))
		last = d.ID
		w.duty(d)
	}
	return w.b
}

// The flags of a duty.
const (
	flagLeaves = 1 << iota
	flagDropped
	flagEnd
)

func (w *writer) duty(d *plan.Duty) {
	flags := 0
	if d.Ride.Leaves {
		flags |= flagLeaves
	}
	if d.Dropped {
		flags |= flagDropped
	}
	for _, n := range []int{int(d.Revision), int(d.Kind), flags, int(d.Who)} {
		w.number(n)
	}
	w.number(int(d.Source))
	w.text(d.Title)
	w.text(d.Place)
	w.text(d.Note)
	for _, n := range []int{d.Length, d.Ride.Own, d.Ride.Drive + 1, d.Ride.Parking + 1, d.Ride.Early} {
		w.number(n)
	}
	w.rule(&d.Rule)
}

func (w *writer) rule(r *repeat.Rule) {
	w.day(r.First)
	w.at(r.At)
	w.number(int(r.Freq))
	w.number(r.Every)
	switch r.Freq {
	case repeat.Weekly:
		w.number(int(r.Days))
		w.number(int(r.Week))
	case repeat.Monthly:
		w.number(len(r.MonthDays))
		for _, d := range r.MonthDays {
			w.signed(int(d))
		}
		w.number(len(r.Nth))
		for _, n := range r.Nth {
			w.signed(int(n.N))
			w.number(int(n.Day))
		}
	}
	switch {
	case r.Count > 0:
		w.number(endCount)
		w.number(r.Count)
	case r.Last != 0:
		w.number(endLast)
		w.number(int(r.Last - r.First))
	default:
		w.number(endNone)
	}
	w.exceptions(r)
}

func (w *writer) exceptions(r *repeat.Rule) {
	w.number(len(r.Skipped))
	for _, d := range r.Skipped {
		w.since(d, r.First)
	}
	w.number(len(r.Moved))
	for _, m := range r.Moved {
		w.since(m.From, r.First)
		w.since(m.To.Day, r.First)
		w.at(m.To.At)
	}
	w.number(len(r.Extra))
	for _, m := range r.Extra {
		w.since(m.Day, r.First)
		w.at(m.At)
	}
}

// small reads a number of at most most.
func (r *reader) small(most int) int { return int(r.number(uint64(most))) }

// signed reads a zigzag number no further from zero than most.
func (r *reader) signed(most int64) int {
	v, n := binary.Varint(r.rest)
	if r.bad || n <= 0 || v > most || v < -most {
		r.bad = true
		return 0
	}
	r.rest = r.rest[n:]
	return int(v)
}

// length reads how many things follow. Each takes a byte at least, so a link cannot
// ask for more memory than it has bytes.
func (r *reader) length(most int) int { return r.small(min(most, len(r.rest))) }

func (r *reader) family(p *plan.Plan) {
	for range r.length(plan.MaxHelpers) {
		p.Helpers = append(p.Helpers, r.text())
	}
	for i := range p.Cover {
		p.Cover[i] = uint8(r.small(plan.MaxHelpers))
	}
	p.Revision = uint16(r.small(1<<16 - 1))
	id := 0
	for range r.length(plan.MaxDuties) {
		id += r.small(1<<16 - 1)
		if id > 1<<16-1 {
			r.bad = true
		}
		if r.bad {
			return
		}
		p.Duties = append(p.Duties, r.duty(uint32(id)))
	}
}

func (r *reader) duty(id uint32) plan.Duty {
	d := plan.Duty{ID: id, Revision: uint16(r.small(1<<16 - 1)), Kind: plan.DutyKind(r.known(int(plan.DutyKindEnd) - 1))}
	flags := r.bits(flagEnd - 1)
	d.Who = uint8(r.small(plan.MaxHelpers))
	d.Source = uint32(r.number(1<<32 - 1))
	d.Title, d.Place, d.Note = r.text(), r.text(), r.text()
	d.Length = r.small(plan.MaxLength)
	d.Ride = plan.Ride{
		Own: r.small(plan.MaxDrive), Drive: r.small(plan.MaxDrive+1) - 1, Parking: r.small(plan.MaxParking+1) - 1,
		Early: r.small(plan.MaxEarly), Leaves: flags&flagLeaves != 0,
	}
	d.Dropped = flags&flagDropped != 0
	d.Rule = r.rule()
	return d
}

// known reads a choice. One beyond the last is a later page's.
func (r *reader) known(last int) int {
	n := r.small(1 << 10)
	if n > last {
		r.bad, r.newer = true, true
	}
	return n
}

func (r *reader) rule() repeat.Rule {
	rule := repeat.Rule{
		First: wall.FirstDate + wall.Date(r.small(int(wall.LastDate-wall.FirstDate))), At: wall.Clock(r.small(1440)),
		Freq: repeat.Freq(r.known(int(repeat.Monthly))), Every: r.small(repeat.MaxEvery),
	}
	switch rule.Freq {
	case repeat.Weekly:
		rule.Days, rule.Week = repeat.Days(r.small(int(repeat.AllDays))), time.Weekday(r.small(6))
	case repeat.Monthly:
		for range r.length(62) {
			rule.MonthDays = append(rule.MonthDays, int8(r.signed(31)))
		}
		for range r.length(77) {
			rule.Nth = append(rule.Nth, repeat.Nth{N: int8(r.signed(5)), Day: time.Weekday(r.small(6))})
		}
	}
	switch r.known(endEnd - 1) {
	case endCount:
		rule.Count = r.small(repeat.MaxCount)
	case endLast:
		rule.Last = rule.First + wall.Date(r.small(repeat.MaxSpan))
	}
	r.exceptions(&rule)
	return rule
}

// since reads a day by its distance from a rule's first.
func (r *reader) since(first wall.Date) wall.Date {
	return first + wall.Date(r.signed(3*repeat.MaxSpan))
}

func (r *reader) moment(first wall.Date) repeat.Moment {
	return repeat.Moment{Day: r.since(first), At: wall.Clock(r.small(1440))}
}

func (r *reader) exceptions(rule *repeat.Rule) {
	for range r.length(repeat.MaxList) {
		rule.Skipped = append(rule.Skipped, r.since(rule.First))
	}
	for range r.length(repeat.MaxList) {
		rule.Moved = append(rule.Moved, repeat.Move{From: r.since(rule.First), To: r.moment(rule.First)})
	}
	for range r.length(repeat.MaxList) {
		rule.Extra = append(rule.Extra, r.moment(rule.First))
	}
}
