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
	keys := f.ofAll[merge.Kind]
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
	if !f.c.Flag(&f.m.same[merge.Kind], id>>plan.NthBits != from>>plan.NthBits) {
		return from + 1 + uint32(f.c.Number(&f.m.number[byDuty], uint64(id-from-1)))
	}
	device := f.device(id >> plan.NthBits)
	return device<<plan.NthBits | uint32(f.c.Number(&f.m.number[byDay], uint64(id&(1<<plan.NthBits-1)))&(1<<plan.NthBits-1))
}

// device codes the number of a device that has changed the plan, or of any other.
func (f *form) device(n uint32) uint32 {
	at := slices.IndexFunc(f.acts.seen, func(s merge.Stamp) bool { return uint32(s.Actor) == n })
	if !f.c.Flag(&f.m.has[byDevice], at < 0) {
		if len(f.acts.seen) == 0 {
			f.c.Fail()
			return 0
		}
		return uint32(f.acts.seen[f.c.Uniform(max(at, 0), len(f.acts.seen))].Actor)
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
	f.register(at(merge.Length), f.before(merge.Length, kind, f.minutes(merge.Length)))
	f.section("rules")
	f.rule(id, kind)
	f.section("duties")
	f.moves(id)
	f.optional(at(merge.Alive), &has[merge.Alive], there)
	f.optional(at(merge.Gone), &has[merge.Gone], there)
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
