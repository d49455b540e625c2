package assign

// liftPeak raises a bound towards what was found: it is asked of small sets of helpers that are
// pressed whether what must fall to them can be shared out so that less is reached.
func (s *solver) liftPeak(got, bound Ratio, packed, work int) Ratio {
	until := s.t.spent + work
	sets := s.pressed(got, packed)
	caps := s.e.room(under(s.t, got, 1))
	for range liftSteps {
		if s.crammed(sets, caps, until) {
			return s.e.nextPeak(caps, got)
		}
		if !s.t.matters(got, bound) {
			break
		}
		for i, c := range under(s.t, bound, 0) {
			caps[i] = s.e.reach[i].most((c + caps[i]) / 2)
		}
	}
	return bound
}

const (
	// liftSteps is how often what is between a bound and what was found is halved,
	liftSteps = 4
	// and pressedPart how many hundredths of what was found must fall to a set at least for it
	// to be looked at. Both were tried out on the families of testdata/split.
	pressedPart = 90
)

// pressed lists the pairs of helpers, or all of no more than packed, to whom nearly as much falls as
// there is room for.
func (s *solver) pressed(got Ratio, packed int) (sets []*packing) {
	for set := uint64(1); set <= s.e.full; set++ {
		if n := ones(set); n != 2 && (n > packed || set != s.e.full) {
			continue
		}
		offered := int64(0)
		for rest := set; rest != 0; rest &= rest - 1 {
			offered += s.t.offer[lowest(rest)]
		}
		if must := s.e.must[set] + s.e.base[set]; must*got.Den*100 >= offered*got.Num*pressedPart {
			sets = append(sets, newPacking(s.t, set))
		}
	}
	return sets
}

// crammed says whether it is proven that one of the sets has too little room.
func (s *solver) crammed(sets []*packing, caps []int64, until int) bool {
	for _, p := range sets {
		if !p.fits(caps, until) {
			return true
		}
	}
	return false
}

// nextPeak is the least largest load over offer above caps, and no more than what was found.
func (e *tables) nextPeak(caps []int64, got Ratio) Ratio {
	for i, c := range caps {
		if here := (Ratio{e.reach[i].next(c), e.t.offer[i]}); here.below(got) {
			got = here
		}
	}
	return ratio(got.Num, got.Den)
}
