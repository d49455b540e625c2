package link

import (
	"bytes"
	"encoding/binary"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
)

// oldParts are the fields of a link as raw bytes, each of which a test can spoil. The
// links of this file all carry a right checksum: what is tested stands behind it.
type oldParts struct {
	head                                    []byte
	edition, kind, facts, drive, parking    []byte
	zone, patient, hospital, address, phone []byte
	set, values, count, ticks, after        []byte
}

func (p oldParts) fragment() string {
	return sealOld(bytes.Join([][]byte{
		p.head, p.edition, p.kind, p.facts, p.drive, p.parking, p.zone, p.patient, p.hospital, p.address, p.phone,
		p.set, p.values, p.count, p.ticks, p.after,
	}, nil))
}

func varint(n uint64) []byte { return binary.AppendUvarint(nil, n) }

func oldText(s string) []byte { return append(varint(uint64(len(s))), s...) }

// plainOldParts are those of a sound plan: 9 March 2027 (day 9929), 05:30.
func plainOldParts() oldParts {
	return oldParts{
		head: []byte{1, 0, 0, 0, 7, 0x26, 0xc9, 0x01, 0x4a}, edition: varint(1), kind: []byte{0}, facts: varint(1),
		drive: varint(41), parking: varint(16), zone: oldText("America/Chicago"), patient: oldText("Rosa"),
		hospital: oldText(""), address: oldText(""), phone: oldText(""), set: varint(1), values: varint(3), count: varint(2), ticks: []byte{5, 0},
	}
}

func TestTheOldPartsAreALink(t *testing.T) {
	p, err := readOld(plainOldParts().fragment())
	require.NoError(t, err)
	require.Equal(t, "2027-03-09", p.Surgery.String())
	require.Equal(t, 3, p.Program.Get(plan.WashDays))
	require.Equal(t, []plan.Tick{{Code: 0, N: 5}, {Code: 0, N: 6}}, p.Ticked)
}

func TestWhatNoVersionOfThePageWritesIsRefused(t *testing.T) {
	overlong := []byte{0x81, 0x00} // 1, in two bytes
	endless := bytes.Repeat([]byte{0xff}, 12)
	for name, spoil := range map[string]func(*oldParts){
		"version 0":                    func(p *oldParts) { p.head[0] = 0 },
		"a day after 2100":             func(p *oldParts) { p.head[5], p.head[6] = 0xff, 0xff },
		"arrival at 24:00":             func(p *oldParts) { p.head[7], p.head[8] = 1440>>8, 1440&255 },
		"arrival that is no time":      func(p *oldParts) { p.head[7], p.head[8] = 0x7f, 0xff },
		"arrival below zero":           func(p *oldParts) { p.head[7], p.head[8] = 0xff, 0xfe },
		"no time, and an unknown zone": func(p *oldParts) { p.head[7], p.zone = 0x7f, oldText("Atlantis/Lemuria") },
		"edition over 32 bits":         func(p *oldParts) { p.edition = varint(1 << 32) },
		"overlong edition":             func(p *oldParts) { p.edition = overlong },
		"endless edition":              func(p *oldParts) { p.edition = endless },
		"a joint without meaning":      func(p *oldParts) { p.kind[0] = 2 },
		"an operation without meaning": func(p *oldParts) { p.kind[0] = 3 << 2 },
		"a stay without meaning":       func(p *oldParts) { p.kind[0] = 3 << 4 },
		"bits over the stay":           func(p *oldParts) { p.kind[0] = 1 << 6 },
		"overlong facts":               func(p *oldParts) { p.facts = overlong },
		"a drive over 12 h":            func(p *oldParts) { p.drive = varint(722) },
		"parking over 3 h":             func(p *oldParts) { p.parking = varint(182) },
		"a drive of 2^64-1":            func(p *oldParts) { p.drive = varint(1<<64 - 1) },
		"overlong drive":               func(p *oldParts) { p.drive = overlong },
		"overlong length of a text":    func(p *oldParts) { p.patient = []byte{0x81, 0x00, 'R'} },
		"a text longer than the link":  func(p *oldParts) { p.patient = varint(400) },
		"a text of 2^63 bytes":         func(p *oldParts) { p.patient = varint(1 << 63) },
		"a name of 41 letters":         func(p *oldParts) { p.patient = oldText(string(bytes.Repeat([]byte("W"), 41))) },
		"an address of 121 letters":    func(p *oldParts) { p.address = oldText(string(bytes.Repeat([]byte("W"), 121))) },
		"a direction override":         func(p *oldParts) { p.patient = oldText("Ro\u202esa") },
		"a zero width space":           func(p *oldParts) { p.hospital = oldText("Al\u200bder") },
		"NUL":                          func(p *oldParts) { p.address = oldText("a\x00b") },
		"a tab":                        func(p *oldParts) { p.phone = oldText("555\t0142") },
		"two spaces":                   func(p *oldParts) { p.patient = oldText("Ro  sa") },
		"a space at the end":           func(p *oldParts) { p.patient = oldText("Rosa ") },
		"broken UTF-8":                 func(p *oldParts) { p.patient = oldText("Ros\xff") },
		"no zone, but a space":         func(p *oldParts) { p.zone = oldText(" ") },
		"a rule of bit 63":             func(p *oldParts) { p.set = varint(1 << 63) },
		"overlong set of rules":        func(p *oldParts) { p.set = overlong },
		"a rule below its range":       func(p *oldParts) { p.values = varint(0) },
		"a rule above its range":       func(p *oldParts) { p.values = varint(15) },
		"a rule that fits in 16 bits":  func(p *oldParts) { p.values = varint(1<<16 + 3) },
		"overlong value of a rule":     func(p *oldParts) { p.values = []byte{0x83, 0x00} },
		"a rule without its value":     func(p *oldParts) { p.set = varint(3) },
		"a range turned around":        func(p *oldParts) { p.set, p.values = varint(1<<plan.FirstMin), varint(91) },
		"one tick more than there are": func(p *oldParts) { p.count = varint(3) },
		"one tick less than there are": func(p *oldParts) { p.count = varint(1) },
		"2^40 ticks":                   func(p *oldParts) { p.count = varint(1 << 40) },
		"2^64-1 ticks":                 func(p *oldParts) { p.count = varint(1<<64 - 1) },
		"overlong count of ticks":      func(p *oldParts) { p.count = []byte{0x82, 0x00} },
		"overlong tick":                func(p *oldParts) { p.ticks = []byte{0x85, 0x00, 0} },
		"a tick over its largest code": func(p *oldParts) { p.ticks = append(varint(1<<24-1), 0) },
		"ticks that come round again":  func(p *oldParts) { p.ticks = append(varint(5), varint(1<<64-3)...) },
		"a byte after the end":         func(p *oldParts) { p.after = []byte{0} },
		"nothing after the head":       func(p *oldParts) { *p = oldParts{head: p.head} },
		"nothing after the zone": func(p *oldParts) {
			p.patient, p.hospital, p.address, p.phone, p.set, p.values, p.count, p.ticks = nil, nil, nil, nil, nil, nil, nil, nil
		},
	} {
		p := plainOldParts()
		spoil(&p)
		_, err := readOld(p.fragment())
		require.ErrorIs(t, err, ErrDamaged, name)
		_, err = Decode(p.fragment())
		require.ErrorIs(t, err, ErrDamaged, name)
	}
}

// A later page may know more facts and rules; its link is whole, and saying that it
// was damaged would send the helper to ask for it again in vain.
func TestUnknownBitsAreANewerPages(t *testing.T) {
	for name, spoil := range map[string]func(*oldParts){
		"a fact": func(p *oldParts) { p.facts = varint(uint64(plan.AllFacts) + 1) },
		"a rule": func(p *oldParts) { p.set = varint(1 << len(plan.Rules)) },
	} {
		p := plainOldParts()
		spoil(&p)
		_, err := readOld(p.fragment())
		require.ErrorIs(t, err, ErrNewer, name)
		_, err = Decode(p.fragment())
		require.ErrorIs(t, err, ErrNewer, name)
	}
}

// A plan of the family's is version 2 as soon as one of the things that version 1 has no place for is in it.
func TestVersion1HasNoFamily(t *testing.T) {
	plain := family(t)
	require.EqualValues(t, 1, versionOf(&plain))
	with := map[string]func(*plan.Plan){
		"a helper":   func(p *plan.Plan) { p.Helpers = []string{"Dana"} },
		"a duty":     func(p *plan.Plan) { p.Duties = withFamily(t).Duties[:1] },
		"a revision": func(p *plan.Plan) { p.Revision = 1 },
		"who stays":  func(p *plan.Plan) { p.Cover[plan.StayWith] = 1 },
	}
	for name, add := range with {
		p := plain
		add(&p)
		require.EqualValues(t, 2, versionOf(&p), name)
	}
	p := plain
	with["a helper"](&p)
	read, err := decodeOld(encodeOld(old{p, 3}))
	require.NoError(t, err)
	require.Equal(t, []string{"Dana"}, read.Helpers)
}

func TestIsOld(t *testing.T) {
	for file, want := range map[string]bool{"v1/starter.txt": true, "v1/family.txt": true, "v2/family.txt": true} {
		fragment := vector(t, file)
		require.Equal(t, want, IsOld(fragment), file)
		require.True(t, IsOld(fragment[:len(fragment)/4*4-4]), "whole or not")
	}
	for _, other := range []string{"", "!", "A?AA", Encode(docOf(starter(t))), EncodePart(withFamily(t), "Dana"), "-AAA"} {
		require.False(t, IsOld(other), other)
	}
}

// Zones come and go with the data of the day, so a link may name one that this
// page does not know; plan.Check says so to the person.
func TestAnUnknownZoneAndASkippedArrivalAreForThePerson(t *testing.T) {
	p := plainOldParts()
	p.zone = oldText("Atlantis/Lemuria")
	got, err := readOld(p.fragment())
	require.NoError(t, err)
	require.Equal(t, "Atlantis/Lemuria", got.Zone)

	// New York's clocks jump from 02:00 to 03:00 on 14 March 2027, day 9934.
	p = plainOldParts()
	p.head = []byte{1, 0, 0, 0, 7, 9934 >> 8, 9934 & 255, 0, 150}
	p.zone = oldText("America/New_York")
	got, err = readOld(p.fragment())
	require.NoError(t, err)
	require.Equal(t, []plan.Problem{{Field: "arrival", Code: plan.ClockSkipped}}, plan.Check(&got, got.Surgery))
}
