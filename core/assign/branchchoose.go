package assign

// dear says whether a price shows that nothing good enough is left, with so much to come.
func (b *branch) dear(p int, more int64) bool {
	price := b.prices[p]
	limit := price.pair * b.most
	switch price.level {
	case Rather:
		limit = -price.liking * b.wanted()
	case Square:
		limit = b.goal.square
		if b.goal.level == Square {
			limit--
		}
	}
	return price.fixed+b.sofar[p]+more > limit
}

// wanted is how much the likings must come to.
func (b *branch) wanted() int64 {
	if b.goal.level == Rather {
		return b.goal.rather + 1
	}
	return b.goal.rather
}

func (b *branch) promising(k int) bool {
	if b.pairs+b.pairsR[k] > b.most {
		return false
	}
	for p := range b.prices {
		if b.dear(p, b.rest[p][k]) {
			return false
		}
	}
	rather, moves := b.so.rather+b.after[k].rather, b.so.moves+b.after[k].moves
	if !b.goal.reach(rather, 0, moves) {
		return false
	}
	if b.goal.level < Square {
		return true
	}
	b.t.spent += int(b.e.full)
	return b.goal.reach(rather, b.e.leastSquare(b.need[k]), moves)
}

// choose lets a set of helpers have dates of a series, and says whether there is room and
// no overlap.
func (b *branch) choose(k, s int, set uint64) bool {
	from, to := b.need[k], b.need[k+1]
	copy(to, from)
	b.t.spent += len(to) * (1 + len(b.e.kinds[s])) / 4
	for n := range b.e.kinds[s] {
		kind := &b.e.kinds[s][n]
		now := kind.able & set
		if kind.may || now == kind.able {
			continue
		}
		for at := range to {
			if now&^uint64(at) == 0 && kind.able&^uint64(at) != 0 {
				to[at] += kind.load * kind.count
				if to[at] > b.roomy[at] {
					return false
				}
			}
		}
	}
	b.chosen[s] = set
	return b.together(s, set)
}

// together says whether no two dates that have only one helper left overlap.
func (b *branch) together(s int, set uint64) bool {
	for _, j := range b.t.series[s].items {
		it := &b.t.items[j]
		only := it.able & set
		if it.may || only == 0 || only&(only-1) != 0 {
			continue
		}
		b.t.spent += len(it.clash)
		for _, c := range it.clash {
			o := &b.t.items[c]
			if !o.may && b.chosen[o.series] != 0 && o.able&b.chosen[o.series] == only {
				return false
			}
		}
	}
	return true
}

// bottom gives out the dates.
func (b *branch) bottom() bool {
	l := b.leaf
	for j := range l.dom {
		it := &b.t.items[j]
		l.dom[j] = it.able & b.chosen[it.series]
	}
	b.t.spent += 2 * len(l.dom)
	if !l.start() {
		b.torn = b.torn || l.torn
		return true
	}
	l.until = min(b.until, b.t.spent+b.slice)
	if !l.run(0) {
		b.torn = true
		return b.t.spent <= b.until
	}
	return true
}
