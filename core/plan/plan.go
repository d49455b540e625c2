// Package plan holds what a family's plan says, in the trade's words, and what
// makes one valid.
//
// A Plan is a plain value. It is made from a form (core/app) or from a link
// (core/link), and core/schedule turns it into dated duties and steps. Nothing in
// here knows a clock: where "today" matters it is an argument.
//
// What a plan never holds: a full name, a birth date, a record number, a
// diagnosis beyond the operation, the name of a medicine, a patient's phone
// number. So "diabetes, reflux or other times from the team" is one bit that says
// only: follow the team's own eating and drinking times.
package plan

import (
	"slices"

	"newel/core/wall"
)

// Unknown marks minutes that nobody has told yet.
const Unknown = -1

// MaxDrive and MaxParking bound what a form or a link may say, in minutes.
// A drive of more than twelve hours is taken for a slip of the finger.
const (
	MaxDrive   = 12 * 60
	MaxParking = 3 * 60
)

// Plan is one patient's plan, as one copy of it stands. What is needed to bring two
// copies together is beside it, in core/merge. The zero value is not valid; see Check.
type Plan struct {
	Number uint32 // random; tells plans on one device apart, identifies nobody

	Patient string // what the family calls the patient, a first name at most; may be empty

	Surgery   wall.Date
	Arrival   wall.Clock // at the hospital, in Zone; NoClock until the hospital has confirmed it
	Joint     Joint
	Operation Operation
	Stay      Stay
	Zone      string // IANA name of the hospital's time zone, such as America/Chicago

	Drive   int // minutes from the patient's home to the hospital, or Unknown
	Parking int // minutes to park and walk to the desk there, or Unknown

	Facts   Facts
	Program Program

	Helpers  []string            // first names, in the order in which they came
	About    []About             // what is known of each helper, by place in Helpers; as long as Helpers, or nil where nothing is known of anybody
	Cover    [len(BuiltIn)]uint8 // who has the duties that every plan has: 1 + place in Helpers, 0 nobody yet
	Shifts   []Shift             // who has single parts of staying with the patient, against Cover's; in ascending order, no twins
	Duties   []Duty              // the family's own, in the order in which they came
	Revision uint16              // how often a change moved a time of the plan’s own; part of the SEQUENCE in calendars

	Lines  []Line // of the lists, in the family's and the hospital's own words, in the order of ID
	Ticked []Tick // what is done, in ascending order, no twins
}

// Joint is the joint that is replaced.
type Joint uint8

// The joints.
const (
	Knee Joint = iota
	Hip
	jointEnd
)

// Operation is the kind of replacement.
type Operation uint8

// The operations: a first (primary) replacement, a revision of an earlier one,
// or both sides in one operation.
const (
	First Operation = iota
	Revision
	BothSides
	operationEnd
)

// Stay is how long the patient stays in the hospital.
type Stay uint8

// The stays. Undecided means that both must be planned for.
const (
	OneNight Stay = iota
	SameDay
	Undecided
	stayEnd
)

// MaxTicks bounds the ticks of a plan. A plan has some hundred steps; more come
// only from a link that was made to be a burden.
const MaxTicks = 1000

// Tick marks one step as done. Code is the step's lasting number, N tells
// repeats of one step apart (the third wash is 3); it is 0 for a step that
// comes once.
type Tick struct {
	Code uint16
	N    uint8
}

func (t Tick) key() int { return int(t.Code)<<8 | int(t.N) }

// Has tells whether a step is ticked.
func (p Plan) Has(t Tick) bool {
	_, found := slices.BinarySearchFunc(p.Ticked, t, compareTicks)
	return found
}

// WithTick returns the plan with t ticked, or no longer ticked. The plan it is
// called on keeps its own ticks. At MaxTicks nothing more is ticked.
func (p Plan) WithTick(t Tick, done bool) Plan {
	i, found := slices.BinarySearchFunc(p.Ticked, t, compareTicks)
	switch {
	case done && !found && len(p.Ticked) < MaxTicks:
		p.Ticked = slices.Insert(slices.Clone(p.Ticked), i, t)
	case !done && found:
		p.Ticked = slices.Delete(slices.Clone(p.Ticked), i, i+1)
	}
	return p
}

func compareTicks(a, b Tick) int { return a.key() - b.key() }

// SameFacts tells whether two plans say the same, ticks aside.
func (p Plan) SameFacts(q Plan) bool {
	return p.Number == q.Number && p.Patient == q.Patient &&
		p.Surgery == q.Surgery && p.Arrival == q.Arrival && p.Zone == q.Zone &&
		p.Joint == q.Joint && p.Operation == q.Operation && p.Stay == q.Stay &&
		p.Drive == q.Drive && p.Parking == q.Parking &&
		p.Facts == q.Facts && p.Program == q.Program &&
		p.Cover == q.Cover && p.Revision == q.Revision && slices.Equal(p.Helpers, q.Helpers) &&
		p.sameAbout(&q) && slices.Equal(p.Shifts, q.Shifts) && p.sameLines(&q) &&
		slices.EqualFunc(p.Duties, q.Duties, Duty.Equal)
}
