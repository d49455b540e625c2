package assign

// solver carries what is known from level to level.
type solver struct {
	t      *task
	e      *tables // nil with many helpers
	h      *hand
	a      *Answer
	caps   []int64 // by helper: what level 2 allows
	room   []int64 // by helper: the most under it that there can be
	held   int64   // pairs of what is held
	prices [LevelEnd]*ascent
	bounds [LevelEnd]int64 // of the levels after the second, without what is held
	// kept is what each level that is done with got. The levels after it stay at least as
	// good in it, and bounds and proofs are about all answers that are: so they stay true
	// even where one that is better in an unproven level is met on the way.
	kept [LevelEnd]int64
}

// level3 looks for the fewest pairs.
func (s *solver) level3() {
	t, h := s.t, s.h
	for g := range t.series {
		s.held += int64(ones(t.series[g].held))
	}
	fewest := s.held + t.fewestPairs()
	if s.e != nil {
		s.room = s.e.room(s.caps)
		fewest = max(fewest, s.held+s.bid(Pairs, 120))
	}
	s.improve(Pairs, fewest, 1, roundWork/10)
	if fewest < int64(h.pairs) && s.e != nil {
		fewest = s.raiseFewest(fewest, t.limit/200)
	}
	s.improve(Pairs, fewest, 3, roundWork)
	for turn := 1; turn <= 2 && fewest < int64(h.pairs) && s.e != nil && t.spent < t.limit/2; turn++ {
		fewest = s.raiseFewest(fewest, turn*t.limit/40)
		s.improve(Pairs, fewest, 2+turn, roundWork)
	}
	s.note(Pairs, fewest)
	s.kept[Pairs] = int64(h.pairs)
}

// raiseFewest looks for an answer with as few pairs as the bound, and raises the bound as
// long as there is none.
func (s *solver) raiseFewest(fewest int64, work int) int64 {
	fewest = max(fewest, s.held+s.bid(Pairs, 60))
	for end := s.t.spent + work; fewest < int64(s.h.pairs); fewest++ {
		g := &goal{level: Pairs}
		if done := s.pass(g, fewest, end-s.t.spent, Pairs); g.any || !done {
			break
		}
	}
	return fewest
}

// bid climbs for a bound of a level, from where it was left, and gives it.
func (s *solver) bid(level Level, turns int) int64 {
	most, wanted := s.kept[Pairs]-s.held, s.kept[Rather]
	if level == Pairs {
		most = int64(s.h.pairs) - s.held
	}
	a := s.prices[level]
	if a == nil || a.most != most || a.wanted != wanted {
		fresh := s.e.ascent(level, s.room, most, wanted)
		if a != nil {
			fresh.restore(a.keep(nil))
		} else if level == Square {
			fresh.begin(s.h)
		}
		a, s.prices[level] = fresh, fresh
	}
	switch level {
	case Pairs:
		return max(0, ceiling(a.climb(most*pairUnit, turns), pairUnit))
	case Rather:
		return -ceiling(a.climb(-int64(s.h.rather)*pairUnit, turns), pairUnit)
	}
	return a.climb(s.h.square(), turns)
}

// pass goes through what may reach a goal, and takes over what does. It says whether all of
// it was gone through.
func (s *solver) pass(g *goal, most int64, work int, levels ...Level) bool {
	var prices []*price
	for _, l := range levels {
		prices = append(prices, s.prices[l].p)
	}
	b := s.t.newBranch(s.e, s.room, g, most-s.held, prices)
	b.until = s.t.spent + work
	b.slice = work / 4
	done := true
	if b.fits() && b.promising(0) {
		done = b.run(0) && !b.torn
	}
	if g.any {
		s.h.restore(g.to)
	}
	return done
}

// values are the hand's sums of the levels after the second.
func (h *hand) values() [LevelEnd]int64 {
	return [LevelEnd]int64{Pairs: int64(h.pairs), Rather: int64(h.rather), Square: h.square(), Moves: int64(h.moves)}
}

// noteTo notes a bound of a level, and what was got in it and in those before.
func (s *solver) noteTo(level Level, bound int64) {
	for l := Pairs; l < level; l++ {
		s.note(l, s.bounds[l])
	}
	s.note(level, bound)
}

// note notes what was got in a level, and a bound.
func (s *solver) note(level Level, bound int64) {
	got := s.h.values()[level]
	s.bounds[level] = bound
	add := int64(0)
	if level == Rather || level == Moves {
		add = s.t.fixed[level]
	}
	s.a.Values[level] = Value{whole(got + add), whole(bound + add), got == bound}
}
