package assign

import "sort"

// branch goes through who may have dates of each series, and at its leaves through who has
// them. It drops what cannot reach the goal: by price, by room, by likings, by squares.
type branch struct {
	t      *task
	e      *tables
	roomy  []int64
	goal   *goal
	most   int64 // pairs that there may be, beside what is held
	prices []*price
	order  []int      // series
	ways   [][]uint64 // by place in order: sets of helpers, the cheapest first
	rest   [][]int64  // by price and place in order: least cost from it on
	sofar  []int64    // by price: cost of what is chosen
	rather [][]int64  // by series and set: the most likings
	moves  [][]int64  // by series and set: the fewest moves
	after  []sums     // by place in order: at best, from it on
	so     sums
	pairs  int64
	pairsR []int64 // by place in order: the fewest pairs from it on
	need   [][]int64
	chosen []uint64 // by series
	leaf   *leaf
	until  int
	slice  int  // work for one leaf
	torn   bool // a leaf was given up
}

func (t *task) newBranch(e *tables, room []int64, g *goal, most int64, prices []*price) *branch {
	b := &branch{t: t, e: e, roomy: e.sums(room), goal: g, most: most, prices: prices, leaf: newLeaf(t, e, room, g)}
	b.sofar = make([]int64, len(prices))
	b.chosen = make([]uint64, len(t.series))
	for s := range t.series {
		if len(e.kinds[s]) > 0 {
			b.order = append(b.order, s)
		}
		b.rather = append(b.rather, make([]int64, e.full+1))
		b.moves = append(b.moves, make([]int64, e.full+1))
		b.fill(s)
	}
	weight := make([]int64, len(t.series))
	for s, kinds := range e.kinds {
		for _, k := range kinds {
			weight[s] += k.load * k.count
		}
	}
	sort.SliceStable(b.order, func(x, y int) bool { return weight[b.order[x]] > weight[b.order[y]] })
	b.prepare()
	return b
}

// fill works out likings and moves of a series for each set of helpers.
func (b *branch) fill(s int) {
	for set := range b.rather[s] {
		for k := range b.e.kinds[s] {
			kind := &b.e.kinds[s][k]
			able := kind.able & uint64(set)
			most := int64(-1)
			for rest := able; rest != 0; rest &= rest - 1 {
				most = max(most, liking(kind.rather, lowest(rest)))
			}
			if kind.may {
				most = max(most, 0)
			}
			b.rather[s][set] += most * kind.count
			if kind.keeps != Nobody && able>>kind.keeps&1 == 0 {
				b.moves[s][set] += kind.count
			}
		}
		b.t.spent += 3 * len(b.e.kinds[s])
	}
}

// prepare sorts the ways of each series and works out what is left at each place.
func (b *branch) prepare() {
	n := len(b.order)
	b.need = append(b.need, b.e.needs())
	for set := range b.need[0] {
		b.need[0][set] += b.e.base[set]
	}
	b.after, b.pairsR = make([]sums, n+1), make([]int64, n+1)
	b.rest = make([][]int64, len(b.prices))
	for p := range b.prices {
		b.rest[p] = make([]int64, n+1)
	}
	b.ways = make([][]uint64, n)
	for k := n - 1; k >= 0; k-- {
		s := b.order[k]
		b.need = append(b.need, make([]int64, b.e.full+1))
		ways := append([]uint64(nil), b.e.sets[s]...)
		cost := b.prices[0].cost[s]
		sort.SliceStable(ways, func(x, y int) bool { return cost[ways[x]] < cost[ways[y]] })
		b.ways[k] = ways
		for p, price := range b.prices {
			b.rest[p][k] = b.rest[p][k+1] + price.least[s]
		}
		best, few := sums{rather: -endless, moves: endless}, int64(endless)
		for _, set := range ways {
			best.rather, best.moves = max(best.rather, b.rather[s][set]), min(best.moves, b.moves[s][set])
			few = min(few, int64(ones(set&^b.t.series[s].held)))
		}
		b.after[k] = sums{rather: b.after[k+1].rather + best.rather, moves: b.after[k+1].moves + best.moves}
		b.pairsR[k] = b.pairsR[k+1] + few
	}
	b.t.spent += n * int(b.e.full)
}

// fits says whether any answer can be left at the root.
func (b *branch) fits() bool {
	for set, n := range b.need[0] {
		if n > b.roomy[set] {
			return false
		}
	}
	return true
}

// run goes through the ways from place k on. It gives false when the work is used up.
func (b *branch) run(k int) bool {
	if b.t.spent > b.until || b.goal.any && b.goal.level <= Pairs {
		return false
	}
	if k == len(b.order) {
		return b.bottom()
	}
	s := b.order[k]
	for _, set := range b.ways[k] {
		b.t.spent += 3
		if b.dear(0, b.prices[0].cost[s][set]+b.rest[0][k+1]) {
			break // the ways are in order of this cost
		}
		if !b.choose(k, s, set) {
			b.chosen[s] = 0
			continue
		}
		before, pairs := b.so, b.pairs
		b.so.rather += b.rather[s][set]
		b.so.moves += b.moves[s][set]
		b.pairs += int64(ones(set &^ b.t.series[s].held))
		for p, price := range b.prices {
			b.sofar[p] += price.cost[s][set]
		}
		ok := true
		if b.promising(k + 1) {
			ok = b.run(k + 1)
		}
		b.so, b.pairs = before, pairs
		for p, price := range b.prices {
			b.sofar[p] -= price.cost[s][set]
		}
		b.chosen[s] = 0
		if !ok {
			return false
		}
	}
	return true
}
