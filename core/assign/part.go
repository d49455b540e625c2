package assign

// part is a set of items that overlap, directly or through others, with a common able
// helper. Level 1 is solved in each by itself.
type part struct {
	items   []int32  // in the task's order
	loss    int64    // worth that the best known cover leaves uncovered
	least   int64    // worth that every answer leaves uncovered; proven
	filled  bool     // loss is least
	diagram *diagram // of its best answers, or nil
}

// addClashes lists for each item those that it overlaps with a common able helper, and puts
// the items into parts.
func (t *task) addClashes(p *Problem) {
	end := make([]int, len(t.items))
	from := make([]int, len(t.items))
	for j := range t.items {
		for k, take := range p.Items[t.items[j].place].Takes {
			if k == 0 {
				from[j], end[j] = take.From, take.To
			}
			from[j], end[j] = min(from[j], take.From), max(end[j], take.To)
		}
	}
	root := make([]int32, len(t.items))
	t.meets = make([][]uint64, len(t.items))
	for j := range t.items {
		root[j] = int32(j)
		t.meets[j] = make([]uint64, len(t.items)/64+1)
		a := &t.items[j]
		for k := range j {
			b := &t.items[k]
			if end[k] > from[j] && a.able&b.able != 0 && overlap(p.Items[a.place].Takes, p.Items[b.place].Takes) {
				t.meets[j][k/64] |= 1 << (k % 64)
				t.meets[k][j/64] |= 1 << (j % 64)
				join(root, int32(j), int32(k))
			}
		}
	}
	for j := range t.items {
		t.items[j].clash = members(t.meets[j])
	}
	t.addParts(root)
}

// members lists a set.
func members(set []uint64) []int16 {
	n := 0
	for _, word := range set {
		n += ones(word)
	}
	list := make([]int16, 0, n)
	for w, word := range set {
		for ; word != 0; word &= word - 1 {
			list = append(list, int16(64*w+lowest(word)))
		}
	}
	return list
}

func (t *task) addParts(root []int32) {
	number := make([]int32, len(t.items))
	for j := range t.items {
		top := find(root, int32(j))
		if int(top) == j {
			number[j] = int32(len(t.parts))
			t.parts = append(t.parts, part{})
		}
		t.items[j].part = number[top]
		of := &t.parts[number[top]]
		of.items = append(of.items, int32(j))
	}
}

// find gives the least item that is known to be in one part with j.
func find(root []int32, j int32) int32 {
	for root[j] != j {
		root[j] = root[root[j]]
		j = root[j]
	}
	return j
}

func join(root []int32, j, k int32) {
	a, b := find(root, j), find(root, k)
	root[max(a, b)] = min(a, b)
}
