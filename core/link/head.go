package link

import (
	"newel/core/plan"
	"newel/core/wall"
)

// Head is what the first nine bytes of a link say. Later versions keep this form, so that
// a page can show the day of a link that it cannot read.
type Head struct {
	Version   int // 3 to 31; 0 for an older link, whose head is another
	Number    uint32
	Surgery   wall.Date
	Arrival   wall.Clock // NoClock while not known
	Stay      plan.Stay
	Joint     plan.Joint
	Operation plan.Operation
	Locked    bool // nothing else is known then
	Part      bool // a read-only link for one helper
	stamped   bool // the body has stamps
}

const (
	headBytes    = 9
	version      = 3
	lastHeaded   = 31
	lockedSextet = 32
	noArrival    = 1<<11 - 1
)

// MaxLength bounds the fragment that is looked at, in characters.
const MaxLength = 16384

// bitsOf writes and reads numbers of a few bits, the highest first.
type bitsOf struct {
	data []byte
	at   int
}

func (b *bitsOf) put(v uint32, n int) {
	for i := n - 1; i >= 0; i-- {
		b.data[b.at/8] |= byte(v>>i&1) << (7 - b.at%8)
		b.at++
	}
}

func (b *bitsOf) take(n int) (v uint32) {
	for range n {
		v = v<<1 | uint32(b.data[b.at/8]>>(7-b.at%8)&1)
		b.at++
	}
	return v
}

func one(b bool) uint32 {
	if b {
		return 1
	}
	return 0
}

// bytes writes the head.
func (h *Head) bytes() []byte {
	arrival := uint32(noArrival)
	if h.Arrival.Known() {
		arrival = uint32(h.Arrival)
	}
	b := bitsOf{data: make([]byte, headBytes, 64)}
	b.put(version, 6)
	b.put(h.Number, 32)
	b.put(uint32(h.Surgery-wall.FirstDate), 16)
	b.put(arrival, 11)
	b.put(uint32(h.Stay), 2)
	b.put(uint32(h.Joint), 1)
	b.put(uint32(h.Operation), 2)
	b.put(one(h.stamped), 1)
	b.put(one(h.Part), 1)
	return b.data
}

func readHead(data []byte) (h Head, ok bool) {
	b := bitsOf{data: data}
	h.Version = int(b.take(6))
	h.Number = b.take(32)
	h.Surgery = wall.FirstDate + wall.Date(b.take(16))
	h.Arrival = wall.Clock(b.take(11))
	h.Stay, h.Joint, h.Operation = plan.Stay(b.take(2)), plan.Joint(b.take(1)), plan.Operation(b.take(2))
	h.stamped, h.Part = b.take(1) == 1, b.take(1) == 1
	if h.Arrival == noArrival {
		h.Arrival = wall.NoClock
	}
	return h, h.Surgery <= wall.LastDate && h.Arrival < 24*60 && h.Stay <= plan.Undecided && h.Operation <= plan.BothSides
}

// ReadHead reads the head of a link of this or of a later version, after its checksum. Of
// an older link it says only that, and so of a locked one. Errors: ErrDamaged; ErrNewer,
// with the head.
func ReadHead(fragment string) (Head, error) {
	whole, ok := bytesOf(fragment)
	if !ok {
		return Head{}, ErrDamaged
	}
	h, _, err := open(whole)
	return h, err
}

// IsOld tells whether a fragment is one of versions 1 and 2, whole or not.
func IsOld(fragment string) bool {
	whole, ok := bytesOf(fragment)
	return ok && whole[0]>>2 == 0
}

// open splits a link's bytes into head and body.
func open(whole []byte) (h Head, body []byte, err error) {
	sextet := int(whole[0] >> 2)
	if sextet == 0 {
		if !oldFits(whole) {
			err = ErrDamaged
		}
		return Head{}, nil, err
	}
	data, ok := unseal(whole)
	if !ok || len(data) < headBytes {
		return Head{}, nil, ErrDamaged
	}
	switch {
	case sextet == lockedSextet:
		return Head{Version: sextet, Locked: true}, nil, nil
	case sextet > lastHeaded:
		return Head{Version: sextet}, nil, ErrNewer
	}
	h, ok = readHead(data)
	switch {
	case sextet > version && !ok:
		return Head{Version: sextet}, nil, ErrNewer
	case sextet > version:
		return h, nil, ErrNewer
	case !ok || sextet < version:
		return Head{}, nil, ErrDamaged
	}
	return h, data[headBytes:], nil
}
