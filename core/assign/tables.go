package assign

const (
	// maxTable is how many helpers there may be for what looks at every set of helpers,
	maxTable = 10
	// and maxPlaces how many places the table of all series may have.
	maxPlaces = 1 << 17
)

// tables are what the proofs look up: sets of helpers are bits, and a table has a place for
// each set.
type tables struct {
	t      *task
	full   uint64     // all helpers; a table has full + 1 places
	step   int64      // every load is a whole multiple of it
	kinds  [][]kind   // by series
	sets   [][]uint64 // by series: who may have dates of it, together, so that all that must be covered is
	base   []int64    // by set: minutes held by its helpers
	must   []int64    // by set: minutes that must fall to it beside them; see strictNeeds
	spread []float64  // by set: sum of 1/q of its helpers
	reach  []reach    // by helper
	unit   int64      // every sum of level 5 is a whole multiple of it
}

// kind is a number of items of one series that can stand for one another as far as loads and
// likings go.
type kind struct {
	able   uint64
	load   int64
	count  int64
	may    bool   // they may stay uncovered
	rather []int8 // or nil
	keeps  int8   // who has them now, or Nobody
}

func newTables(t *task) *tables {
	e := &tables{t: t, full: 1<<len(t.offer) - 1, kinds: make([][]kind, len(t.series)), sets: make([][]uint64, len(t.series))}
	for j := range t.items {
		it := &t.items[j]
		e.step = divisor(e.step, it.load)
		if it.able != 0 {
			e.addKind(it)
		}
	}
	e.step = max(e.step, 1)
	for s := range t.series {
		e.addSets(s)
	}
	for i := range t.offer {
		e.reach = append(e.reach, t.reachOf(i))
	}
	e.base = e.sums(t.base)
	even, common := e.step, int64(0)
	for i, b := range t.base {
		even, common = divisor(even, b), divisor(common, t.scale[i])
	}
	e.unit = max(1, even*even*common)
	e.spread = make([]float64, e.full+1)
	for set := uint64(1); set <= e.full; set++ {
		e.spread[set] = e.spread[set&(set-1)] + 1/float64(t.scale[lowest(set)])
	}
	return e
}

func (e *tables) addKind(it *item) {
	list := e.kinds[it.series]
	for k := range list {
		o := &list[k]
		if o.able == it.able && o.load == it.load && o.may == it.may && o.keeps == it.now && alike(o.rather, it.rather, it.able) {
			o.count++
			return
		}
	}
	e.kinds[it.series] = append(list, kind{it.able, it.load, 1, it.may, it.rather, it.now})
}

// alike says whether likings are the same as far as a set of helpers goes.
func alike(a, b []int8, set uint64) bool {
	for ; set != 0; set &= set - 1 {
		if liking(a, lowest(set)) != liking(b, lowest(set)) {
			return false
		}
	}
	return true
}

func liking(r []int8, i int) int64 {
	if r == nil {
		return 0
	}
	return int64(r[i])
}

func (e *tables) addSets(s int) {
	held := e.t.series[s].held
	var useful uint64
	for _, k := range e.kinds[s] {
		useful |= k.able
	}
	for set := uint64(0); set <= e.full; set++ {
		if set&held != held || set&^(useful|held) != 0 {
			continue
		}
		fits := true
		for _, k := range e.kinds[s] {
			fits = fits && (k.may || k.able&set != 0)
		}
		if fits {
			e.sets[s] = append(e.sets[s], set)
		}
	}
}

// sums gives for each set of helpers the sum of what its helpers have.
func (e *tables) sums(each []int64) []int64 {
	all := make([]int64, e.full+1)
	for set := uint64(1); set <= e.full; set++ {
		all[set] = all[set&(set-1)] + each[lowest(set)]
	}
	return all
}

// room gives for each helper the most that they can have under their cap.
func (e *tables) room(caps []int64) []int64 {
	room, all := make([]int64, len(caps)), int64(0)
	for j := range e.t.items {
		all += e.t.items[j].load
	}
	for i, c := range caps {
		room[i] = c
		if b := e.t.base[i]; c >= b {
			room[i] = e.reach[i].most(min(c, b+all))
		}
	}
	return room
}

// needs gives for each set of helpers the minutes that must fall to it, beside what is held:
// the items that must be covered and that nobody else can take.
func (e *tables) needs() []int64 {
	need := make([]int64, e.full+1)
	for j := range e.t.items {
		if it := &e.t.items[j]; !it.may && it.able != 0 {
			need[it.able] += it.load
		}
	}
	e.sumSubsets(need)
	return need
}

// sumSubsets adds to each place of a table those of all sets within its set.
func (e *tables) sumSubsets(table []int64) {
	for i := uint64(1); i <= e.full; i <<= 1 {
		for set := range table {
			if uint64(set)&i != 0 {
				table[set] += table[uint64(set)&^i]
			}
		}
	}
	e.t.spent += len(table) * len(e.t.offer) / 2
}
