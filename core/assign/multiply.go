package assign

// pairUnit is what a pair costs in a price, so that the costs of minutes are whole numbers.
const pairUnit = 1 << 24

// maxMinute keeps sums of costs within 63 bits: 4 320 000 minutes at this are below 2⁵⁷.
const maxMinute = 1 << 34

// ascent looks for the price whose bound is highest, by steps against what its cheapest
// answer has too much or too little of (subgradient method; Held, Wolfe and Crowder,
// Mathematical Programming 6, 1974). What it bounds depends on the level:
//
//	Pairs   pair · pairs of any answer that keeps to the room
//	Rather  minus liking · rather of those that also have no more pairs than most
//	Square  the sum of q L² of those that also have no fewer likings than wanted
//
// Pairs and likings are without what is held.
type ascent struct {
	e      *tables
	p      *price
	level  Level
	room   []int64
	most   int64 // pairs
	wanted int64 // likings
	scale  int64 // minutes that weigh as much as a pair
	loads  []int64
	spare  []int64 // Square: the load that each helper would have at these prices
	pairs  int64
	rather int64
}

func (e *tables) ascent(level Level, room []int64, most, wanted int64) *ascent {
	a := &ascent{e: e, level: level, room: room, most: most, wanted: wanted, scale: 1}
	a.p = &price{pair: pairUnit, minute: make([]int64, len(room)), level: level}
	a.loads, a.spare = make([]int64, len(room)), append([]int64(nil), room...)
	if level >= Rather {
		a.p.pair, a.p.liking = 0, pairUnit
		total := int64(0)
		for j := range e.t.items {
			total += e.t.items[j].load
		}
		a.scale = 1 + total/max(1, most)
	}
	if level == Square {
		a.p.liking = 0
	}
	return a
}

// begin starts from the loads that a hand has.
func (a *ascent) begin(h *hand) {
	sum := int64(0)
	for i, l := range h.load {
		a.p.minute[i] = moved(2*h.t.scale[i]*l, 0)
		sum += a.p.minute[i]
	}
	a.p.pair = moved(sum/int64(len(h.load))*a.scale/4, 0)
	a.p.liking = a.p.pair / 8
}

// climb takes so many steps, for an aim that no bound can be above, and leaves the price at the
// best that was met.
func (a *ascent) climb(aim int64, turns int) int64 {
	best, pace, idle := int64(-endless), 1.0, 0
	top := a.keep(nil)
	for end := a.e.t.spent + a.e.t.limit/20; turns > 0 && a.e.t.spent < end; turns-- {
		here := a.value()
		if here > best {
			best, idle = here, 0
			top = a.keep(top)
		} else if idle++; idle >= 6 {
			pace, idle = pace/2, 0
			a.restore(top)
			if pace < 0.002 {
				break
			}
			here = a.value()
		}
		if best >= aim || !a.step(pace, float64(aim-here)) {
			break
		}
	}
	a.restore(top)
	return a.value()
}

// keep notes the multipliers.
func (a *ascent) keep(to []int64) []int64 {
	return append(append(to[:0], a.p.minute...), a.p.pair, a.p.liking)
}

func (a *ascent) restore(from []int64) {
	m := copy(a.p.minute, from)
	a.p.pair, a.p.liking = from[m], from[m+1]
}

// value works out the bound, and what is fixed in the price.
func (a *ascent) value() int64 {
	a.e.fillCosts(a.p)
	p := a.p
	p.fixed = 0
	for i, r := range a.room {
		p.fixed += p.minute[i] * a.e.t.base[i]
		if a.level == Square {
			var least int64
			a.spare[i], least = a.e.leastSquareOf(i, p.minute[i], r)
			p.fixed += least
		} else {
			p.fixed -= p.minute[i] * r
		}
	}
	if a.level >= Rather {
		p.fixed -= p.pair * a.most
	}
	if a.level == Square {
		p.fixed += p.liking * a.wanted
	}
	return p.bound()
}

// leastSquareOf is the least of q l² − minute · l over the loads that helper i can have, and
// the load.
func (e *tables) leastSquareOf(i int, minute, room int64) (load, least int64) {
	q, b, step := e.t.scale[i], e.t.base[i], e.reach[i].step
	load = b + max(0, (minute/(2*q)-b)/step*step)
	load = min(load, room)
	least = q*load*load - minute*load
	if up := load + step; up <= room && q*up*up-minute*up < least {
		return up, q*up*up - minute*up
	}
	return load, least
}

// step moves the multipliers. It gives false where the cheapest answer shows that there is
// nothing to gain.
func (a *ascent) step(pace, gap float64) bool {
	a.charge()
	norm := 0.0
	for i, l := range a.loads {
		if over := float64(l - a.spare[i]); over > 0 || a.p.minute[i] > 0 {
			norm += float64(over * over)
		}
	}
	pairs, likes := float64(a.scale*(a.pairs-a.most)), float64(a.scale*(a.wanted-a.rather))
	if a.level >= Rather && (pairs > 0 || a.p.pair > 0) {
		norm += float64(pairs * pairs)
	}
	if a.level == Square && (likes > 0 || a.p.liking > 0) {
		norm += float64(likes * likes)
	}
	if norm == 0 {
		return false
	}
	size := pace * gap / norm
	for i, l := range a.loads {
		a.p.minute[i] = moved(a.p.minute[i], size*float64(l-a.spare[i]))
	}
	if a.level >= Rather {
		a.p.pair = moved(a.p.pair, size*pairs*float64(a.scale))
	}
	if a.level == Square {
		a.p.liking = moved(a.p.liking, size*likes*float64(a.scale))
	}
	return true
}

// moved keeps a multiplier from 0 to maxMinute.
func moved(old int64, by float64) int64 {
	by = min(max(by, -maxMinute), maxMinute)
	return min(max(old+int64(by), 0), maxMinute)
}

// charge works out what the cheapest answer has.
func (a *ascent) charge() {
	e, p := a.e, a.p
	copy(a.loads, e.t.base)
	a.pairs, a.rather = 0, 0
	for s, kinds := range e.kinds {
		a.pairs += int64(ones(p.best[s] &^ e.t.series[s].held))
		for k := range kinds {
			kind := &kinds[k]
			who, least := Nobody, int64(endless)
			if kind.may {
				least = 0
			}
			for set := kind.able & p.best[s]; set != 0; set &= set - 1 {
				i := lowest(set)
				if here := p.minute[i]*kind.load - p.liking*liking(kind.rather, i); here < least {
					who, least = i, here
				}
			}
			if who != Nobody {
				a.loads[who] += kind.load * kind.count
				a.rather += liking(kind.rather, who) * kind.count
			}
		}
	}
}

func ceiling(a, b int64) int64 {
	if a <= 0 {
		return -(-a / b)
	}
	return (a + b - 1) / b
}
