package assign

// firstBound is a bound of a level after the third that takes no search.
func (s *solver) firstBound(level Level) int64 {
	switch {
	case level == Rather:
		return s.t.mostLikings()
	case level == Moves:
		return s.t.fewestMoves()
	case s.e == nil:
		return s.t.flatSquare()
	}
	need := s.e.needs()
	for set := range need {
		need[set] += s.e.base[set]
	}
	return s.e.leastSquare(need)
}

// mostLikings is what there would be if each item went to whoever likes it best.
func (t *task) mostLikings() (most int64) {
	for j := range t.items {
		it := &t.items[j]
		here := int64(-1)
		if it.may || it.never {
			here = 0
		}
		for set := it.able; set != 0; set &= set - 1 {
			here = max(here, liking(it.rather, lowest(set)))
		}
		most += here
	}
	return most
}

// fewestMoves counts the items that cannot stay with whom they are with in any best answer.
func (t *task) fewestMoves() (moves int64) {
	for j := range t.items {
		if it := &t.items[j]; it.now != Nobody && it.able>>it.now&1 == 0 {
			moves++
		}
	}
	return moves
}

// flatSquare is the least square that there could be if any minute could be anybody's: loads
// in proportion to 1/q.
func (t *task) flatSquare() int64 {
	total, spread := 0.0, 0.0
	for j := range t.items {
		if it := &t.items[j]; !it.may && !it.never {
			total += float64(it.load)
		}
	}
	for i, l := range t.base {
		total += float64(l)
		spread += 1 / float64(t.scale[i])
	}
	if spread == 0 {
		return 0
	}
	return int64(total * total / spread * (1 - 1e-12))
}

// fewestPairs is a bound for level 3 that needs no tables: dates of one series that no two of
// have an able helper in common need as many helpers, and so do those that no one helper can
// take all of.
func (t *task) fewestPairs() (sum int64) {
	for g := range t.series {
		var used uint64
		all, apart := ^uint64(0), int64(0)
		for _, j := range t.series[g].items {
			it := &t.items[j]
			if it.may || it.able == 0 || it.able&t.series[g].held != 0 {
				continue
			}
			all &= it.able
			if used&it.able == 0 {
				used |= it.able
				apart++
			}
		}
		if apart == 1 && all == 0 {
			apart = 2
		}
		sum += apart
	}
	return sum
}
