package link

import (
	"slices"

	"newel/core/merge"
	"newel/core/pack"
	"newel/core/plan"
)

// acts are the stamps of a document. Those that were named are kept in the order of their
// last use: what was changed in one act stands close together, mostly in one duty.
type acts struct {
	seen   []merge.Stamp // the last act of each device
	named  [][]uint32    // by place in seen: the acts of the device that were named, ascending
	lastN  []uint32      // and the one that was named last
	recent []merge.Stamp // the latest first
	now    merge.Stamp   // of the value that is coded next
	last   int           // place in seen of the device whose act was named last
}

// Where a stamp stands decides how likely it is to be the one before again.
const (
	actFacts  = iota // of the plan
	actNew           // the first of a duty
	actDuty          // more of a duty
	actAlive         // a duty’s latest change
	actSingle        // a single date or tick
	actContexts
)

type actModels struct {
	same, unknown, other pack.Bit
}

func actContext(k merge.Key) int {
	switch k.Field {
	case merge.Kind:
		return actNew
	case merge.Alive, merge.Gone, merge.Moves:
		return actAlive
	case merge.Tick, merge.Date, merge.Extra, merge.Takes:
		return actSingle
	}
	if k.Of == 0 {
		return actFacts
	}
	return actDuty
}

// devices codes who has changed the plan, and how often.
func (f *form) devices() {
	if !f.h.stamped {
		if !f.c.Encoding() {
			f.d.SetSeen(merge.Stamp{Actor: merge.Maker, N: 1})
		}
		return
	}
	seen := f.d.Seen()
	n := f.count(byDevice, len(seen))
	for i := range n {
		var s merge.Stamp
		if i < len(seen) {
			s = seen[i]
		}
		if i > 0 || f.c.Flag(&f.m.groups[groupMaker], s.Actor != merge.Maker) {
			s.Actor = merge.Actor(f.c.Bits(uint64(s.Actor), deviceBits))
		}
		s.N = uint32(f.c.Number(&f.m.actsOf, uint64(s.N)))
		if s.N > merge.LastN || s.N == 0 {
			f.c.Fail()
		}
		if f.c.Err() != nil {
			return
		}
		f.acts.seen, f.acts.named, f.acts.lastN = append(f.acts.seen, s), append(f.acts.named, nil), append(f.acts.lastN, 0)
		if !f.c.Encoding() {
			f.d.SetSeen(s)
		}
	}
	f.m.device = pack.NewChoice(min(max(n, 1), mostChosen))
}

const (
	deviceBits = 22
	mostChosen = 64
)

// stamp codes by which act a value was written.
func (f *form) stamp(k merge.Key, s merge.Stamp) merge.Stamp {
	if !f.h.stamped {
		return merge.Stamp{Actor: merge.Maker, N: 1}
	}
	f.c.Part("stamps")
	defer f.c.Part(f.part)
	at := 0
	for at < len(f.acts.recent) && f.acts.recent[at] != s {
		at++
	}
	m := &f.m.act[actContext(k)]
	switch {
	case len(f.acts.recent) > 0 && !f.c.Flag(&m.same, at != 0):
		at = 0
	case len(f.acts.recent) > 1 && !f.c.Flag(&m.unknown, at == len(f.acts.recent)):
		at = 1 + int(f.c.Number(&f.m.rank, uint64(at-1)))
		if at >= len(f.acts.recent) {
			f.c.Fail()
			return s
		}
	default:
		at = len(f.acts.recent)
		f.bound(at < mostActs)
		f.acts.recent = append(f.acts.recent, f.newAct(k, s))
	}
	s = f.acts.recent[at]
	copy(f.acts.recent[1:at+1], f.acts.recent[:at])
	f.acts.recent[0] = s
	return s
}

// newAct codes an act that was not named before: whose it is, and how far it is from the
// one after the last that was named of that device. Mostly it is that one.
func (f *form) newAct(k merge.Key, s merge.Stamp) merge.Stamp {
	if len(f.acts.seen) == 0 {
		f.c.Fail()
		return s
	}
	who := f.whose(k, s.Actor)
	f.acts.last = who
	return merge.Stamp{Actor: f.acts.seen[who].Actor, N: f.actOf(who, s.N)}
}

// actOf codes which act of a device: how many that were not named yet lie between the one
// named last and it, going round.
func (f *form) actOf(who int, n uint32) uint32 {
	named, last := f.acts.named[who], f.acts.lastN[who]
	free := f.acts.seen[who].N - uint32(len(named))
	if free == 0 {
		f.c.Fail()
		return n
	}
	rank := func(n uint32) uint32 { // how many below n have no name yet
		at, _ := slices.BinarySearch(named, n)
		return n - 1 - uint32(at)
	}
	from := rank(last + 1)
	skipped := (rank(n) + free - from) % free
	skipped = uint32(f.c.Number(&f.m.step, uint64(skipped)))
	if skipped >= free {
		f.c.Fail()
		return n
	}
	n = freeAct(named, (from+skipped)%free)
	at, _ := slices.BinarySearch(named, n)
	f.acts.named[who] = slices.Insert(named, at, n)
	f.acts.lastN[who] = n
	return n
}

// freeAct is the act without a name that has so many such below it.
func freeAct(named []uint32, below uint32) uint32 {
	n := below + 1
	for _, taken := range named {
		if taken > n {
			break
		}
		n++
	}
	return n
}

// whose codes the device of a new act, as its place among those seen. The one to expect is
// the device that the register belongs to, else the one that was named last.
func (f *form) whose(k merge.Key, a merge.Actor) int {
	expected := f.acts.last
	switch k.Field {
	case merge.Hand, merge.Moves:
		expected = f.placeOf(merge.Actor(k.Sub), expected)
	case merge.Kind:
		expected = f.placeOf(merge.Actor(k.Of>>plan.NthBits), expected)
	}
	who := f.placeOf(a, 0)
	if len(f.acts.seen) == 1 || !f.c.Flag(&f.m.act[actContext(k)].other, who != expected) {
		return expected
	}
	if len(f.acts.seen) > mostChosen {
		who = f.c.Uniform(who, len(f.acts.seen))
	} else {
		who = f.c.Choose(&f.m.device, who)
	}
	if who == expected {
		f.c.Fail() // one act is not named in two ways
	}
	return who
}

// placeOf is the place of a device among those seen, or another where it is none of them.
func (f *form) placeOf(a merge.Actor, other int) int {
	for i, s := range f.acts.seen {
		if s.Actor == a {
			return i
		}
	}
	return other
}
