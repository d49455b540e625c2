package assign

// level2 finds the least largest load over offer. It tries a little first. It tries harder only
// where that can change something: a limit, or a gap that somebody would notice.
func (s *solver) level2() {
	bound := s.t.peakBound(s.e)
	got, keep := s.h.peak(), append([]int8(nil), s.h.to...)
	for k := 0; k < len(peakShares) && bound.below(got) && s.worthwhile(k, got, bound); k++ {
		work := s.t.limit / peakShares[k]
		got, keep = s.spread(got, bound, keep, work, k > 1)
		if bound.below(got) && s.e != nil {
			bound = s.liftPeak(got, bound, min(2+k, maxPacked), 6*work)
		}
		if bound.below(got) && s.e != nil {
			s.h.restore(keep)
			got, bound = s.provePeak(got, bound, work, k%2 == 1)
			keep = append(keep[:0], s.h.to...)
		}
	}
	s.h.restore(keep)
	s.a.Values[Peak] = Value{got, bound, got == bound}
	s.caps = make([]int64, len(s.t.offer))
	for i, o := range s.t.offer {
		s.caps[i] = limit(o, got)
		s.a.Cap[s.t.places[i]] = int(s.caps[i])
	}
}

// peakShares are the shares of all work that each attempt at level 2 may take.
var peakShares = [...]int{800, 200, 60, 20}

// kickPeak is how many changes, good or bad, each search of the later attempts begins with.
const kickPeak = 40

// noticed is how many minutes of load make a difference to somebody.
const noticed = 15

// worthwhile says whether to make another attempt at level 2. Of a few helpers the last ones
// mostly end in a proof.
func (s *solver) worthwhile(attempt int, got, bound Ratio) bool {
	return attempt < 3 || len(s.t.offer) <= maxPacked || s.t.matters(got, bound)
}

// matters says whether to come closer to the bound could lower a limit, or by minutes that
// are noticed what there would be for who offered most.
func (t *task) matters(got, bound Ratio) bool {
	for _, o := range t.offer {
		if limit(o, got) > limit(o, bound) || got.Num*o/got.Den-bound.Num*o/bound.Den > noticed {
			return true
		}
	}
	return false
}

// spread searches for an answer at the bound, then for better ones by halving what is between
// what was found and what was not. Again, it aims between the two from the beginning.
func (s *solver) spread(best, bound Ratio, keep []int8, work int, again bool) (Ratio, []int8) {
	t, h := s.t, s.h
	low, caps := under(t, bound, 0), under(t, bound, 0)
	if again {
		halve(caps, low, under(t, best, 1), true)
	}
	for end := t.spent + work; bound.below(best) && t.spent < end; {
		find := newSearch(h, caps, loadsOnly, 60)
		find.depth = 1
		if again {
			find.kick(kickPeak)
			find.start()
		}
		find.run(min(end, t.spent+work/4))
		if here := h.peak(); here.below(best) {
			best = here
			copy(keep, h.to)
		}
		if !halve(caps, low, under(t, best, 1), find.best[0] > 0) {
			break
		}
	}
	return best, keep
}

// under gives for each helper the most whole minutes that are no more than a ratio of what
// they offered, or with less set to 1, that are less.
func under(t *task, r Ratio, less int64) []int64 {
	caps := make([]int64, len(t.offer))
	for i, o := range t.offer {
		caps[i] = (r.Num*o - less) / r.Den
	}
	return caps
}

// halve sets caps between the low and the high ones. Where the caps before were missed, the
// low ones rise above them; it gives false when there is nothing left between.
func halve(caps, low, high []int64, missed bool) bool {
	open := false
	for i := range caps {
		if missed {
			low[i] = caps[i] + 1
		}
		open = open || low[i] < high[i]
	}
	for i := range caps {
		caps[i] = min(max(low[i], high[i]-1)-max(0, high[i]-1-low[i])/2, high[i])
	}
	return open || !missed
}

// provePeak looks for something better than got until there is nothing, or the work is used
// up.
func (s *solver) provePeak(got, bound Ratio, work int, even bool) (Ratio, Ratio) {
	for end := s.t.spent + work; bound.below(got); got = s.h.peak() {
		caps := under(s.t, got, 1)
		for i, c := range caps {
			if c < s.t.base[i] {
				return got, got
			}
		}
		g := &goal{level: Peak}
		done := s.among(caps, g, end, even)
		if !g.any && done {
			return got, got
		}
		if !g.any {
			break
		}
		s.h.restore(g.to)
	}
	return got, bound
}

// among looks for an answer under caps, whatever its pairs. It says whether all were gone
// through.
func (s *solver) among(caps []int64, g *goal, end int, even bool) bool {
	l := newLeaf(s.t, s.e, s.e.room(caps), g)
	l.until, l.even = end, even
	for j := range l.dom {
		l.dom[j] = s.t.items[j].able
	}
	if !l.start() {
		return !l.torn
	}
	return l.run(0)
}
