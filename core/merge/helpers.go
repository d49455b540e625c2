package merge

import (
	"sort"
	"strings"

	"newel/core/plan"
)

// roster is the list of helpers that a document shows.
type roster struct {
	names []string
	place map[string]uint8 // by each spelling that occurs: 1 + the place in names, 0 for one too many
}

// who gives a helper's place in plan.Plan.Helpers, from 1; 0 for one that is not shown.
func (r *roster) who(name string) uint8 { return r.place[name] }

// helpers lists the helpers: in the order of their places, then of their names; then
// those whom one copy took off the list while the other gave them something. Names that
// differ only in capitals are one helper, under the spelling that comes first.
func (d *Doc) helpers(keys []Key) roster {
	type seat struct {
		place int
		name  string
	}
	var seats []seat
	listed := map[string]bool{}
	for _, k := range keys {
		if k.Field == Helper {
			seats = append(seats, seat{numberOr(d.value(k), 0), k.Name})
			listed[k.Name] = true
		}
	}
	for _, k := range keys {
		if name := d.named(k); name != "" && !listed[name] {
			seats = append(seats, seat{maxPlace + 1, name})
			listed[name] = true
		}
	}
	sort.Slice(seats, func(i, j int) bool {
		return seats[i].place < seats[j].place || seats[i].place == seats[j].place && seats[i].name < seats[j].name
	})
	r := roster{place: make(map[string]uint8, len(seats))}
	for _, s := range seats {
		r.add(s.name)
	}
	return r
}

// named is the helper whom a register gives something or tells something of, "" for none.
func (d *Doc) named(k Key) string {
	switch k.Field {
	case About, Out:
		return k.Name
	case Cover, Who, On, Takes, Shift:
		if name := d.value(k); name != nobody && k.meaning() {
			return name
		}
	}
	return ""
}

func (r *roster) add(name string) {
	for i, known := range r.names {
		if strings.EqualFold(known, name) {
			r.place[name] = uint8(i + 1)
			return
		}
	}
	if len(r.names) < plan.MostHelpers {
		r.names = append(r.names, name)
		r.place[name] = uint8(len(r.names))
	}
}

// HandOf is the name of the helper whose device it is, "" where it has not said so.
func (d *Doc) HandOf(a Actor) string { return d.value(Key{Field: Hand, Sub: uint32(a)}) }

// WithHand says whose a device is; "" takes that back. Only the device itself says so.
func (d *Doc) WithHand(a Actor, name string) *Doc {
	k := Key{Field: Hand, Sub: uint32(a)}
	if d.value(k) == name {
		return d
	}
	act := d.begin(a)
	act.write(k, name, name != "")
	return act.doc.finished()
}
