package assign

// sort puts long items first, and items that can stand for one another next to each other.
func (l *leaf) sort() {
	o := l.order
	for a := 1; a < len(o); a++ {
		for b := a; b > 0 && l.sooner(o[b], o[b-1]); b-- {
			o[b], o[b-1] = o[b-1], o[b]
		}
	}
	l.twin = l.twin[:0]
	for k := range o {
		l.twin = append(l.twin, k > 0 && l.twins(o[k-1], o[k]))
	}
}

func (l *leaf) sooner(j, k int32) bool {
	a, b := &l.t.items[j], &l.t.items[k]
	if a.may != b.may {
		return a.may
	}
	if a.load != b.load {
		return a.load > b.load
	}
	if a.series != b.series {
		return a.series < b.series
	}
	if l.dom[j] != l.dom[k] {
		return l.dom[j] < l.dom[k]
	}
	if a.now != b.now {
		return a.now < b.now
	}
	return j < k
}

// twins says whether two items may be exchanged in any answer without a change.
func (l *leaf) twins(j, k int32) bool {
	a, b := &l.t.items[j], &l.t.items[k]
	return !a.may && !b.may && a.series == b.series && a.load == b.load && a.now == b.now && l.dom[j] == l.dom[k] &&
		alike(a.rather, b.rather, l.dom[j]) && l.apart(j) && l.apart(k)
}

// apart says whether nothing that is still open overlaps an item with a helper in common.
func (l *leaf) apart(j int32) bool {
	for _, k := range l.t.items[j].clash {
		if l.to[k] == undecided && l.dom[k]&l.dom[j] != 0 {
			return false
		}
	}
	return true
}

// prepare works out what is left at each place, and whether there is room.
func (l *leaf) prepare() bool {
	n := len(l.order)
	for len(l.need) <= n {
		l.need = append(l.need, make([]int64, l.e.full+1))
		l.rest = append(l.rest, sums{})
	}
	l.rest[n] = sums{}
	need := l.need[0]
	clear(need)
	for k := n - 1; k >= 0; k-- {
		j := l.order[k]
		l.rest[k] = l.atBest(j, l.rest[k+1])
		if it := &l.t.items[j]; !it.may {
			need[l.dom[j]] += it.load
		}
	}
	for i, has := range l.load {
		need[1<<i] += has
	}
	l.e.sumSubsets(need)
	for set, n := range need {
		if n > l.roomy[set] {
			return false
		}
	}
	return true
}

// atBest adds what an item can add at best.
func (l *leaf) atBest(j int32, r sums) sums {
	it, dom, most := &l.t.items[j], l.dom[j], int64(-1)
	for set := dom; set != 0; set &= set - 1 {
		most = max(most, liking(it.rather, lowest(set)))
	}
	if it.may {
		most = max(most, 0)
	}
	if it.now != Nobody && dom>>it.now&1 == 0 {
		r.moves++
	}
	r.rather += most
	return r
}
