package assign

// leastLoss bounds from below what any answer leaves uncovered of a part that is too large to
// be solved: items that all overlap one another can be covered only as far as they can be
// matched with different helpers.
func (t *task) leastLoss(p *part) (loss int64) {
	left := append([]int32(nil), p.items...)
	for len(left) > 0 {
		var clique, rest []int32
		for _, j := range left {
			if t.clashesAll(j, clique) {
				clique = append(clique, j)
			} else {
				rest = append(rest, j)
			}
		}
		loss += t.unmatched(clique)
		left = rest
	}
	return loss
}

func (t *task) clashesAll(j int32, clique []int32) bool {
	for _, k := range clique {
		if t.meets[j][k/64]>>(k%64)&1 == 0 && t.items[j].able&t.items[k].able != 0 {
			return false
		}
	}
	t.spent += len(clique) / 8
	return true
}

// unmatched is the least worth of the items that are left when each of the others has a
// helper of its own. Sets that can be matched are a matroid, so taking the worthiest first
// is best (Lawler, Combinatorial Optimization, 1976, chapter 7; from memory).
func (t *task) unmatched(clique []int32) (loss int64) {
	t.byWorth(clique)
	who := make([]int32, len(t.offer))
	for i := range who {
		who[i] = Nobody
	}
	for _, j := range clique {
		var seen uint64
		if !t.match(j, who, &seen) {
			loss += t.items[j].worth
		}
	}
	return loss
}

func (t *task) match(j int32, who []int32, seen *uint64) bool {
	for set := t.items[j].able &^ *seen; set != 0; set &= set - 1 {
		i := lowest(set)
		if *seen>>i&1 != 0 {
			continue
		}
		*seen |= 1 << i
		if who[i] == Nobody || t.match(who[i], who, seen) {
			who[i] = j
			return true
		}
	}
	return false
}
