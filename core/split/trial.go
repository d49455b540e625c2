package split

import (
	"sort"

	"newel/core/assign"
	"newel/core/wall"
)

// clusters numbers the items so that those which overlap in time, be it through others, have
// one number, which is one of their places: what happens to one item concerns no other
// cluster. An item without times is alone.
func (o *outcome) clusters() []int {
	type hull struct {
		stretch
		item int
	}
	var hulls []hull
	cluster := make([]int, len(o.Items))
	for j := range o.Items {
		cluster[j] = j
		takes := o.Items[j].Takes
		if len(takes) == 0 {
			continue
		}
		h := hull{stretch{takes[0].From, takes[0].To}, j}
		for _, t := range takes {
			h.from, h.to = min(h.from, t.From), max(h.to, t.To)
		}
		hulls = append(hulls, h)
	}
	sort.Slice(hulls, func(a, b int) bool { return hulls[a].from < hulls[b].from })
	until := 0
	for i, h := range hulls {
		if i > 0 && h.from < until {
			cluster[h.item] = cluster[hulls[i-1].item]
		}
		until = max(until, h.to)
	}
	return cluster
}

// try solves level 1 anew with a wish granted, for the clusters that it concerns. What was
// covered becomes what must be covered, so that it is never given up; what was open comes
// below it, musts before the rest.
func (o *outcome) try(w wish, clusters []int) trial {
	able := o.ableWith(w)
	open, gains := make([]bool, len(clusters)), make([]bool, len(clusters)) // by cluster
	for j := range o.Items {
		open[clusters[j]] = open[clusters[j]] || o.answer.To[j] == assign.Nobody
		gains[clusters[j]] = gains[clusters[j]] || able[j] && !o.Items[j].Able[w.helper]
	}
	p := assign.Problem{Helpers: o.Helpers}
	var places []int
	for j := range o.Items {
		if c := clusters[j]; open[c] && gains[c] {
			places = append(places, j)
			p.Items = append(p.Items, o.tryItem(j, w.helper, able[j]))
		}
	}
	t := trial{wish: w}
	if len(places) == 0 {
		return t
	}
	answer := assign.Solve(&p, assign.Options{Until: assign.CoverNice, Work: assign.DefaultWork / 10})
	for k, j := range places {
		had, has := o.answer.To[j] != assign.Nobody, answer.To[k] != assign.Nobody
		if had && !has {
			return trial{wish: w}
		}
		if has && !had {
			t.covers = append(t.covers, j)
			t.gain.add(&o.Items[j])
		}
	}
	return t
}

// ableWith tells for each item whether the helper of a wish could do it with the wish granted.
// A wish about one day is about that day alone.
func (o *outcome) ableWith(w wish) []bool {
	granted := o.v.granted(w, o.v.days())
	able := make([]bool, len(o.Items))
	for j := range o.Items {
		able[j] = o.Items[j].Able[w.helper]
		if able[j] || o.Items[j].Held || o.againstItself(j) {
			continue
		}
		if w.why == IsAway && o.dayOf(j, w.helper) != w.day {
			continue
		}
		able[j] = o.v.able(&granted, o.items[j])
	}
	return able
}

// dayOf is the day on which a helper leaves for an item.
func (o *outcome) dayOf(j, helper int) wall.Date {
	d := o.v.duty(&o.v.needs[o.items[j][0]])
	spans, n := spansOf(o.v.s, d, o.v.people[helper].ownWay(d))
	if n == 0 {
		return d.Day
	}
	return wall.DateOf(timeAt(spans[0].from, o.v.s.Loc))
}

// tryItem is an item as try solves it.
func (o *outcome) tryItem(j, helper int, able bool) assign.Item {
	it := o.Items[j]
	it.Able = append([]bool(nil), it.Able...)
	it.Able[helper] = able
	switch {
	case o.answer.To[j] != assign.Nobody:
		it.Tier, it.Weight = assign.Must, 1
	case it.Tier == assign.Must:
		it.Tier = assign.Should
	case it.Tier == assign.Should:
		it.Tier, it.Weight = assign.Nice, min(it.Weight*mostNice, assign.MaxWeight)
	}
	return it
}

// mostNice is what a should weighs against a nice to have when both are of one tier.
const mostNice = 24
