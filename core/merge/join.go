package merge

import (
	"maps"
	"slices"
	"sort"
)

// Join brings two copies of a plan together: what either of them has that the other has
// not seen. It is commutative, associative and idempotent, so that it does not matter who
// opens whose link first, or twice; the package comment says what holds where a device
// number was used twice. Errors: ErrOther.
func Join(a, b *Doc) (*Doc, error) {
	if a.Number != b.Number {
		return nil, ErrOther
	}
	out := &Doc{Number: a.Number, seen: maps.Clone(a.seen), regs: make(map[Key][]Version, max(len(a.regs), len(b.regs)))}
	for actor, n := range b.seen {
		out.seen[actor] = max(n, out.seen[actor])
	}
	x, y := a.order(), b.order()
	out.sorted = make([]Key, 0, max(len(x), len(y)))
	for len(x) > 0 || len(y) > 0 {
		k := nextKey(&x, &y)
		if versions := joinedRegister(k, a, b); len(versions) > 0 {
			out.regs[k] = versions
			out.sorted = append(out.sorted, k)
		}
	}
	return out, nil
}

// nextKey takes the least key off two lists in order.
func nextKey(x, y *[]Key) Key {
	first := 0
	switch {
	case len(*x) == 0:
		first = 1
	case len(*y) > 0:
		first = (*x)[0].Compare((*y)[0])
	}
	if first > 0 {
		x, y = y, x
	}
	k := (*x)[0]
	*x = (*x)[1:]
	if first == 0 && len(*y) > 0 {
		*y = (*y)[1:]
	}
	return k
}

// joinedRegister joins one register of two documents. What goes beyond joined happens only
// where a device number was used twice, with links of versions 1 and 2, or with one that claims acts
// which nobody made: no other document lacks a duty of which it has seen an act, and no two of them have
// each seen the other's versions of a lasting register replaced.
func joinedRegister(k Key, a, b *Doc) []Version {
	x, y := a.regs[k], b.regs[k]
	if k.ofDuty() {
		mine, theirs := a.hasDuty(k.Of), b.hasDuty(k.Of)
		switch {
		case mine && !theirs:
			return x
		case theirs && !mine:
			return y
		case k == Key{Field: Alive, Of: k.Of} || k == Key{Field: Gone, Of: k.Of}:
			return joinedWish(k, a, b)
		}
	}
	out := joined(x, y, a, b)
	if len(out) == 0 && len(x) > 0 && len(y) > 0 && (k.lasting() || k.pressing()) {
		return keptBoth(x, y)
	}
	return out
}

// hasDuty tells whether a duty is in the document, wanted or taken out.
func (d *Doc) hasDuty(id uint32) bool { return d.regs[Key{Field: Kind, Of: id}] != nil }

// joinedWish joins Alive and Gone of a duty as one register: an act that takes something
// away from one of them writes the other, so both together are lasting.
func joinedWish(k Key, a, b *Doc) []Version {
	alive, gone := Key{Field: Alive, Of: k.Of}, Key{Field: Gone, Of: k.Of}
	if slices.Equal(a.regs[alive], b.regs[alive]) && slices.Equal(a.regs[gone], b.regs[gone]) {
		return a.regs[k]
	}
	x, y := wishes(a.regs[alive], a.regs[gone]), wishes(b.regs[alive], b.regs[gone])
	all := joined(x, y, a, b)
	if len(all) == 0 {
		all = keptBoth(x, y)
	}
	var out []Version
	for _, v := range all {
		if (v.Value == mark) == (k.Field == Gone) {
			out = append(out, Version{v.Stamp, mark})
		}
	}
	return out
}

// wishes lists in order who wants a duty (the value "") and who took it out ("1").
func wishes(alive, gone []Version) []Version { return inOrder(asWishes(alive, gone)) }

// keptBoth is all that two lists of versions say, under the greatest stamp among them. With
// one stamp they stay together from then on: if each kept its own, the copy that a value
// came from would take the other's away again as replaced.
func keptBoth(x, y []Version) []Version {
	all := slices.Concat(x, y)
	var last Stamp
	for _, v := range all {
		if v.Stamp.Compare(last) > 0 {
			last = v.Stamp
		}
	}
	for i := range all {
		all[i].Stamp = last
	}
	return slices.Compact(inOrder(all))
}

func inOrder(versions []Version) []Version {
	sort.Slice(versions, func(i, j int) bool { return versions[i].Compare(versions[j]) < 0 })
	return versions
}

// has tells whether an act is in the document.
func (d *Doc) has(s Stamp) bool { return s.N <= d.seen[s.Actor] }

// joined joins the versions of one register. Both lists are in order, and so is the result.
func joined(x, y []Version, a, b *Doc) []Version {
	if slices.Equal(x, y) {
		return x // the usual case: nothing to copy
	}
	var out []Version
	for i, j := 0, 0; i < len(x) || j < len(y); {
		switch {
		case j == len(y) || i < len(x) && x[i].Compare(y[j]) < 0:
			if !b.has(x[i].Stamp) || holds(y, x[i].Stamp) {
				out = append(out, x[i])
			}
			i++
		case i == len(x) || x[i].Compare(y[j]) > 0:
			if !a.has(y[j].Stamp) || holds(x, y[j].Stamp) {
				out = append(out, y[j])
			}
			j++
		default:
			out = append(out, x[i])
			i, j = i+1, j+1
		}
	}
	return out
}

// holds tells whether there is a version with that stamp, whatever its value.
func holds(versions []Version, s Stamp) bool {
	for i := range versions {
		if versions[i].Stamp == s {
			return true
		}
	}
	return false
}

// Covers tells whether joining e would change nothing: all that is in e has been seen
// here. A copy of another plan is not covered.
func (d *Doc) Covers(e *Doc) bool {
	if d == e {
		return true
	}
	if d.Number != e.Number {
		return false
	}
	for actor, n := range e.seen {
		if mine, ok := d.seen[actor]; !ok || n > mine {
			return false
		}
	}
	for k, versions := range d.regs {
		if !slices.Equal(joinedRegister(k, d, e), versions) {
			return false
		}
	}
	for k := range e.regs {
		if d.regs[k] == nil && len(joinedRegister(k, d, e)) > 0 {
			return false
		}
	}
	return true
}
