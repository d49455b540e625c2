//go:build !near

package link

import (
	"encoding/binary"
	"hash/crc32"

	"newel/core/plan"
	"newel/core/wall"
)

// Links of versions 1 and 2 are only read; families may hold them for months. They have
// no stamps: of two copies the one with the higher edition was newer. Version 1 has no
// family's part.
//
//	byte 0      version, 1 or 2
//	bytes 1–4   plan number, big endian
//	bytes 5–6   surgery date, days from 1 January 2000, big endian
//	bytes 7–8   arrival, minutes after midnight; 0xFFFF while not known
//	...         edition; joint, operation and stay; facts; drive + 1; parking + 1;
//	            zone, patient, hospital, address, phone; the hospital's own rules
//	            as a bit set and their values; ticks as steps between their numbers;
//	            in version 2 the family's part (see oldfamily.go)
//	last 4      CRC-32 (IEEE 802.3) of all bytes before it, big endian
//
// Numbers in the middle are unsigned varints (as in encoding/binary), texts are a
// length in bytes and UTF-8.
type old struct {
	plan.Plan
	edition uint32
}

const lastOld = 2

// oldLength is the longest link of version 1 or 2, in characters.
const oldLength = 16384

// encodeOld writes such a link, to see whether one that was read is the only way of
// writing its plan.
func encodeOld(p old) string {
	b := make([]byte, 0, 128)
	b = append(b, versionOf(&p.Plan))
	b = binary.BigEndian.AppendUint32(b, p.Number)
	b = binary.BigEndian.AppendUint16(b, uint16(p.Surgery-wall.FirstDate))
	b = binary.BigEndian.AppendUint16(b, uint16(p.Arrival))
	b = binary.AppendUvarint(b, uint64(p.edition))
	b = append(b, byte(p.Joint)|byte(p.Operation)<<2|byte(p.Stay)<<4)
	b = binary.AppendUvarint(b, uint64(p.Facts))
	b = binary.AppendUvarint(b, uint64(p.Drive+1))
	b = binary.AppendUvarint(b, uint64(p.Parking+1))
	for _, s := range []string{p.Zone, p.Patient, p.Program.Hospital, p.Program.Address, p.Program.Phone} {
		b = binary.AppendUvarint(b, uint64(len(s)))
		b = append(b, s...)
	}
	b = appendRules(b, &p.Program)
	b = appendTicks(b, p.Ticked)
	if b[0] > 1 {
		b = appendFamily(b, &p.Plan)
	}
	b = binary.BigEndian.AppendUint32(b, crc32.ChecksumIEEE(b))
	return lettersOf(b)
}

func appendRules(b []byte, p *plan.Program) []byte {
	var set uint64
	for r := range plan.Rules {
		if p.Own(plan.Rule(r)) {
			set |= 1 << r
		}
	}
	b = binary.AppendUvarint(b, set)
	for r := range plan.Rules {
		if p.Own(plan.Rule(r)) {
			b = binary.AppendUvarint(b, uint64(p.Get(plan.Rule(r))))
		}
	}
	return b
}

func appendTicks(b []byte, ticks []plan.Tick) []byte {
	b = binary.AppendUvarint(b, uint64(len(ticks)))
	last := -1
	for _, t := range ticks {
		n := int(t.Code)<<8 | int(t.N)
		b = binary.AppendUvarint(b, uint64(n-last-1))
		last = n
	}
	return b
}

// decodeOld reads a link of version 1 or 2. Errors: ErrDamaged, ErrNewer.
func decodeOld(fragment string) (old, error) {
	raw, ok := bytesOf(fragment)
	if !ok || len(fragment) > oldLength || len(raw) < 9+4 || !oldFits(raw) {
		return old{}, ErrDamaged
	}
	body := raw[:len(raw)-4]
	r := reader{rest: body[1:]}
	p := r.plan()
	if raw[0] > 1 {
		r.family(&p.Plan)
	}
	if r.newer {
		return old{}, ErrNewer
	}
	// One plan has one link: an overlong number or an odd order is refused here.
	if r.bad || len(r.rest) > 0 || !sound(&p.Plan) || encodeOld(p) != fragment {
		return old{}, ErrDamaged
	}
	return p, nil
}

// oldFits tells whether bytes have the checksum of an older link.
func oldFits(raw []byte) bool {
	n := len(raw) - 4
	return n > 0 && raw[0] > 0 && raw[0] <= lastOld && crc32.ChecksumIEEE(raw[:n]) == binary.BigEndian.Uint32(raw[n:])
}

// sound tells whether no field holds what no version of the page would write.
func sound(p *plan.Plan) bool {
	for _, problem := range plan.Check(p, p.Surgery) {
		if !problem.Ask && problem.Code != plan.ZoneUnknown && problem.Code != plan.ClockSkipped {
			return false
		}
	}
	return true
}
