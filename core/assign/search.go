package assign

// score is how good a hand is, the weightiest first; less is better.
type score [5]int64

func (a score) less(b score) bool {
	for k := range a {
		if a[k] != b[k] {
			return a[k] < b[k]
		}
	}
	return false
}

// chance is a fixed sequence of numbers that look random (xorshift, G. Marsaglia 2003).
type chance uint64

func (c *chance) below(n int) int {
	x := uint64(*c)
	x ^= x << 13
	x ^= x >> 7
	x ^= x << 17
	*c = chance(x)
	return int(x >> 33 % uint64(n))
}

// search improves a hand by small changes. A change is kept if the hand is no worse than it
// was a while ago (late acceptance hill climbing, Burke and Bykov 2017), so that it can leave
// a place where every single change is a step back.
type search struct {
	h        *hand
	caps     []int64
	heavy    int64 // what a minute above a cap counts, against a pair; 0: loads first, then the rest; loadsOnly
	likes    int64 // what a liking counts against a pair, where heavy is above 0
	aim      score // what is good enough,
	depth    int   // in so many places
	enoughOf score // better than this in the places before the last of depth counts as this; see solver.kept
	past     []score
	now      score
	best     score
	keep     []int8 // the best split
	dice     chance
}

func newSearch(h *hand, caps []int64, heavy int64, length int) *search {
	s := &search{h: h, caps: caps, heavy: heavy, dice: 88172645463325252 ^ chance(h.t.spent)<<20}
	s.past, s.keep = make([]score, length), append([]int8(nil), h.to...)
	s.start()
	return s
}

// start takes the hand as it is for the best so far.
func (s *search) start() {
	s.now = s.rate()
	s.best = s.now
	copy(s.keep, s.h.to)
	for k := range s.past {
		s.past[k] = s.now
	}
}

// rate is the hand's score.
func (s *search) rate() score {
	h := s.h
	over := h.over(s.caps)
	if s.heavy == loadsOnly {
		return score{over}
	}
	if s.heavy > 0 {
		return score{over*s.heavy + int64(h.pairs)*pairCounts - int64(h.rather)*s.likes, -int64(h.rather), h.square(), int64(h.moves)}
	}
	all := score{over, int64(h.pairs), -int64(h.rather), h.square(), int64(h.moves)}
	for k := 1; k < s.depth-1; k++ {
		all[k] = max(all[k], s.enoughOf[k])
	}
	return all
}

const (
	pairCounts = 1 << 20 // a pair in a score in which minutes above caps count too
	loadsOnly  = -1
)

// enough says whether the best is as good as the aim.
func (s *search) enough() bool {
	for k := range s.depth {
		if s.best[k] > s.aim[k] {
			return false
		}
	}
	return s.depth > 0
}

// run makes changes until the work is used up or the aim is reached, and leaves the best.
func (s *search) run(until int) {
	h := s.h
	if len(h.t.items) == 0 || len(h.t.offer) < 2 {
		return
	}
	for turn := 0; h.t.spent < until && !s.enough(); turn++ {
		h.t.spent += 12 + len(h.t.offer)
		h.log = h.log[:0]
		if !s.change() || h.loss != h.t.left {
			h.undo(0)
			continue
		}
		fresh := s.rate()
		at := turn % len(s.past)
		if s.past[at].less(fresh) && s.now.less(fresh) {
			h.undo(0)
		} else {
			s.now = fresh
			if fresh.less(s.best) {
				s.best = fresh
				copy(s.keep, h.to)
			}
		}
		s.past[at] = s.now
	}
	s.back()
}

// kick makes so many changes, good or bad.
func (s *search) kick(changes int) {
	for range 20 * changes {
		s.h.log = s.h.log[:0]
		if !s.change() || s.h.loss != s.h.t.left {
			s.h.undo(0)
		} else if changes--; changes <= 0 {
			break
		}
	}
	s.h.log = s.h.log[:0]
}

// back puts the best split into the hand.
func (s *search) back() {
	s.h.restore(s.keep)
	s.now = s.best
}
