package link

import (
	"slices"
	"strconv"

	"newel/core/merge"
	"newel/core/pack"
	"newel/core/plan"
)

// duties codes the family’s duties in the order of their numbers.
func (f *form) duties() {
	keys := f.ofAll(merge.Kind)
	var id uint32
	for i := range f.count(merge.Kind, len(keys)) {
		var next uint32
		if i < len(keys) {
			next = keys[i].Of
		}
		id = f.dutyNumber(id, next)
		if f.c.Err() != nil {
			return
		}
		f.duty(id)
	}
}

// dutyNumber codes a number, which is mostly the next of the device that added the duty
// before.
func (f *form) dutyNumber(from, id uint32) uint32 {
	const nth = 1<<plan.NthBits - 1
	if !f.c.Flag(&f.m.same[merge.Kind], id>>plan.NthBits != from>>plan.NthBits) {
		return from + 1 + uint32(f.c.Number(&f.m.number[byDuty], uint64(id-from-1)))
	}
	device := f.laterDevice(from>>plan.NthBits, id>>plan.NthBits)
	return device<<plan.NthBits | uint32(f.c.Number(&f.m.number[byDay], uint64(id&nth))&nth)
}

// laterDevice codes the number of a device above another: one that has changed the plan, or
// any.
func (f *form) laterDevice(from, n uint32) uint32 {
	above := f.acts.seen
	for len(above) > 0 && uint32(above[0].Actor) <= from {
		above = above[1:]
	}
	at := slices.IndexFunc(above, func(s merge.Stamp) bool { return uint32(s.Actor) == n })
	if !f.c.Flag(&f.m.has[byDevice], at < 0) {
		if len(above) == 0 {
			f.c.Fail()
			return 0
		}
		return uint32(above[f.c.Uniform(max(at, 0), len(above))].Actor)
	}
	return uint32(f.c.Bits(uint64(n), deviceBits))
}

// The kinds of duties as this version has them: what a kind is called in the document,
// and whether it is a ride.
const kinds = 7

func isRide(kind string) bool { return kind == "0" || kind == "1" || kind == "2" }

func (f *form) duty(id uint32) {
	at := func(field merge.Field) merge.Key { return merge.Key{Field: field, Of: id} }
	kind := ""
	f.register(at(merge.Kind), func(v string) string {
		n := f.c.Choose(&f.m.kind, min(number(v), kinds))
		if n == kinds {
			n = int(f.c.Number(&f.m.number[merge.Kind], uint64(number(v))))
		}
		kind = strconv.Itoa(n)
		return kind
	})
	has := &f.m.has
	if isRide(kind) {
		has = &f.m.hasRide
	}
	for _, r := range []struct {
		field merge.Field
		value func(string) string
	}{
		{merge.Title, f.text(pack.Title)}, {merge.Place, f.text(pack.Place)}, {merge.Note, f.text(pack.Note)},
		{merge.Own, f.minutes(merge.Own)}, {merge.Way, f.minutes(merge.Way)}, {merge.Walk, f.minutes(merge.Walk)},
		{merge.Early, f.minutes(merge.Early)}, {merge.Leaves, there}, {merge.Source, f.source}, {merge.Who, f.helper},
	} {
		f.part = partOf[r.field]
		f.c.Part(f.part)
		if !counted[r.field] {
			r.value = f.before(r.field, kind, r.value)
		}
		f.optional(at(r.field), &has[r.field], r.value)
	}
	f.section("duties")
	f.register(at(merge.Length), f.before(merge.Length, kind, f.length))
	f.section("rules")
	f.rule(id, kind)
	f.section("duties")
	f.moves(id)
	f.optional(at(merge.Alive), &has[merge.Alive], there)
	f.optional(at(merge.Gone), &has[merge.Gone], there)
}

// lengths are usual ones, in minutes.
var lengths = [...]int{10, 15, 20, 30, 40, 45, 50, 60, 75, 90, 120, 150, 180, 240, 480, 600, 720}

func (f *form) length(v string) string {
	at := slices.Index(lengths[:], number(v))
	if at < 0 {
		at = len(lengths)
	}
	if at = f.c.Choose(&f.m.length, at); at < len(lengths) {
		return strconv.Itoa(lengths[at])
	}
	return f.minutes(merge.Length)(v)
}

// counted are the fields whose value says only that they are there.
var counted = map[merge.Field]bool{merge.Leaves: true}

// partOf says on whose account a field of a duty goes.
var partOf = map[merge.Field]string{
	merge.Title: "duty texts", merge.Place: "duty texts", merge.Note: "duty texts", merge.Who: "who",
	merge.Own: "duties", merge.Way: "duties", merge.Walk: "duties", merge.Early: "duties", merge.Leaves: "duties",
	merge.Source: "duties",
}

func (f *form) source(v string) string {
	return strconv.Itoa(int(f.c.Bits(uint64(number(v)), 32)))
}
