//go:build !near

package link

import (
	"encoding/binary"

	"newel/core/plan"
	"newel/core/wall"
)

// reader takes fields off the front of a link's bytes. After the first fault it
// is bad and gives zeros, so that the callers need no error at each field.
type reader struct {
	rest  []byte
	bad   bool
	newer bool // a fact or a rule is set that this page does not have yet
}

func (r *reader) take(n int) []byte {
	if r.bad || n < 0 || n > len(r.rest) {
		r.bad = true
		return make([]byte, min(max(n, 0), 8))
	}
	b := r.rest[:n]
	r.rest = r.rest[n:]
	return b
}

// number reads a varint of at most most.
func (r *reader) number(most uint64) uint64 {
	v, n := binary.Uvarint(r.rest)
	if r.bad || n <= 0 || v > most {
		r.bad = true
		return 0
	}
	r.rest = r.rest[n:]
	return v
}

// bits reads a set of bits. One that is not known here is a later page's.
func (r *reader) bits(known uint64) uint64 {
	v := r.number(1<<63 - 1)
	if v&^known != 0 {
		r.bad, r.newer = true, true
	}
	return v
}

// text reads a text. One that would not survive plan.Clean was not made here.
func (r *reader) text() string {
	s := string(r.take(int(r.number(4 * plan.MaxText))))
	if plan.Clean(s) != s {
		r.bad = true
	}
	return s
}

func (r *reader) plan() old {
	var p old
	p.Number = binary.BigEndian.Uint32(r.take(4))
	p.Surgery = wall.FirstDate + wall.Date(binary.BigEndian.Uint16(r.take(2)))
	p.Arrival = wall.Clock(binary.BigEndian.Uint16(r.take(2)))
	p.edition = uint32(r.number(1<<32 - 1))
	kind := r.take(1)[0]
	p.Joint, p.Operation, p.Stay = plan.Joint(kind&3), plan.Operation(kind>>2&3), plan.Stay(kind>>4)
	p.Facts = plan.Facts(r.bits(uint64(plan.AllFacts)))
	p.Drive = int(r.number(plan.MaxDrive+1)) - 1
	p.Parking = int(r.number(plan.MaxParking+1)) - 1
	p.Zone, p.Patient = r.text(), r.text()
	p.Program.Hospital, p.Program.Address, p.Program.Phone = r.text(), r.text(), r.text()
	r.rules(&p.Program)
	p.Ticked = r.ticks()
	return p
}

func (r *reader) rules(p *plan.Program) {
	set := r.bits(1<<len(plan.Rules) - 1)
	for i := range plan.Rules {
		if set&(1<<i) == 0 {
			continue
		}
		if !p.Set(plan.Rule(i), int(r.number(1<<15-1))) {
			r.bad = true
		}
	}
}

// ticks reads the ticked steps. Their number is bounded by what is left to read,
// so a link cannot ask for more memory than it has bytes.
func (r *reader) ticks() []plan.Tick {
	count := r.number(min(uint64(len(r.rest)), plan.MaxTicks))
	var ticks []plan.Tick
	last := -1
	for range count {
		last += 1 + int(r.number(1<<24-1))
		if last >= 1<<24 {
			r.bad = true
		}
		if r.bad {
			return nil
		}
		ticks = append(ticks, plan.Tick{Code: uint16(last >> 8), N: uint8(last)})
	}
	return ticks
}
