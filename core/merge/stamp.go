package merge

import "cmp"

// Actor is a device that changes a plan: 0 is the one on which the plan was made, every
// other takes a number by chance, from FirstActor to LastActor.
type Actor uint32

// The numbers that devices may have. A duty's number holds its device's
// (plan.NthBits), and below FirstActor these would be duties of links of version 2.
const (
	Maker      Actor = 0
	FirstActor Actor = 64
	LastActor  Actor = 1<<22 - 1
)

// known tells whether a device may have that number.
func (a Actor) known() bool { return a == Maker || a >= FirstActor && a <= LastActor }

// Stamp names one act of changing on one device. All that was changed in one act, such as
// sending one form, has the same stamp; the next act has the next N. The zero Stamp is
// nobody's.
type Stamp struct {
	Actor Actor
	N     uint32 // from 1
}

// LastN is the greatest N. A device that has used it up takes another number.
const LastN = 1<<24 - 1

// Compare orders stamps by device, then by N.
func (s Stamp) Compare(t Stamp) int {
	if s.Actor != t.Actor {
		return cmp.Compare(s.Actor, t.Actor)
	}
	return cmp.Compare(s.N, t.N)
}

// Version is a value with the act that wrote it.
type Version struct {
	Stamp
	Value string
}

// Compare orders versions by stamp, then by value. Two with one stamp and different
// values come from a device number that was used twice.
func (v Version) Compare(w Version) int {
	if c := v.Stamp.Compare(w.Stamp); c != 0 {
		return c
	}
	return cmp.Compare(v.Value, w.Value)
}
