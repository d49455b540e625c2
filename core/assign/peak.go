package assign

// level2 finds the least largest load over offer.
func (s *solver) level2() {
	bound := s.t.peakBound(s.e)
	got := s.spread(bound)
	if bound.below(got) && s.e != nil {
		got, bound = s.provePeak(got, bound)
	}
	s.a.Values[Peak] = Value{got, bound, got == bound}
	s.caps = make([]int64, len(s.t.offer))
	for i, o := range s.t.offer {
		s.caps[i] = limit(o, got)
		s.a.Cap[s.t.places[i]] = int(s.caps[i])
	}
}

// spread searches for an answer at the bound, then for better ones by halving what is between
// what was found and what was not.
func (s *solver) spread(bound Ratio) Ratio {
	t, h := s.t, s.h
	best, keep := h.peak(), append([]int8(nil), h.to...)
	low, caps := under(t, bound, 0), under(t, bound, 0)
	for end := t.spent + t.limit/16; bound.below(best) && t.spent < end; {
		find := newSearch(h, caps, loadsOnly, 60)
		find.depth = 1
		find.run(min(end, t.spent+t.limit/80))
		if here := h.peak(); here.below(best) {
			best = here
			copy(keep, h.to)
		}
		if !halve(caps, low, under(t, best, 1), find.best[0] > 0) {
			break
		}
	}
	h.restore(keep)
	return best
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
func (s *solver) provePeak(got, bound Ratio) (Ratio, Ratio) {
	for end := s.t.spent + s.t.limit/40; bound.below(got); got = s.h.peak() {
		caps := under(s.t, got, 1)
		for i, c := range caps {
			if c < s.t.base[i] {
				return got, got
			}
		}
		g := &goal{level: Peak}
		done := s.among(caps, g, end)
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
func (s *solver) among(caps []int64, g *goal, end int) bool {
	l := newLeaf(s.t, s.e, s.e.room(caps), g)
	l.until = end
	for j := range l.dom {
		l.dom[j] = s.t.items[j].able
	}
	if !l.start() {
		return !l.torn
	}
	return l.run(0)
}
