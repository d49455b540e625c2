// Package merge holds a plan as a document whose copies can be changed apart from each
// other and brought together again, in any order and any number of times.
//
// A document (Doc) is a map of registers. Each register is one thing that one person
// changes at a time: the arrival, who has Tuesday, the date on the 6th. A value in a
// register carries the Stamp of the act that wrote it, and the document knows for each
// device the last act that is in it (Seen). Two calls are what most callers need:
// Doc.Change writes what a form changed, and Join brings in a link.
//
// It is the causal, state-based way of P. S. Almeida, A. Shoker and C. Baquero, "Delta
// state replicated data types", J. Parallel Distrib. Comput. 111 (2018) 162–173: each
// register is their multi-value register (mvreg), the document their map, joined as
// DotFun over one causal context. A link always carries the whole state, so that nothing
// ever arrives in pieces: the context is a plain version vector, and no cloud of single
// dots is needed. Where both copies have a value it stays. Where one has it and the other
// does not, it stays if the other has not seen its act, and goes if it has: then somebody
// replaced it or took it away. So a change is replaced only by someone who saw it.
//
// What two people wrote apart from each other to the same register is kept both, until
// somebody settles it (Doc.Questions, Doc.Settle). Meanwhile one of them is shown:
//   - of two surgery days or arrival times the earlier, since being ready too early does
//     less harm than being late, but no arrival time that was written with the other day, and
//     of a hospital's numbers that can hurt the careful one, such as the lower fever to call
//     about (Key.rank says which);
//   - else the one with the greatest stamp. That is no judgement, only the same on every phone.
//
// Removing and changing at once: the change survives. A duty that one took out while
// another changed it stays in the plan and is asked about (field Gone).
//
// What this does not protect from:
//   - Whoever has the link can change everything, and take everything out. There are no rights.
//   - Two devices that use one number. Numbers are drawn by chance from four million, and
//     a device that finds its own number further on in a link than in its own copy
//     (Doc.Last) was doubled and takes another; so does one that sees equally many acts and
//     other things (Doubled), and Both loses nothing then. But until one of these is noticed
//     each of the two takes the other's acts for seen. What both copies have and no act ever takes away (the surgery
//     day, a duty's pattern, every duty as a whole) is kept both and asked about, and so are the
//     arrival, the number to call and the hospital's rules (Key.pressing). Anything
//     else that only one of the two wrote is taken for removed: such copies cannot be told
//     from those where two people each took away what they saw of two values. A link that was made to claim
//     acts which nobody made (its seen is further on than anybody is) does the same, on purpose. Join stays
//     commutative and idempotent then, and joining a link again changes nothing; it is not
//     always associative. So it can depend on who met whom first which value is shown,
//     and how many are asked about, but copies that go on exchanging links end up the same.
//   - A copy that is changed without being joined first with what the same device did
//     before: that is one number used twice. Join with the device's own copy, then change.
//   - Links of versions 1 and 2 had no stamps (FromOld): of two such links the higher
//     edition counts; with equal editions, what only one of them has is lost. But a duty
//     that only one of them has stays, since no page ever takes one away wholly.
//   - What only goes wrong together, such as a range whose two ends were changed by two
//     people, or more dates than a plan may have. core/plan's Check finds it, the page asks.
package merge

import (
	"errors"
	"slices"
	"sync/atomic"

	"newel/core/plan"
)

// Doc is a plan that can be joined with its other copies. Docs are values that nobody
// changes: every change gives a new one.
type Doc struct {
	Number uint32 // the plan's (plan.Plan.Number); only copies of one plan can be joined
	seen   map[Actor]uint32
	regs   map[Key][]Version         // ascending by stamp, then value; never empty
	sorted []Key                     // their keys in order; nil while that is not known. Other documents may have the same slice
	shown  atomic.Pointer[plan.Plan] // once somebody asked, see Shown
}

// ErrOther says that two documents are not copies of one plan.
var ErrOther = errors.New("these are two different plans; each is kept by itself")

// NewDoc is for whoever reads a document from a link: it makes an empty one, fills it
// (SetSeen, Set), and has it checked (Check). An empty one joined to any other changes nothing.
func NewDoc(number uint32) *Doc {
	return &Doc{Number: number, seen: map[Actor]uint32{}, regs: map[Key][]Version{}}
}

// NewDocFor is NewDoc with room for about so many registers.
func NewDocFor(number uint32, registers int) *Doc {
	d := NewDoc(number)
	d.regs = make(map[Key][]Version, min(registers, MaxRegisters))
	return d
}

// Size is how many registers the document has.
func (d *Doc) Size() int { return len(d.regs) }

// SetSeen says that a device's acts up to s.N are in a document that is being read.
func (d *Doc) SetSeen(s Stamp) { d.seen[s.Actor] = s.N }

// Set gives a register of a document that is being read its versions, ascending by stamp
// and then value; none takes it away.
func (d *Doc) Set(k Key, versions []Version) {
	d.sorted = nil
	d.shown.Store(nil)
	if len(versions) == 0 {
		delete(d.regs, k)
		return
	}
	d.regs[k] = versions
}

// Seen gives the acts that are in the document: for each device the last, ascending.
func (d *Doc) Seen() []Stamp {
	all := make([]Stamp, 0, len(d.seen))
	for a, n := range d.seen {
		all = append(all, Stamp{a, n})
	}
	slices.SortFunc(all, Stamp.Compare)
	return all
}

// Last is the last act of a device that is in the document; 0: none.
func (d *Doc) Last(a Actor) uint32 { return d.seen[a] }

// Keys lists the registers in order (Key.Compare). The slice is the caller's own.
func (d *Doc) Keys() []Key { return slices.Clone(d.order()) }

// finished says that a document is written. One answer asks a dozen times for its registers
// in order, and to sort them is most of what that takes.
func (d *Doc) finished() *Doc {
	if d.sorted == nil {
		d.sorted = d.order()
	}
	return d
}

// order is Keys for reading only.
func (d *Doc) order() []Key {
	if d.sorted != nil {
		return d.sorted
	}
	all := make([]Key, 0, len(d.regs))
	for k := range d.regs {
		all = append(all, k)
	}
	slices.SortFunc(all, Key.Compare)
	return all
}

// Get gives the versions of a register, ascending by stamp, then value. They are the
// document's own: do not change them.
func (d *Doc) Get(k Key) []Version { return d.regs[k] }

// Equal tells whether two documents are the same: the same plan, the same acts seen, the
// same versions.
func (d *Doc) Equal(e *Doc) bool {
	if d == e {
		return true
	}
	if d.Number != e.Number || len(d.seen) != len(e.seen) || len(d.regs) != len(e.regs) {
		return false
	}
	for a, n := range d.seen {
		if m, ok := e.seen[a]; !ok || m != n {
			return false
		}
	}
	for k, versions := range d.regs {
		if !slices.Equal(versions, e.regs[k]) {
			return false
		}
	}
	return true
}
