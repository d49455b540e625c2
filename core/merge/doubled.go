package merge

import (
	"maps"
	"slices"
)

// Doubled tells whether two documents have seen the same acts and are not the same: that
// cannot be unless two devices use one number, such as a phone and its copy, and have changed
// the plan equally often since. Join would take what only one of them wrote for removed.
func Doubled(a, b *Doc) bool {
	return a.Number == b.Number && maps.Equal(a.seen, b.seen) && !a.Equal(b)
}

// Both is what two such documents say together, as one act of a device: nothing is lost, and
// where they differ it is asked about.
func (d *Doc) Both(a Actor, e *Doc) *Doc {
	act := d.begin(a)
	for _, k := range append(d.Keys(), e.Keys()...) {
		x, y := d.regs[k], e.regs[k]
		if slices.Equal(x, y) {
			continue
		}
		all := slices.Concat(x, y)
		for i := range all {
			all[i].Stamp = act.stamp
		}
		all = slices.Compact(inOrder(all))
		act.doc.place(k, all[:min(len(all), MaxVersions)])
	}
	return act.doc.finished()
}
