package link

import (
	"slices"
	"strconv"

	"newel/core/merge"
	"newel/core/pack"
)

// The groups that a plan may lack as a whole, and other single decisions.
const (
	groupMaker = iota
	groupPlan
	groupSettings
	groupHelpers
	groupTicks
	groupDuties
	groupRest
	groupProgram
	groupBare
	groupEnd
)

func (m *models) start() {
	m.groups = [groupEnd]pack.Bit{
		groupMaker: pack.Odds(200), groupPlan: pack.Odds(1600), groupSettings: pack.Odds(2600),
		groupHelpers: pack.Odds(2048), groupTicks: pack.Odds(2048), groupDuties: pack.Odds(2048), groupRest: pack.Odds(4080), groupProgram: pack.Odds(1400),
		groupBare: pack.Odds(2048),
	}
	m.more = pack.Odds(4060)
	m.hour = pack.Weighted(1, 1, 1, 1, 1, 3, 5, 8, 12, 12, 12, 10, 10, 10, 12, 10, 8, 8, 8, 5, 4, 4, 2, 1)
	m.quarter, m.minute = pack.Odds(300), pack.Weighted(8, 3, 6, 3)
	m.kind = pack.Weighted(8, 4, 2, 4, 4, 3, 3, 1)
	m.length = pack.Weighted(1, 3, 3, 8, 1, 4, 2, 6, 1, 3, 3, 1, 1, 1, 1, 1, 1, 2)
	m.helper = pack.NewChoice(1)
	m.end = pack.Weighted(1, 3, 8)
	for i := range m.freq {
		m.freq[i] = pack.Weighted(2, 2, 4, 1)
	}
	m.notEach, m.notMonday, m.notWeeks, m.notInRule = pack.Odds(3900), pack.Odds(3900), pack.Odds(2600), pack.Odds(3900)
	m.zone = pack.Weighted(8, 8, 4, 8, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 2)
	for i := range m.has {
		m.has[i], m.hasRide[i] = pack.Odds(2600), pack.Odds(2048)
		m.same[i], m.five[i] = pack.Odds(2600), pack.Odds(3700)
	}
	for _, k := range rareFields {
		m.has[k], m.hasRide[k] = pack.Odds(3900), pack.Odds(3900)
	}
	for _, k := range usualFields {
		m.has[k], m.hasRide[k] = pack.Odds(400), pack.Odds(400)
	}
	m.hasRide[merge.Way], m.hasRide[merge.Walk], m.hasRide[merge.Early], m.hasRide[merge.Place] = pack.Odds(500), pack.Odds(500), pack.Odds(700), pack.Odds(500)
	m.has[merge.Way], m.has[merge.Walk], m.has[merge.Early] = pack.Odds(4000), pack.Odds(4000), pack.Odds(4000)
	for i := range m.act {
		m.act[i] = actModels{same: pack.Odds(2700), unknown: pack.Odds(2200), other: pack.Odds(3000)}
	}
	m.act[actDuty].same = pack.Odds(3600)
	m.act[actNew].same = pack.Odds(1500)
}

var (
	rareFields  = []merge.Field{merge.Gone, merge.Source, merge.Moves, merge.Leaves, merge.On, merge.Zone, merge.Program}
	usualFields = []merge.Field{merge.Alive, merge.Who, merge.Patient, merge.Drive, merge.Parking, merge.Zone}
)

func (f *form) section(name string) {
	f.part = name
	f.c.Part(name)
}

// body codes everything behind the head. It gives back the helper whose part it is.
func (f *form) body(part string, isPart bool) string {
	f.section("devices")
	f.devices()
	f.section("head")
	if isPart {
		part = f.words(pack.Name, part)
	}
	f.ofHead()
	f.section("program")
	if !f.h.stamped && !isPart && f.c.Flag(&f.m.groups[groupBare], f.bare()) {
		f.register(merge.Key{Field: merge.Program}, f.plain(merge.Program))
		return part
	}
	f.program()
	f.section("plan")
	if f.group(groupPlan, merge.Patient, merge.Drive, merge.Parking, merge.Fact, merge.Moves) {
		f.optional(merge.Key{Field: merge.Patient}, &f.m.has[merge.Patient], f.text(pack.Name))
		f.optional(merge.Key{Field: merge.Drive}, &f.m.has[merge.Drive], f.minutes(merge.Drive))
		f.optional(merge.Key{Field: merge.Parking}, &f.m.has[merge.Parking], f.minutes(merge.Parking))
		for bit := range uint32(factBits) {
			f.optional(merge.Key{Field: merge.Fact, Sub: bit}, &f.m.has[merge.Fact], there)
		}
		f.moves(0)
	}
	f.section("helpers")
	if f.group(groupHelpers, merge.Helper, merge.Cover, merge.Hand) {
		f.family()
	}
	f.section("ticks")
	if f.group(groupTicks, merge.Tick) {
		f.ticks()
	}
	f.section("duties")
	if f.group(groupDuties, merge.Kind, merge.Pattern) {
		f.duties()
	}
	f.section("rest")
	f.rest()
	return part
}

// group codes whether any register of some fields has versions.
func (f *form) group(group int, fields ...merge.Field) bool {
	any := slices.ContainsFunc(fields, func(field merge.Field) bool {
		return len(f.ofAll(field)) > 0
	})
	return f.c.Flag(&f.m.groups[group], any)
}

// bare tells whether nothing is left but the number of a program: that is the link which a
// navigator sends, and prints.
func (f *form) bare() bool {
	left := slices.ContainsFunc(f.order, func(k merge.Key) bool {
		return k.Field != merge.Program && !f.isNamed(merge.Key{Field: k.Field})
	})
	return !left && f.has(merge.Key{Field: merge.Program})
}

// headRegister is a register whose shown value stands in the head.
type headRegister struct {
	field   merge.Field
	present bool
	value   int
}

func (h *Head) registers() [5]headRegister {
	return [...]headRegister{
		{merge.Surgery, true, int(h.Surgery)},
		{merge.Arrival, h.Arrival.Known(), int(h.Arrival)},
		{merge.Stay, h.Stay != 0, int(h.Stay)},
		{merge.Joint, h.Joint != 0, int(h.Joint)},
		{merge.Operation, h.Operation != 0, int(h.Operation)},
	}
}

// ofHead codes the registers whose shown value stands in the head already.
func (f *form) ofHead() {
	for _, r := range f.h.registers() {
		if !r.present {
			continue
		}
		shown := strconv.Itoa(r.value)
		f.register(merge.Key{Field: r.field}, func(v string) string {
			if !f.h.stamped || !f.c.Flag(&f.m.same[r.field], v != shown) {
				return shown
			}
			return f.plain(r.field)(v)
		})
	}
}

const (
	factBits = 15
	settings = 24
	covers   = 5
)

// zones are those of the United States and a few others; any other is written out.
var zones = [...]string{
	"America/New_York", "America/Chicago", "America/Denver", "America/Los_Angeles", "America/Phoenix", "America/Detroit",
	"America/Anchorage", "Pacific/Honolulu", "America/Puerto_Rico", "America/Indiana/Indianapolis", "America/Boise",
	"America/Mexico_City", "America/Toronto", "Europe/Madrid", "Europe/London",
}

func (f *form) zone(v string) string {
	at := f.c.Choose(&f.m.zone, slices.Index(append(zones[:len(zones):len(zones)], v), v))
	if at < len(zones) {
		return zones[at]
	}
	return f.words(pack.Other, v)
}

// program codes the hospital’s settings: the number of a program that the page has, and
// what is against it.
func (f *form) program() {
	f.optional(merge.Key{Field: merge.Program}, &f.m.groups[groupProgram], f.plain(merge.Program))
	f.optional(merge.Key{Field: merge.Zone}, &f.m.has[merge.Zone], f.zone)
	if !f.group(groupSettings, merge.Hospital, merge.Address, merge.Phone, merge.Setting) {
		return
	}
	f.optional(merge.Key{Field: merge.Hospital}, &f.m.has[merge.Hospital], f.text(pack.Place))
	f.optional(merge.Key{Field: merge.Address}, &f.m.has[merge.Address], f.text(pack.Place))
	f.optional(merge.Key{Field: merge.Phone}, &f.m.has[merge.Phone], f.text(pack.Phone))
	for rule := range uint32(settings) {
		f.optional(merge.Key{Field: merge.Setting, Sub: rule}, &f.m.has[merge.Setting], f.minutes(merge.Setting))
	}
}

// family codes the helpers in their order, who has the plan’s own duties, and whose the
// devices are.
func (f *form) family() {
	keys := slices.Clone(f.keys(merge.Helper, 0))
	place := func(k merge.Key) int { return number(f.d.Get(k)[0].Value) }
	slices.SortStableFunc(keys, func(a, b merge.Key) int { return place(a) - place(b) })
	next := 1
	for i := range f.count(merge.Helper, len(keys)) {
		var k merge.Key
		if i < len(keys) {
			k = keys[i]
		}
		k.Field = merge.Helper
		k.Name = f.words(pack.Name, k.Name)
		f.register(k, func(v string) string {
			if f.c.Flag(&f.m.same[merge.Helper], number(v) != next) {
				next = int(f.c.Number(&f.m.number[merge.Helper], uint64(number(v))))
			}
			next++
			return strconv.Itoa(next - 1)
		})
		f.helpers = append(f.helpers, k.Name)
	}
	if len(f.helpers) >= mostChosen {
		f.c.Fail()
		return
	}
	f.m.helper = pack.NewChoice(len(f.helpers) + 1)
	for _, s := range f.acts.seen {
		k := merge.Key{Field: merge.Hand, Sub: uint32(s.Actor)}
		f.optional(k, &f.m.has[merge.Hand], f.helper)
		if name := f.firstOf(k); name != "" {
			f.mine[s.Actor] = name
		}
	}
	for i := range uint32(covers) {
		f.optional(merge.Key{Field: merge.Cover, Sub: i}, &f.m.has[merge.Cover], f.helper)
	}
}

// moves codes how often each device moved times.
func (f *form) moves(of uint32) {
	if !f.c.Flag(&f.m.has[merge.Moves], len(f.keys(merge.Moves, of)) > 0) {
		return
	}
	seen := f.acts.seen
	if !f.h.stamped {
		seen = []merge.Stamp{{Actor: merge.Maker}}
	}
	for _, s := range seen {
		f.optional(merge.Key{Field: merge.Moves, Of: of, Sub: uint32(s.Actor)}, &f.m.hasRide[merge.Moves], f.plain(merge.Moves))
	}
}

// ticks codes them by the steps between their numbers: those of one week stand together.
func (f *form) ticks() {
	f.listed(merge.Tick, 0, f.keys(merge.Tick, 0), func(from uint32, sub uint32) uint32 {
		if !f.c.Flag(&f.m.newStep, sub>>8 != from>>8) { // one more of the same step
			return from + 1 + uint32(f.c.Number(&f.m.number[byStep], uint64(sub-from-1)))
		}
		code := from>>8 + 1 + uint32(f.c.Number(&f.m.number[merge.Tick], uint64(sub>>8-from>>8-1)))
		return code<<8 | uint32(f.c.Number(&f.m.number[byTimes], uint64(sub&255)))&255
	}, there)
}

// listed codes the registers of a list in ascending order. step codes a Sub from the one
// before, which is 0 at first.
func (f *form) listed(field merge.Field, of uint32, keys []merge.Key, step func(from, sub uint32) uint32, value func(string) string) {
	var from uint32
	for i := range f.count(field, len(keys)) {
		k := merge.Key{Field: field, Of: of}
		if i < len(keys) {
			k = keys[i]
		}
		k.Sub = step(from, k.Sub)
		if f.c.Err() != nil {
			return
		}
		from = k.Sub
		f.register(k, value)
	}
}

// rest codes the registers that this form has no place for: those of later versions.
func (f *form) rest() {
	var keys []merge.Key
	for i, k := range f.order {
		if !f.named[i] {
			keys = append(keys, k)
		}
	}
	if !f.c.Flag(&f.m.groups[groupRest], len(keys) > 0) {
		return
	}
	var n, value pack.Number
	for i := range f.count(byRest, len(keys)) {
		var k merge.Key
		if i < len(keys) {
			k = keys[i]
		}
		k.Field = merge.Field(f.c.Bits(uint64(k.Field), 8))
		k.Of, k.Sub = uint32(f.c.Bits(uint64(k.Of), 32)), uint32(f.c.Bits(uint64(k.Sub), 32))
		k.Name = f.bytes(&n, k.Name)
		if f.c.Err() != nil {
			return
		}
		f.register(k, func(v string) string { return f.bytes(&value, v) })
	}
}

// bytes codes any bytes.
func (f *form) bytes(length *pack.Number, v string) string {
	n := int(f.c.Number(length, uint64(len(v))))
	if n > mostText {
		f.c.Fail()
		return ""
	}
	got := make([]byte, n)
	for i := range got {
		var b uint64
		if i < len(v) {
			b = uint64(v[i])
		}
		got[i] = byte(f.c.Bits(b, 8))
	}
	return string(got)
}
