package merge

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"newel/core/plan"
	"newel/core/wall"
)

// What makes a document unsound is our own rule, with no published source; its purpose is
// that core/link can write and read every sound document (TestSoundDocumentsBecomeLinks).

// with one register set, whatever it holds.
func (d *Doc) put(k Key, versions ...Version) *Doc {
	out := &Doc{Number: d.Number, seen: maps.Clone(d.seen), regs: maps.Clone(d.regs)}
	out.regs[k] = versions
	return out
}

func by(a Actor, n uint32, value string) Version { return Version{Stamp{a, n}, value} }

func many(d *Doc, n int, k func(i int) Key, value string) *Doc {
	d = joinAll(nil, d, d)
	for i := range n {
		d.Set(k(i), []Version{by(Maker, 1, value)})
	}
	return d
}

func TestUnsoundDocuments(t *testing.T) {
	sound := New(rosa(t))
	require.NoError(t, sound.Check())
	first := func(value string) Version { return by(Maker, 1, value) }
	one := func(k Key, value string) func() *Doc { return func() *Doc { return sound.put(k, first(value)) } }
	for name, make := range map[string]func() *Doc{
		"no surgery day": func() *Doc { d := joinAll(t, sound, sound); d.Set(Key{Field: Surgery}, nil); return d },
		"empty document": func() *Doc { return NewDoc(7) },
		"empty register": func() *Doc { return sound.put(Key{Field: Drive}) },

		"device that cannot be":      func() *Doc { d := joinAll(t, sound, sound); d.SetSeen(Stamp{FirstActor - 1, 1}); return d },
		"device too great":           func() *Doc { d := joinAll(t, sound, sound); d.SetSeen(Stamp{LastActor + 1, 1}); return d },
		"device without an act":      func() *Doc { d := joinAll(t, sound, sound); d.SetSeen(Stamp{luis, 0}); return d },
		"act too great":              func() *Doc { d := joinAll(t, sound, sound); d.SetSeen(Stamp{luis, LastN + 1}); return d },
		"act 0":                      func() *Doc { return sound.put(Key{Field: Drive}, by(Maker, 0, "40")) },
		"act not seen":               func() *Doc { return sound.put(Key{Field: Drive}, by(Maker, 2, "40")) },
		"act of a device not seen":   func() *Doc { return sound.put(Key{Field: Drive}, by(luis, 1, "40")) },
		"versions out of order":      func() *Doc { return sound.put(Key{Field: Drive}, first("41"), first("40")) },
		"one version twice":          func() *Doc { return sound.put(Key{Field: Drive}, first("40"), first("40")) },
		"too many versions":          func() *Doc { return sound.put(Key{Field: Note, Of: therapyID}, texts(MaxVersions+1)...) },
		"hand of a device not seen":  one(Key{Field: Hand, Sub: uint32(luis)}, "Luis"),
		"moves of a device not seen": one(Key{Field: Moves, Sub: uint32(luis)}, "1"),
		"hand of no device":          one(Key{Field: Hand, Sub: 5}, "Luis"),

		"field 0":                   one(Key{}, "1"),
		"a duty's field of no duty": one(Key{Field: Note}, "x"),
		"a plan's field of a duty":  one(Key{Field: Drive, Of: therapyID}, "40"),
		"Sub where there is none":   one(Key{Field: Drive, Sub: 1}, "40"),
		"Sub too great":             one(Key{Field: On, Of: therapyID, Sub: 7}, "Dana"),
		"Name where there is none":  one(Key{Field: Drive, Name: "Dana"}, "40"),
		"helper without a name":     one(Key{Field: Helper}, "1"),
		"helper called nobody":      one(Key{Field: Helper, Name: "-"}, "1"),
		"helper with a long name":   one(Key{Field: Helper, Name: strings.Repeat("a", plan.MaxName+1)}, "1"),
		"helper with a hidden sign": one(Key{Field: Helper, Name: "Da\u202ena"}, "1"),
		"helper in place 0":         one(Key{Field: Helper, Name: "Otto"}, "0"),
		"date before all":           one(Key{Field: Date, Of: therapyID, Sub: 1}, "-"),
		"take before all":           one(Key{Field: Takes, Of: therapyID, Sub: 1}, "Dana"),
		"added date with no time":   one(Key{Field: Extra, Of: therapyID, Sub: 20900<<minuteBits | 1440}, "1"),
		"unknown field, long name":  one(Key{Field: FirstUnknown, Name: strings.Repeat("a", MaxUnknown+1)}, "1"),
		"unknown field, long value": one(Key{Field: FirstUnknown}, strings.Repeat("a", MaxUnknown+1)),
		"surgery before all":        one(Key{Field: Surgery}, strconv.Itoa(int(wall.FirstDate)-1)),
		"arrival after midnight":    one(Key{Field: Arrival}, "1440"),
		"number with a sign":        one(Key{Field: Drive}, "+40"),
		"number below 0":            one(Key{Field: Drive}, "-1"),
		"number with a 0 before":    one(Key{Field: Drive}, "040"),
		"number that is none":       one(Key{Field: Drive}, "forty"),
		"no number":                 one(Key{Field: Drive}, ""),
		"zone without a name":       one(Key{Field: Zone}, ""),
		"text too long":             one(Key{Field: Patient}, strings.Repeat("ß", plan.MaxName+1)),
		"text with two lines":       one(Key{Field: Patient}, "Ro\nsa"),
		"broken text":               one(Key{Field: Patient}, "\xff"),
		"mark that is none":         one(Key{Field: Fact}, "2"),
		"setting out of its range":  one(Key{Field: Setting, Sub: uint32(plan.WashDays)}, "15"),
		"unknown setting below 0":   one(Key{Field: Setting, Sub: 63}, "-1"),
		"cover by nobody":           one(Key{Field: Cover}, "-"),
		"about nobody":              one(Key{Field: About}, "eQA"),
		"about that is none":        one(Key{Field: About, Name: "Dana"}, "drives"),
		"about of nothing":          one(Key{Field: About, Name: "Dana"}, ""),
		"a later about, too long":   one(Key{Field: About, Name: "Dana"}, "."+strings.Repeat("a", MaxUnknown)),
		"out with a reason":         one(Key{Field: Out, Name: "Dana"}, "2"),
		"slot by no name":           one(Key{Field: Shift}, ""),
		"need below 0":              one(ofTherapy(Need), "-1"),
		"pattern that is none":      one(ofTherapy(Pattern), "every Tuesday"),
		"pattern not canonical":     one(ofTherapy(Pattern), "20900 630 d1 x0"),
		"date that went nowhere":    one(Key{Field: Date, Of: therapyID, Sub: 20900}, "20901"),
		"date that went too far":    one(Key{Field: Date, Of: therapyID, Sub: 20900}, "99999 600"),
		"part of a duty":            one(Key{Field: Note, Of: 99}, "x"),
		"moves of a duty not there": one(Key{Field: Moves, Of: 99}, "1"),
		"duty that is in or out":    func() *Doc { d := joinAll(t, sound, sound); d.Set(ofTherapy(Alive), nil); return d },
		"duty without a pattern":    func() *Doc { d := joinAll(t, sound, sound); d.Set(ofTherapy(Pattern), nil); return d },
		"too many devices":          func() *Doc { return withDevices(sound, MaxActors) },
		"too many registers":        func() *Doc { return manyRegisters(sound) },
		"too many helpers": func() *Doc {
			return many(sound, plan.MostHelpers, func(i int) Key { return Key{Field: Helper, Name: "H" + strconv.Itoa(i)} }, "9")
		},
		"too many ticks": func() *Doc {
			return many(sound, MaxListed+1, func(i int) Key { return Key{Field: Tick, Sub: uint32(i)} }, "1")
		},
		"too many dates of one duty": func() *Doc {
			return many(sound, MaxListed+1, func(i int) Key { return Key{Field: Takes, Of: catID, Sub: uint32(20900 + i)} }, "-")
		},
		"too much without a meaning": func() *Doc {
			return many(sound, MaxListed+1, func(i int) Key { return Key{Field: FirstUnknown, Sub: uint32(i)} }, "x")
		},
		"too many duties": func() *Doc { return withDuties(sound, plan.MostDuties) },
	} {
		err := make().Check()
		require.Error(t, err, name)
		require.ErrorAs(t, err, new(Unsound), name)
		require.NotPanics(t, func() { d := make(); d.Plan(); d.Questions(); d.Idle() }, name)
	}
	require.Equal(t, "merge: 24/1/0/: no such register", Unsound{Key{Field: Title, Of: 1}, "no such register"}.Error())
}

func texts(n int) []Version {
	var all []Version
	for i := range n {
		all = append(all, by(Maker, 1, fmt.Sprintf("%03d", i)))
	}
	return all
}

func withDevices(d *Doc, more int) *Doc {
	d = joinAll(nil, d, d)
	for i := range more {
		d.SetSeen(Stamp{FirstActor + Actor(i), 1})
	}
	return d
}

func manyRegisters(d *Doc) *Doc {
	for duty := range uint32(MaxRegisters / MaxListed) {
		id := duty + 10
		d = withDuty(d, id)
		d = many(d, MaxListed-1, func(i int) Key { return Key{Field: Takes, Of: id, Sub: uint32(20900 + i)} }, "-")
	}
	return d
}

func withDuty(d *Doc, id uint32) *Doc {
	d = joinAll(nil, d, d)
	for _, f := range []Field{Kind, Length, Pattern, Alive} {
		d.Set(Key{Field: f, Of: id}, d.Get(Key{Field: f, Of: catID}))
	}
	return d
}

func withDuties(d *Doc, more int) *Doc {
	for i := range uint32(more) {
		d = withDuty(d, 10+i)
	}
	return d
}

// What is just within its bounds is sound.
func TestSoundAtTheBounds(t *testing.T) {
	sound := New(rosa(t))
	for name, d := range map[string]*Doc{
		"versions": sound.put(Key{Field: Note, Of: therapyID}, texts(MaxVersions)...),
		"devices":  withDevices(sound, MaxActors-1),
		"ticks":    many(sound, MaxListed-1, func(i int) Key { return Key{Field: Tick, Sub: uint32(i)} }, "1"),
		"duties":   withDuties(sound, plan.MostDuties-2),
		"unknown":  many(sound, MaxListed, func(i int) Key { return Key{Field: FirstUnknown, Sub: uint32(i)} }, strings.Repeat("\xff", MaxUnknown)),
		"numbers":  sound.put(Key{Field: Arrival}, by(Maker, 1, "0"), by(Maker, 1, "1439")),
		"surgery":  sound.put(Key{Field: Surgery}, by(Maker, 1, "10957"), by(Maker, 1, "47846")),
	} {
		require.NoError(t, d.Check(), name)
	}
}

// Any registers whatever, sound or not, are joined, shown, asked about and checked without a
// panic; and what is shown of sound ones is a plan whose duties and helpers are sound.
func TestAnyRegisters(t *testing.T) {
	sound := 0
	rapid.Check(t, func(t *rapid.T) {
		c := fromRapid(t)
		a, b, next := anyRegisters(c), anyRegisters(c), anyPlan(c)
		both := joinAll(t, a, b)
		for _, d := range []*Doc{a, b, both} {
			p := d.Plan()
			d.Questions()
			d.Idle()
			d.Newer()
			changed := d.Change(ann, next)
			if d.Check() != nil {
				continue
			}
			soundDuties(t, &p)
			shows(t, changed.Plan(), changed.Change(luis, changed.Plan()))
			require.NoError(t, changed.Check())
		}
		same(t, a, joinAll(t, a, a))
		if a.Check() == nil && b.Check() == nil { // numbers used twice as they come
			require.NoError(t, both.Check())
			same(t, both, joinAll(t, b, a))
			same(t, both, joinAll(t, both, a, b))
			sound++
		}
	})
	if !testing.Short() { // the few repeats in WebAssembly may all have been unsound
		require.Positive(t, sound)
	}
}

// soundDuties asks that no problem is one that only a damaged link has.
func soundDuties(t require.TestingT, p *plan.Plan) {
	for _, problem := range plan.Check(p, p.Surgery) {
		require.NotEqual(t, plan.DutyUnsound, problem.Code, problem.Field)
		require.False(t, strings.HasPrefix(problem.Code, plan.RuleFault), "%s %s", problem.Field, problem.Code)
	}
}

// anyRegisters is a document of registers that nobody wrote: some whole duties of a sound
// plan, and beside them keys and values of all kinds.
func anyRegisters(c chance) *Doc {
	d := New(anyPlan(c))
	if c(3) == 0 {
		d = NewDoc(7)
	}
	for range c(4) {
		d.SetSeen(Stamp{pick(c, someActors...), uint32(pick(c, 1, 1, 2, 2, c(3)))})
	}
	for range c(20) {
		k := Key{Field: Field(c(int(fieldEnd) + 2)), Of: uint32(c(4)), Sub: pick(c, uint32(0), 1, uint32(c(64)), 20900+uint32(c(40)), uint32(c(1<<31-1)))}
		if k.hasName() || c(10) == 0 {
			k.Name = pick(c, append([]string{"es", "zh-Hant"}, someNames...)...)
		}
		if c.half() { // as its field has it
			if k.Field < fieldEnd && !shapes[k.Field].duty {
				k.Of = 0
			}
			if k.Field < fieldEnd {
				k.Sub = min(k.Sub, shapes[k.Field].sub)
			}
		}
		var versions []Version
		for range 1 + c(3) {
			versions = append(versions, by(pick(c, someActors...), uint32(c(3)), anyValue(c)))
		}
		if c(4) > 0 {
			slices.SortFunc(versions, Version.Compare)
		}
		d.Set(k, versions)
	}
	if c.half() {
		d.leaveSound()
	}
	return d
}

// leaveSound takes out each register that is unsound by itself, and parts of duties.
func (d *Doc) leaveSound() {
	for _, k := range d.Keys() {
		if d.checkRegister(k) != nil {
			d.Set(k, nil)
		}
	}
	parts := d.dutyParts()
	for _, k := range d.Keys() {
		if k.ofDuty() && !whole(parts[k.Of]) {
			d.Set(k, nil)
		}
	}
}

func anyValue(c chance) string {
	return pick(c, "1", "1", "-", "", "0", "Dana", "x\x00", "-7", strconv.Itoa(c(1<<31-1)), strconv.Itoa(20900+c(99)),
		AboutText(anyAbout(c)), ".later", LineText(anyLine(c, 1)), "63h x", "2026-11-20", RuleText(anyPattern(c)), momentText(anyMoment(c, anyPattern(c))))
}

// The order that a document keeps is the one that its registers have, after any act and
// joining, and nobody who was given it can change it.
func TestKeysAreTheRegistersInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := fromRapid(t)
		a, b := anyRegisters(c), anyRegisters(c)
		changed := a.Change(ann, anyPlan(c))
		for _, d := range []*Doc{a, b, joinAll(t, a, b), changed, changed.WithHand(luis, "Dana"), a.Both(luis, b)} {
			keys := d.Keys()
			require.Len(t, keys, len(d.regs))
			for i, k := range keys {
				require.Contains(t, d.regs, k)
				require.True(t, i == 0 || keys[i-1].Compare(k) < 0)
			}
			clear(d.Keys())
			require.Equal(t, keys, d.Keys())
		}
	})
}
