package split

import (
	"sort"

	"newel/core/assign"
	"newel/core/wall"
)

// The bounds of looking for changes. A family has some dozens of open dates; what is more
// comes from a link that was made to be a burden, and then not all changes are looked at.
const (
	mostChanges = 5    // that are told
	mostTried   = 12   // that are solved
	mostWishes  = 300  // that are made
	mostAsked   = 4000 // pairs of a helper and an item
)

// changes gives, for what stays without anybody who can, the smallest changes that would cover
// most: one thing with one helper, as long as it covers anything. Each was tried: level 1 is
// solved anew with it, and nothing that is covered without it may be given up for it. Those
// that cover more come first, higher tiers before lower ones; of two that cover equally much
// the smaller one.
func (o *outcome) changes() []Change {
	wishes := o.wishes()
	clusters := o.clusters()
	var tried []trial
	for _, w := range wishes[:min(len(wishes), mostTried)] {
		if t := o.try(w, clusters); len(t.covers) > 0 {
			tried = append(tried, t)
		}
	}
	sort.SliceStable(tried, func(i, j int) bool { return tried[i].better(&tried[j]) })
	var changes []Change
	told := map[wish]bool{}
	for i := range tried {
		if w := tried[i].wish; !told[w.group()] && len(changes) < mostChanges {
			told[w.group()] = true
			changes = append(changes, o.change(&tried[i]))
		}
	}
	return changes
}

// trial is a wish with what it covers.
type trial struct {
	wish
	covers []int // items
	gain   gain
}

// gain is the weight that is covered, by tier.
type gain [assign.Must + 1]int

func (g *gain) add(it *assign.Item) { g[it.Tier] += it.Weight }

func (g gain) above(other gain) bool {
	for tier := assign.Must; ; tier-- {
		if g[tier] != other[tier] || tier == 0 {
			return g[tier] > other[tier]
		}
	}
}

func (t *trial) better(other *trial) bool {
	if (t.why == IsOut) != (other.why == IsOut) {
		return other.why == IsOut
	}
	if t.gain != other.gain {
		return t.gain.above(other.gain)
	}
	return t.far < other.far
}

// wishes lists what stands alone between some helper and an item that has nobody, or one
// that keeps somebody from it who could do it. Those that concern most come first.
func (o *outcome) wishes() []wish {
	var all []trial
	known := map[wish]int{}
	asked := 0
	helpers := o.byName()
	for j, i := range o.answer.To {
		if i != assign.Nobody || asked > mostAsked || len(all) > mostWishes {
			continue
		}
		for _, k := range o.inTheWay(j) {
			for _, h := range helpers {
				asked++
				w, ok := o.v.wishFor(h, o.items[k])
				if !ok {
					continue
				}
				key := w
				key.on, key.far = 0, 0
				at, seen := known[key]
				if !seen {
					at = len(all)
					known[key] = at
					all = append(all, trial{wish: w})
				}
				if k == j {
					all[at].covers = append(all[at].covers, j)
				}
				all[at].far = max(all[at].far, w.far)
			}
		}
	}
	return o.ranked(all)
}

// ranked puts the wishes first that concern most, with all that those of their group which
// ask for less concern.
func (o *outcome) ranked(all []trial) []wish {
	for i := range all {
		for k := range all {
			if all[k].group() == all[i].group() && all[k].within(all[i].wish) {
				for _, j := range all[k].covers {
					all[i].gain.add(&o.Items[j])
				}
			}
		}
	}
	sort.SliceStable(all, func(i, j int) bool { return all[i].better(&all[j]) })
	wishes := make([]wish, len(all))
	for i := range all {
		wishes[i] = all[i].wish
	}
	return wishes
}

// byName lists the helpers in an order that does not depend on how they were entered.
func (o *outcome) byName() []int {
	order := make([]int, len(o.Helpers))
	for i := range order {
		order[i] = i
	}
	sort.Slice(order, func(a, b int) bool { return o.Helpers[order[a]].Key < o.Helpers[order[b]].Key })
	return order
}

// inTheWay lists an item that has nobody, and those that somebody has who could do it
// otherwise.
func (o *outcome) inTheWay(j int) []int {
	all := []int{j}
	for i := range o.hands {
		if !o.Items[j].Able[i] {
			continue
		}
		for _, k := range o.hands[i] {
			if !o.Items[k].Held && overlap(o.Items[k].Takes, o.Items[j].Takes) {
				all = append(all, k)
			}
		}
	}
	sort.Slice(all[1:], func(a, b int) bool { return o.Items[all[1+a]].Key < o.Items[all[1+b]].Key })
	return all
}

// change says a trial as a Change.
func (o *outcome) change(t *trial) Change {
	c := Change{Who: uint8(t.helper + 1), Why: t.why, Weekday: int8(t.weekday), Clock: t.clock, Starts: t.starts}
	if t.length > 0 {
		c.End = (t.clock+t.length-1)%(24*60) + 1
	}
	day, one := t.day, t.why == IsAway
	for k, j := range t.covers {
		for _, i := range o.items[j] {
			c.Covers = append(c.Covers, o.v.needs[i].duty)
		}
		if t.weekday >= 0 {
			w, ok := o.v.wishFor(t.helper, o.items[j])
			one = ok && (k == 0 || one && w.on == day)
			day = w.on
		}
	}
	sort.Ints(c.Covers)
	if one {
		c.Weekday = -1
		c.Day, _ = day.At(o.v.s.Loc, wall.Clock(12*60))
	}
	return c
}
