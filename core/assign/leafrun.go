package assign

// sums are what given items add to the levels.
type sums struct{ rather, moves int64 }

// goal says what an answer must reach to be taken.
type goal struct {
	level  Level
	rather int64 // of the items
	square int64
	moves  int64
	to     []int8 // the answer that reached it
	any    bool   // one was found
}

// reach says whether sums, with a square of at least so much, can be better than the goal in
// its level and as good before.
func (g *goal) reach(rather, square, moves int64) bool {
	switch g.level {
	case Peak, Pairs:
		return !g.any
	case Rather:
		return rather > g.rather
	case Square:
		return rather >= g.rather && square < g.square
	}
	return rather >= g.rather && square <= g.square && moves < g.moves
}

// run goes through the ways from place k on. It gives false when the work is used up.
func (l *leaf) run(k int) bool {
	l.t.spent += 4 + int(l.e.full)/4
	if l.t.spent > l.until {
		return false
	}
	r := l.rest[k]
	rather, moves := l.so.rather+r.rather, l.so.moves+r.moves
	if !l.goal.reach(rather, 0, moves) || l.goal.level >= Square && !l.goal.reach(rather, l.e.leastSquare(l.need[k]), moves) {
		return true
	}
	if k == len(l.order) {
		l.arrive()
		return true
	}
	j := l.order[k]
	it := &l.t.items[j]
	floor := 0
	if l.twin[k] {
		// Those that stand for one another go to helpers in order: no other order is new.
		floor = int(l.to[l.order[k-1]])
	}
	for set := l.dom[j] >> floor << floor; set != 0; {
		i := l.roomiest(set)
		set &^= 1 << i
		if l.open(it, i) && !l.try(k, i) {
			return false
		}
	}
	return !it.may || l.try(k, Nobody)
}

// roomiest is the first helper of a set, or if those are to be even, the one who has most room
// left.
func (l *leaf) roomiest(set uint64) int {
	best := lowest(set)
	if !l.even {
		return best
	}
	for set &= set - 1; set != 0; set &= set - 1 {
		if i := lowest(set); l.room[i]-l.load[i] > l.room[best]-l.load[best] {
			best = i
		}
	}
	return best
}

// try goes through the ways in which the item at place k goes to helper i. It gives false when
// the work is used up.
func (l *leaf) try(k, i int) bool {
	ok := true
	if l.put(l.order[k], i) && l.pass(k, i) {
		ok = l.run(k + 1)
	}
	l.take(l.order[k])
	return ok
}

func (l *leaf) open(it *item, i int) bool {
	for _, c := range it.clash {
		if int(l.to[c]) == i {
			return false
		}
	}
	return true
}

// pass works out what must fall to each set of helpers once the item at place k has its
// helper, and whether there is room.
func (l *leaf) pass(k, i int) bool {
	j := l.order[k]
	it, from, to := &l.t.items[j], l.need[k], l.need[k+1]
	for set, n := range from {
		if i != Nobody && set>>i&1 != 0 && (it.may || l.dom[j]&^uint64(set) != 0) {
			n += it.load
			if n > l.roomy[set] {
				return false
			}
		}
		to[set] = n
	}
	return true
}

// arrive takes an answer.
func (l *leaf) arrive() {
	for c, lost := range l.lost {
		if lost != l.t.parts[c].loss {
			return
		}
	}
	square := int64(0)
	for i, has := range l.load {
		square += l.t.scale[i] * has * has
	}
	g := l.goal
	if !g.reach(l.so.rather, square, l.so.moves) {
		return
	}
	g.any, g.rather, g.square, g.moves = true, l.so.rather, square, l.so.moves
	g.to = append(g.to[:0], l.to...)
}
