package merge

import (
	"slices"

	"github.com/stretchr/testify/require"
)

// The reference that documents are held against. It knows no stamps that cover others and
// no version vectors: each copy has the plain set of the acts that are in it, each write
// remembers the set of acts that its writer had, and a register holds what no later write
// knew of. That is the MV-Register of M. Shapiro, N. Preguiça, C. Baquero and M. Zawirski,
// INRIA RR-7506 (2011), and mvreg of Almeida, Shoker and Baquero, JPDC 111 (2018), written
// down as causal histories.

// acted is the set of acts that a copy has, by their number in the history.
type acted map[int]bool

func (s acted) and(more acted) acted {
	both := acted{}
	for _, set := range []acted{s, more} {
		for a := range set {
			both[a] = true
		}
	}
	return both
}

// written is one write of one act.
type written struct {
	value
	act   int
	knew  acted // what its writer had; not the act itself
	stamp Stamp
}

// history is all that ever happened to the copies of one plan.
type history struct {
	writes map[Key][]written
	acts   int
}

// note adds the writes of an act and gives the set of the copy that did it.
func (h *history) note(before acted, s Stamp, writes wanting) acted {
	h.acts++
	for k, v := range writes {
		h.writes[k] = append(h.writes[k], written{v, h.acts, before, s})
	}
	return before.and(acted{h.acts: true})
}

// holds gives the versions that a register has to have in a copy.
func (h *history) holds(k Key, has acted) []Version {
	var all []Version
	for _, w := range h.writes[k] {
		replaced := slices.ContainsFunc(h.writes[k], func(later written) bool { return has[later.act] && later.knew[w.act] })
		if has[w.act] && w.there && !replaced {
			all = append(all, Version{w.stamp, w.text})
		}
	}
	slices.SortFunc(all, Version.Compare)
	return all
}

// check holds every register of a copy against the history.
func (h *history) check(t require.TestingT, d *Doc, has acted) {
	for k := range h.writes {
		if want := h.holds(k, has); !slices.Equal(want, d.Get(k)) {
			require.Equal(t, want, d.Get(k), "register %s", k)
		}
	}
	for _, k := range d.Keys() {
		require.NotEmpty(t, h.writes[k], "register %s was never written", k)
	}
}

// between lists what an act wrote, from the documents before and after it.
func between(before, after *Doc, s Stamp) wanting {
	wrote := wanting{}
	for _, k := range after.Keys() {
		for _, v := range after.Get(k) {
			if v.Stamp == s {
				wrote[k] = says(v.Value)
			}
		}
	}
	for _, k := range before.Keys() {
		if len(after.Get(k)) == 0 {
			wrote[k] = value{}
		}
	}
	return wrote
}
