// Package link carries a plan in the fragment of a URL, which browsers never send
// to a server.
//
// Encode and Decode are the whole of it. The form is canonical: a fragment that
// decodes is byte for byte what Encode makes of the result, so links can be
// compared as text, and anything else is refused. A checksum over everything
// finds a link that was damaged or cut off.
//
// This is version 2, a plain one: fixed head, then fields in order. A plan without
// helpers and duties of the family's own is written as version 1, which had none.
//
//	byte 0      version, 1 or 2
//	bytes 1–4   plan number, big endian
//	bytes 5–6   surgery date, days from 1 January 2000, big endian
//	bytes 7–8   arrival, minutes after midnight; 0xFFFF while not known
//	...         edition; joint, operation and stay; facts; drive + 1; parking + 1;
//	            zone, patient, hospital, address, phone; the hospital's own rules
//	            as a bit set and their values; ticks as steps between their numbers;
//	            in version 2 the family's part (see family.go)
//	last 4      CRC-32 (IEEE 802.3) of all bytes before it, big endian
//
// Numbers in the middle are unsigned varints (as in encoding/binary), texts are a
// length in bytes and UTF-8. The whole is base64url without padding (RFC 4648
// section 5).
package link

import (
	"encoding/base64"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"strings"

	"newel/core/plan"
	"newel/core/wall"
)

const version = 2

// MaxLength bounds the fragment that Decode looks at, in characters.
const MaxLength = 16384

// The errors of Decode.
var (
	// ErrDamaged: characters were lost or changed on the way.
	ErrDamaged = errors.New("the link was damaged or cut off on the way; ask for it to be sent again")
	// ErrNewer: the link was made by a later version of this page.
	ErrNewer = errors.New("the link was made by a newer version of this page; load the page again")
)

// Encode writes a plan as a fragment, without the # sign.
func Encode(p plan.Plan) string {
	b := make([]byte, 0, 128)
	b = append(b, versionOf(&p))
	b = binary.BigEndian.AppendUint32(b, p.Number)
	b = binary.BigEndian.AppendUint16(b, uint16(p.Surgery-wall.FirstDate))
	b = binary.BigEndian.AppendUint16(b, uint16(p.Arrival))
	b = binary.AppendUvarint(b, uint64(p.Edition))
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
		b = appendFamily(b, &p)
	}
	b = binary.BigEndian.AppendUint32(b, crc32.ChecksumIEEE(b))
	return base64.RawURLEncoding.EncodeToString(b)
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

// Decode reads a fragment. The plan it gives back has passed plan.Check, apart
// from questions for a person and from what depends on the zone data of the day
// (a zone not known here, a time that the clocks skip): run plan.Check for those.
// Errors: ErrDamaged, ErrNewer.
func Decode(fragment string) (plan.Plan, error) {
	if len(fragment) > MaxLength {
		return plan.Plan{}, ErrDamaged
	}
	raw, err := base64.RawURLEncoding.Strict().DecodeString(fragment)
	if err != nil || len(raw) < 9+4 {
		return plan.Plan{}, ErrDamaged
	}
	body, sum := raw[:len(raw)-4], binary.BigEndian.Uint32(raw[len(raw)-4:])
	if crc32.ChecksumIEEE(body) != sum {
		return plan.Plan{}, ErrDamaged
	}
	if raw[0] > version {
		return plan.Plan{}, ErrNewer
	}
	r := reader{rest: body[1:]}
	p := r.plan()
	if raw[0] > 1 {
		r.family(&p)
	}
	if r.newer {
		return plan.Plan{}, ErrNewer
	}
	if r.bad || len(r.rest) > 0 || !sound(&p) {
		return plan.Plan{}, ErrDamaged
	}
	// One plan has one link: an overlong number or an odd order is refused here.
	if Encode(p) != fragment {
		return plan.Plan{}, ErrDamaged
	}
	return p, nil
}

// Trim cuts off what a message put behind a link: a full stop, a bracket, the next
// word. The checksum still guards what is left.
func Trim(fragment string) string {
	end := strings.IndexFunc(fragment, func(r rune) bool {
		letter := r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z'
		return !letter && !(r >= '0' && r <= '9') && r != '-' && r != '_'
	})
	if end < 0 {
		return fragment
	}
	return fragment[:end]
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
