package assign

// grid is all loads that the first three helpers of a packing can have, a bit for each.
type grid struct {
	p           *packing
	size        vector // the limits
	words       int    // of the bits for all loads of the first helper
	from, to    vector // between which the loads are
	least, most vector // the same, after the next part
	need        vector // what each must have, less what is still to come
}

// needed works out what each must have so that all have so much together.
func (g *grid) needed(left int64) {
	all := int64(0)
	for _, s := range g.size {
		all += int64(s)
	}
	for k, s := range g.size {
		g.need[k] = int32(max(int64(s)-all+left, -1<<30))
		for _, vectors := range g.p.parts {
			g.need[k] -= highest(vectors, k)
		}
	}
}

func highest(all []vector, k int) (top int32) {
	for _, v := range all {
		top = max(top, v[k])
	}
	return top
}

// narrow works out between which loads those with the next part are that are of use.
func (g *grid) narrow(all []vector) {
	for k, s := range g.size {
		low := int32(1 << 30)
		for _, v := range all {
			low = min(low, v[k])
		}
		top := highest(all, k)
		g.need[k] += top
		g.least[k] = max(g.from[k]+low, g.need[k])
		g.most[k] = min(g.to[k]+top, s)
	}
}

// shift adds one vector to all loads.
func (g *grid) shift(now, next []uint64, v vector) {
	over, rest := int(v[0]/64), uint(v[0]%64)
	begin, end := max(over, int(g.least[0])/64), min(g.words, int(g.most[0])/64+1)
	wide := g.size[2] + 1
	for b := max(g.from[1]+v[1], g.least[1]); b <= min(g.to[1]+v[1], g.most[1]); b++ {
		for c := max(g.from[2]+v[2], g.least[2]); c <= min(g.to[2]+v[2], g.most[2]); c++ {
			from := now[int((b-v[1])*wide+c-v[2])*g.words:][:g.words]
			to := next[int(b*wide+c)*g.words:][:g.words]
			for w := begin; w < end; w++ {
				bits := from[w-over] << rest
				if w > over {
					bits |= from[w-over-1] >> 1 >> (63 - rest)
				}
				to[w] |= bits
			}
			g.p.t.spent++
		}
	}
	g.p.t.spent += len(next) / 16
}

// best is the largest sum of loads under the limits; -1 where there is none at all.
func (g *grid) best(now []uint64) int64 {
	best := int64(-1)
	for b := g.from[1]; b <= g.to[1]; b++ {
		for c := g.from[2]; c <= g.to[2]; c++ {
			row := now[int(b*(g.size[2]+1)+c)*g.words:][:g.words]
			for a := g.size[0]; a >= 0; a-- {
				if row[a/64]>>(a%64)&1 != 0 {
					best = max(best, int64(a)+int64(b)+int64(c))
					break
				}
			}
		}
	}
	return best
}
