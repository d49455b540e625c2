package assign

// price is a way of turning limits into costs (Lagrangian relaxation; Fisher, Management
// Science 27, 1981): pairs cost pair each, likings earn liking each, and each minute of helper
// i costs minute[i]. No answer costs less than each series does at least, and what is fixed.
type price struct {
	pair   int64
	liking int64
	minute []int64
	level  Level     // what it bounds; see ascent
	cost   [][]int64 // by series and set of helpers
	least  []int64   // by series: over its sets
	best   []uint64  // by series: the set with the least cost
	fixed  int64     // what is added; see ascent

	cheapest []int64 // by set of helpers: what one item costs; while costs are filled in
}

const endless = 1 << 61

// fillCosts works out the costs of all sets of all series.
func (e *tables) fillCosts(p *price) {
	if p.cost == nil {
		p.cost = make([][]int64, len(e.kinds))
		p.least = make([]int64, len(e.kinds))
		p.best = make([]uint64, len(e.kinds))
		p.cheapest = make([]int64, e.full+1)
		for s := range p.cost {
			p.cost[s] = make([]int64, e.full+1)
		}
	}
	for s, kinds := range e.kinds {
		if len(kinds) == 0 {
			p.best[s] = e.t.series[s].held
			continue
		}
		held, cost := e.t.series[s].held, p.cost[s]
		for set := range cost {
			cost[set] = p.pair * int64(ones(uint64(set)&^held))
		}
		for k := range kinds {
			e.addCost(p, &kinds[k], p.cheapest, cost)
		}
		p.least[s] = endless
		for _, set := range e.sets[s] {
			if cost[set] < p.least[s] {
				p.least[s], p.best[s] = cost[set], set
			}
		}
		e.t.spent += len(cost) * (1 + len(kinds)) / 4
	}
}

// addCost adds what one kind of item costs with each set of helpers. Each goes to whoever
// costs least.
func (e *tables) addCost(p *price, k *kind, cheapest, cost []int64) {
	cheapest[0] = endless
	if k.may {
		cheapest[0] = 0
	}
	for i := range e.t.offer {
		bit := 1 << i
		here := int64(endless)
		if k.able>>i&1 != 0 {
			here = p.minute[i]*k.load - p.liking*liking(k.rather, i)
		}
		for set := bit; set < 2*bit; set++ {
			cheapest[set] = min(here, cheapest[set-bit])
		}
	}
	for set := range cost {
		if cheapest[set] == endless {
			cost[set] = endless
		} else if cost[set] < endless {
			cost[set] += cheapest[set] * k.count
		}
	}
}

// bound is the right side of what price says.
func (p *price) bound() int64 {
	sum := p.fixed
	for _, l := range p.least {
		sum += l
	}
	return sum
}
