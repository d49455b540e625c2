package merge

import "slices"

// put gives a register the value alone, and its key its place in the order.
func (c *change) put(k Key, value string) { c.doc.place(k, []Version{{c.stamp, value}}) }

func (c *change) remove(k Key) {
	d := c.doc
	if at, there := slices.BinarySearchFunc(d.sorted, k, Key.Compare); there {
		d.sorted = slices.Concat(d.sorted[:at], d.sorted[at+1:]) // a new slice: other documents may have the old one
	}
	delete(d.regs, k)
}

// place writes a register of a document whose order is known.
func (d *Doc) place(k Key, versions []Version) {
	if at, there := slices.BinarySearchFunc(d.sorted, k, Key.Compare); !there {
		d.sorted = slices.Concat(d.sorted[:at], []Key{k}, d.sorted[at:])
	}
	d.regs[k] = versions
}
