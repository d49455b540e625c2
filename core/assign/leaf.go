package assign

// leaf gives out items whose helpers are already few, and finds the best way or shows that
// there is none that is good enough.
type leaf struct {
	t     *task
	e     *tables
	room  []int64
	dom   []uint64 // by item: who may have it
	to    []int8
	load  []int64
	lost  []int64 // by part: worth left uncovered so far
	need  [][]int64
	roomy []int64 // by set: room of its helpers
	order []int32 // items that have a choice
	twin  []bool  // by place in order: stands for the one before
	rest  []sums  // by place in order: what the items from it on can add at best
	so    sums
	goal  *goal
	even  bool // helpers with most room are tried first
	until int  // work
	torn  bool // there are too many items with a choice
}

func newLeaf(t *task, e *tables, room []int64, g *goal) *leaf {
	l := &leaf{t: t, e: e, room: room, goal: g, dom: make([]uint64, len(t.items)), to: make([]int8, len(t.items)),
		load: make([]int64, len(t.offer)), lost: make([]int64, len(t.parts)), roomy: e.sums(room)}
	return l
}

// start takes over domains. It gives false where they cannot work.
func (l *leaf) start() bool {
	copy(l.load, l.t.base)
	for c := range l.lost {
		l.lost[c] = 0
	}
	l.so, l.order = sums{}, l.order[:0]
	for j := range l.to {
		l.to[j] = undecided
	}
	if !l.settle() {
		return false
	}
	for j := range l.dom {
		if l.to[j] == undecided {
			l.order = append(l.order, int32(j))
		}
	}
	if l.torn = len(l.order)*len(l.roomy) > maxLeaf; l.torn {
		return false
	}
	l.sort()
	return l.prepare()
}

const undecided = -2

// maxLeaf bounds the numbers that a leaf keeps, which are 8 bytes each.
const maxLeaf = 1 << 19

// settle gives the items that have no choice, and takes their helpers' time away from
// others, until nothing changes.
func (l *leaf) settle() bool {
	for again := true; again; {
		again = false
		for j := range l.dom {
			if l.to[j] != undecided {
				continue
			}
			it := &l.t.items[j]
			set := l.dom[j]
			switch {
			case set == 0 && !it.may && !it.never:
				return false
			case set == 0:
				again = true
				if !l.put(int32(j), Nobody) {
					return false
				}
			case set&(set-1) == 0 && !it.may:
				again = true
				i := lowest(set)
				if !l.put(int32(j), i) {
					return false
				}
				for _, k := range it.clash {
					l.dom[k] &^= 1 << i
					if int(l.to[k]) == i {
						return false
					}
				}
			}
			l.t.spent += 1 + len(it.clash)/2
		}
		l.t.spent += len(l.dom) / 4
	}
	return true
}

// put gives an item and says whether that keeps to the caps and to what may be lost.
func (l *leaf) put(j int32, i int) bool {
	it := &l.t.items[j]
	l.to[j] = int8(i)
	if it.now != Nobody && int(it.now) != i {
		l.so.moves++
	}
	if i == Nobody {
		l.lost[it.part] += it.worth
		return l.lost[it.part] <= l.t.parts[it.part].loss
	}
	l.so.rather += liking(it.rather, i)
	l.load[i] += it.load
	return l.load[i] <= l.room[i]
}

func (l *leaf) take(j int32) {
	it, i := &l.t.items[j], int(l.to[j])
	l.to[j] = undecided
	if it.now != Nobody && int(it.now) != i {
		l.so.moves--
	}
	if i == Nobody {
		l.lost[it.part] -= it.worth
		return
	}
	l.so.rather -= liking(it.rather, i)
	l.load[i] -= it.load
}
