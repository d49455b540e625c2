package split

import (
	"sort"

	"newel/core/assign"
)

// taken is one take of one duty of a helper.
type taken struct {
	assign.Take
	need int // place in view.needs
	who  uint8
}

// clashes gives for each need of the view what else its helper has at that time, of those
// that count: a few where there are many, and none only where there is none. For that each
// take is held against the one before it that ends last. Whatever overlaps it from before
// overlaps no less with that one; and a take that something behind it overlaps, and that is
// not the one which ends last, was overlapped by what ends later.
func (v *view) clashes(counts func(need int) bool) [][]Reason {
	all := v.allTaken(counts)
	found := make([][]Reason, len(v.needs))
	for use := range useBits {
		last := latest{-1, -1}
		before := -1 // the place of the take before, of this use and helper
		for i := range all {
			t := &all[i]
			if t.Uses&(1<<use) == 0 {
				continue
			}
			if before < 0 || all[before].who != t.who {
				last = latest{-1, -1}
			}
			before = i
			if other := last.not(all, t.need); other >= 0 && all[other].To > t.From {
				v.clash(found, t, &all[other])
				v.clash(found, &all[other], t)
			}
			last.add(all, i)
		}
	}
	return found
}

// allTaken lists what the needs take, one helper after the other in order of time.
func (v *view) allTaken(counts func(need int) bool) []taken {
	var all []taken
	for i := range v.needs {
		n := &v.needs[i]
		if n.who == 0 || !counts(i) {
			continue
		}
		for _, t := range n.takes {
			all = append(all, taken{t, i, n.who})
		}
	}
	sort.SliceStable(all, func(i, j int) bool {
		if all[i].who != all[j].who {
			return all[i].who < all[j].who
		}
		return all[i].From < all[j].From
	})
	return all
}

// latest are the places of the two takes of different needs that end last.
type latest [2]int

// not is the one of them that is not of a need.
func (l latest) not(all []taken, need int) int {
	if l[0] >= 0 && all[l[0]].need == need {
		return l[1]
	}
	return l[0]
}

func (l *latest) add(all []taken, i int) {
	switch {
	case l[0] < 0 || all[i].To >= all[l[0]].To:
		if l[0] >= 0 && all[l[0]].need != all[i].need {
			l[1] = l[0]
		}
		l[0] = i
	case all[l[0]].need != all[i].need && (l[1] < 0 || all[i].To > all[l[1]].To):
		l[1] = i
	}
}

// mostClashes is how many clashes of one duty are told.
const mostClashes = 3

// clash notes that a need's helper has another duty then, once for each.
func (v *view) clash(found [][]Reason, t, other *taken) {
	duty := v.needs[other.need].duty
	for _, r := range found[t.need] {
		if r.Other == duty {
			return
		}
	}
	if len(found[t.need]) < mostClashes {
		r := obstacle{HasOther, stretch{other.From, other.To}}.reason(v.s)
		r.Other = duty
		found[t.need] = append(found[t.need], r)
	}
}
