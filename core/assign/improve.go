package assign

// The measures of improve; tried out on the families of testdata/split.
const (
	kickChanges = 5       // changes before each search but the first
	rememberFew = 30      // how far back a search looks
	roundWork   = 330_000 // work of one search
	minutesPair = 300     // minutes above a cap that count as much as a pair
	likingsPair = 2       // and likings
)

// improve searches for better answers from the best one, so many times with so much work,
// each time from a place some changes away from it (iterated local search; Lourenço, Martin
// and Stützle 2003), until a level is at its bound.
func (s *solver) improve(level Level, bound int64, rounds, work int) {
	h := s.h
	if len(h.t.items) == 0 || len(h.load) < 2 {
		return
	}
	best := s.searchFor(level, bound, 1)
	for turn := 0; turn < rounds && !best.enough() && s.t.spent < s.t.limit; turn++ {
		if turn > 0 {
			best.kick(kickChanges)
		}
		if level <= Rather {
			s.searchLoosely(level, bound, work)
		}
		find := s.searchFor(level, bound, rememberFew)
		find.run(s.t.spent + work)
		if !best.best.less(find.best) {
			best.best = find.best
			copy(best.keep, h.to)
		}
		best.back()
	}
}

// searchFor starts a search that ends when a level is at its bound and those before it are no
// worse than what is kept.
func (s *solver) searchFor(level Level, bound int64, length int) *search {
	find := newSearch(s.h, s.caps, 0, length)
	find.aim = score{0, s.kept[Pairs], -s.kept[Rather], s.kept[Square], s.kept[Moves]}
	find.enoughOf = find.aim
	find.depth = 2 + int(level-Pairs)
	if level == Rather {
		bound = -bound
	}
	find.aim[find.depth-1] = bound
	find.start()
	return find
}

// searchLoosely searches with minutes above caps, pairs and likings weighed against each other, so
// that the search can go through what is not allowed.
func (s *solver) searchLoosely(level Level, bound int64, work int) {
	loose := newSearch(s.h, s.caps, pairCounts/minutesPair, rememberFew)
	if level == Pairs {
		loose.aim, loose.depth = score{bound * pairCounts}, 1
	} else {
		loose.likes = pairCounts / likingsPair
	}
	loose.start()
	loose.run(s.t.spent + work)
}
