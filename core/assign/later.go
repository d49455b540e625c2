package assign

// later looks at a level after the third: likings, squares and moves go through the same
// steps. What is small is gone through at once, without a search before.
func (s *solver) later(level Level) {
	bound, done := s.firstBound(level), false
	if s.e == nil {
		s.improve(level, bound, 3, roundWork)
		s.noteTo(level, bound)
		done = true
	}
	for work := s.t.limit / 80; !done; work = s.t.limit / 8 {
		bound = s.raiseBound(level, bound)
		if work > s.t.limit/80 {
			s.improve(level, bound, 3, roundWork)
		}
		if s.noteTo(level, bound); s.a.Values[level].Proven || s.t.spent > s.t.limit {
			break
		}
		g := s.goal(level)
		if s.pass(g, s.kept[Pairs], work, guides(level)...) {
			bound, done = s.h.values()[level], true
		}
		s.noteTo(level, bound)
		done = done || work > s.t.limit/80 && !g.any
	}
	s.kept[level] = s.h.values()[level]
}

// goal is to be better in a level, and as good as what is kept in those before.
func (s *solver) goal(level Level) *goal {
	want := s.kept
	want[level] = s.h.values()[level]
	return &goal{level: level, rather: want[Rather], square: want[Square], moves: want[Moves]}
}

// guides are the levels whose prices a pass goes by, the first before the others.
func guides(level Level) []Level {
	if level == Rather {
		return []Level{Rather, Pairs}
	}
	return []Level{Square, Rather, Pairs}
}

// raiseBound makes the prices of a level fit what was got in those before, and gives the better
// of two bounds.
func (s *solver) raiseBound(level Level, bound int64) int64 {
	if s.e == nil || s.h.values()[level] == bound {
		return bound
	}
	likings := s.bid(Rather, 60)
	switch level {
	case Rather:
		return min(bound, likings)
	case Square:
		return max(bound, s.bid(Square, 60))
	}
	s.bid(Square, 30)
	return bound
}
