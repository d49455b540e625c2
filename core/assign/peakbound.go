package assign

// peakBound is a proven bound for level 2: in every set of helpers there must be room for
// what nobody else can take (Hall's condition, P. Hall 1935), in whole steps of load; and
// every item that must be covered needs room with somebody.
func (t *task) peakBound(e *tables) Ratio {
	least := Ratio{0, 1}
	for i, l := range t.base {
		least = higher(least, Ratio{l, t.offer[i]})
	}
	for j := range t.items {
		least = higher(least, t.alone(&t.items[j]))
	}
	if e == nil {
		return t.chainBound(least)
	}
	e.must = e.strictNeeds()
	need := e.must
	for set := uint64(1); set <= e.full; set++ {
		if need[set] > 0 {
			least = e.roomFor(need[set]+e.base[set], set, least)
		}
	}
	return ratio(least.Num, least.Den)
}

// strictNeeds is as needs, and minds that items of one part overlap.
func (e *tables) strictNeeds() []int64 {
	t := e.t
	need := make([]int64, e.full+1)
	var now, next []int64
	for c := range t.parts {
		p := &t.parts[c]
		if p.diagram == nil || p.diagram.arcs()*int(e.full) > t.limit/40 {
			for _, j := range p.items {
				if it := &t.items[j]; !it.may && it.able != 0 {
					for set := it.able; set <= e.full; set = (set + 1) | it.able {
						need[set] += it.load
					}
				}
			}
			t.spent += len(need) * len(p.items) / 4
			continue
		}
		for set := range need {
			need[set] += p.diagram.inside(uint64(set), now, next)
		}
		t.spent += p.diagram.arcs() * len(need)
	}
	return need
}

func higher(a, b Ratio) Ratio {
	if a.below(b) {
		return b
	}
	return a
}

// alone is the least load over offer that somebody has who takes an item.
func (t *task) alone(it *item) Ratio {
	if it.may || it.able == 0 {
		return Ratio{0, 1}
	}
	least := Ratio{MaxItems * MaxLoad, 1}
	for set := it.able; set != 0; set &= set - 1 {
		i := lowest(set)
		if here := (Ratio{t.base[i] + it.load, t.offer[i]}); here.below(least) {
			least = here
		}
	}
	return least
}

// roomFor raises a ratio until helpers of a set can have so many minutes with it.
func (e *tables) roomFor(minutes int64, set uint64, least Ratio) Ratio {
	offered := int64(0)
	for rest := set; rest != 0; rest &= rest - 1 {
		offered += e.t.offer[lowest(rest)]
	}
	least = higher(least, Ratio{minutes, offered})
	for {
		e.t.spent += 2
		room, next := int64(0), Ratio{MaxItems * MaxLoad, 1}
		for rest := set; rest != 0; rest &= rest - 1 {
			i := lowest(rest)
			most := e.reach[i].most(least.Num * e.t.offer[i] / least.Den)
			room += most
			if here := (Ratio{e.reach[i].next(most), e.t.offer[i]}); here.below(next) {
				next = here
			}
		}
		if room >= minutes || next.Num == MaxItems*MaxLoad {
			return least
		}
		least = next
	}
}

// chainBound is the bound with many helpers: the sets are those that one item can go to, all
// helpers, and what the helpers of growing sets have together.
func (t *task) chainBound(least Ratio) Ratio {
	sets := []uint64{1<<len(t.offer) - 1}
	for j := range t.items {
		known := false
		for _, s := range sets {
			known = known || s == t.items[j].able
		}
		if !known && len(sets) < 400 {
			sets = append(sets, t.items[j].able)
		}
	}
	for _, set := range sets {
		need, offered := int64(0), int64(0)
		for j := range t.items {
			if it := &t.items[j]; !it.may && it.able != 0 && it.able&^set == 0 {
				need += it.load
			}
		}
		for rest := set; rest != 0; rest &= rest - 1 {
			need += t.base[lowest(rest)]
			offered += t.offer[lowest(rest)]
		}
		t.spent += len(t.items) / 4
		if offered > 0 {
			least = higher(least, Ratio{need, offered})
		}
	}
	return ratio(least.Num, least.Den)
}
