package assign

// change makes one change at random. It gives false where that change cannot be made.
func (s *search) change() bool {
	h := s.h
	j := s.choose()
	it := &h.t.items[j]
	from := int(h.to[j])
	others := it.able
	if from != Nobody {
		others &^= 1 << from
	}
	if others == 0 {
		return false
	}
	if s.heavy == loadsOnly {
		// Whole series are too much where minutes count.
		return s.dice.below(2) == 0 && s.force(j, pick(others, &s.dice)) || s.fit(j, from)
	}
	switch kind := s.dice.below(9); {
	case kind < 3 || from == Nobody:
		return s.force(j, pick(others, &s.dice))
	case kind < 5:
		return s.swap(j, from)
	case kind < 7:
		return s.block(j, from, pick(others, &s.dice))
	default:
		return s.trade(j, from)
	}
}

// trade exchanges all that a helper has of the series of item j with all that another has of
// theirs.
func (s *search) trade(j int32, from int) bool {
	h := s.h
	k := int32(s.dice.below(len(h.t.items)))
	to := int(h.to[k])
	if to == from || to == Nobody || h.t.items[j].able>>to&1 == 0 || h.t.items[k].able>>from&1 == 0 {
		return false
	}
	return s.block(j, from, to) && s.block(k, to, from)
}

// choose picks an item: most often one of a helper with too much, while there is one.
func (s *search) choose() int32 {
	h := s.h
	j := int32(s.dice.below(len(h.t.items)))
	if s.now[0] == 0 || s.heavy > 0 || s.dice.below(4) == 0 {
		return j
	}
	for range 12 {
		if i := h.to[j]; i != Nobody && h.load[i] > s.caps[i] {
			break
		}
		j = int32(s.dice.below(len(h.t.items)))
	}
	return j
}

// pick takes one of a set at random.
func pick(set uint64, dice *chance) int {
	n := 0
	for rest := set; rest != 0; rest &= rest - 1 {
		n++
	}
	for n = dice.below(n); n > 0; n-- {
		set &= set - 1
	}
	return lowest(set)
}

// swap exchanges item j with one of another helper.
func (s *search) swap(j int32, from int) bool {
	h := s.h
	k := int32(s.dice.below(len(h.t.items)))
	to := int(h.to[k])
	if to == from || to == Nobody || h.t.items[j].able>>to&1 == 0 || h.t.items[k].able>>from&1 == 0 {
		return false
	}
	h.give(k, Nobody)
	return s.force(j, to) && s.force(k, from)
}

// fit exchanges item j with that of another helper with which least is above the caps.
func (s *search) fit(j int32, from int) bool {
	h := s.h
	h.t.spent += len(h.to) / 4
	if from == Nobody {
		return false
	}
	with, least, seen := Nobody, int64(endless), 0
	has := h.load[from] - h.t.items[j].load - s.caps[from]
	for k, to := range h.to {
		it := &h.t.items[k]
		if int(to) == from || to == Nobody || h.t.items[j].able>>to&1 == 0 || it.able>>from&1 == 0 {
			continue
		}
		i := int(to)
		over := max(0, has+it.load) + max(0, h.load[i]-it.load+h.t.items[j].load-s.caps[i]) - max(0, h.load[i]-s.caps[i])
		if over > least {
			continue
		}
		if over < least {
			least, seen = over, 0
		}
		if seen++; s.dice.below(seen) == 0 {
			with = k
		}
	}
	if with == Nobody {
		return false
	}
	to := int(h.to[with])
	h.give(int32(with), Nobody)
	return s.force(j, to) && s.force(int32(with), from)
}

// block gives all that a helper has of the series of item j to another, or to whoever else
// has dates of it where that one cannot.
func (s *search) block(j int32, from, to int) bool {
	h := s.h
	of := h.t.items[j].series
	for _, k := range h.t.series[of].items {
		if int(h.to[k]) != from {
			continue
		}
		able := h.t.items[k].able
		if able>>to&1 != 0 && s.force(k, to) {
			continue
		}
		moved := false
		for set := able &^ (1<<from | h.taken(k)); set != 0 && !moved; set &= set - 1 {
			i := lowest(set)
			if h.have[of][i] > 0 || h.t.series[of].held>>i&1 != 0 {
				h.give(k, i)
				moved = true
			}
		}
	}
	return len(h.log) > 0
}

// force gives item j to helper i and finds other places for what i has at that time: with
// whoever had item j, or with somebody who has other dates of it, or with anybody.
func (s *search) force(j int32, i int) bool {
	h := s.h
	was := int(h.to[j])
	h.give(j, i)
	h.t.spent += len(h.t.items[j].clash) >> 3
	for _, k := range h.t.items[j].clash {
		if int(h.to[k]) != i {
			continue
		}
		it := &h.t.items[k]
		h.give(int32(k), Nobody)
		free := it.able &^ (1<<i | h.taken(int32(k)))
		if was != Nobody && free>>was&1 != 0 && s.dice.below(4) > 0 {
			h.give(int32(k), was)
			continue
		}
		if o := s.other(int32(k), free); o != Nobody {
			h.give(int32(k), o)
		}
	}
	return true
}

// other picks one of the helpers who are free for item k.
func (s *search) other(k int32, set uint64) int {
	h, found, seen := s.h, Nobody, 0
	have := h.have[h.t.items[k].series]
	for ; set != 0; set &= set - 1 {
		o := lowest(set)
		if have[o] > 0 && s.heavy >= 0 {
			return o
		}
		if seen++; s.dice.below(seen) == 0 {
			found = o
		}
	}
	return found
}
