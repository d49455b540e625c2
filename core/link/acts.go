package link

import (
	"newel/core/merge"
	"newel/core/pack"
)

// acts are the stamps of a document. Those that were used are kept in the order of their
// last use: what was changed in one act stands close together, mostly in one duty.
type acts struct {
	seen   []merge.Stamp // the last act of each device
	recent []merge.Stamp // the latest first
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
	same, unknown pack.Bit
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
		f.acts.seen = append(f.acts.seen, s)
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
		f.acts.recent = append(f.acts.recent, f.newAct(s))
	}
	s = f.acts.recent[at]
	copy(f.acts.recent[1:at+1], f.acts.recent[:at])
	f.acts.recent[0] = s
	return s
}

// newAct codes an act that was not named before.
func (f *form) newAct(s merge.Stamp) merge.Stamp {
	if len(f.acts.seen) == 0 {
		f.c.Fail()
		return s
	}
	who := 0
	for i, seen := range f.acts.seen {
		if seen.Actor == s.Actor {
			who = i
		}
	}
	if len(f.acts.seen) > mostChosen {
		who = f.c.Uniform(who, len(f.acts.seen))
	} else {
		who = f.c.Choose(&f.m.device, who)
	}
	seen := f.acts.seen[who]
	return merge.Stamp{Actor: seen.Actor, N: uint32(f.c.Uniform(int(s.N)-1, int(seen.N))) + 1}
}
