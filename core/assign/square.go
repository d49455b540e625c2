package assign

// leastSquare is a bound for level 5: no answer in which each set of helpers has at least
// what need says, and all together exactly that much, has a smaller sum.
//
// The best real loads are found set by set, the set that is pressed hardest first
// (lexicographically optimal bases; Fujishige, Mathematics of Operations Research 5, 1980).
// Where loads are whole steps, each is at least its distance to the nearest such load away
// from that, which adds q times the distance squared: the value of the dual at those prices.
func (e *tables) leastSquare(need []int64) int64 {
	done := uint64(0)
	sum := 0.0
	for done != e.full {
		set, level := e.hardest(need, done)
		for rest := set &^ done; rest != 0; rest &= rest - 1 {
			i := lowest(rest)
			q := float64(e.t.scale[i])
			l := level / q
			sum += float64(q*l*l) + float64(q*e.off(i, l)*e.off(i, l))
		}
		done = set
	}
	// All that the rounding of 64-bit floats can have added is far less than one in 1e12.
	least := int64(sum * (1 - 1e-12))
	return (least + e.unit - 1) / e.unit * e.unit
}

// hardest finds the set that holds done and is pressed hardest beside it, and its pressure:
// each of its helpers has pressure / q.
func (e *tables) hardest(need []int64, done uint64) (set uint64, level float64) {
	level = -1
	for rest := e.full &^ done; ; rest = (rest - 1) & (e.full &^ done) {
		if rest == 0 {
			break
		}
		here := float64(need[rest|done]-need[done]) / e.inverse(rest)
		if here > level {
			set, level = rest|done, here
		}
	}
	return set, max(level, 0)
}

// inverse is the sum of 1/q of a set of helpers.
func (e *tables) inverse(set uint64) (sum float64) {
	return e.spread[set]
}

// off is how far a load of helper i is from the nearest that there can be.
func (e *tables) off(i int, load float64) float64 {
	step, base := float64(e.reach[i].step), float64(e.t.base[i])
	k := (load - base) / step
	n := float64(int64(k))
	d := k - n
	if d < 0 {
		d = -d
	}
	return min(d, 1-d) * step
}
