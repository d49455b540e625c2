package merge

// Join brings two copies of a plan together: what either of them has that the other has
// not seen. It is commutative, associative and idempotent, so that it does not matter who
// opens whose link first, or twice. Errors: ErrOther.
func Join(a, b *Doc) (*Doc, error) {
	if a.Number != b.Number {
		return nil, ErrOther
	}
	out := &Doc{Number: a.Number, seen: make(map[Actor]uint32, len(a.seen)), regs: make(map[Key][]Version, max(len(a.regs), len(b.regs)))}
	for actor, n := range a.seen {
		out.seen[actor] = n
	}
	for actor, n := range b.seen {
		out.seen[actor] = max(n, out.seen[actor])
	}
	for k, versions := range a.regs {
		out.Set(k, joined(versions, b.regs[k], a, b))
	}
	for k, versions := range b.regs {
		if a.regs[k] == nil {
			out.Set(k, joined(nil, versions, a, b))
		}
	}
	out.mend()
	return out, nil
}

// has tells whether an act is in the document.
func (d *Doc) has(s Stamp) bool { return s.N <= d.seen[s.Actor] }

// joined joins the versions of one register. Both lists are in order, and so is the result.
func joined(x, y []Version, a, b *Doc) []Version {
	if same(x, y) {
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

func same(x, y []Version) bool {
	if len(x) != len(y) {
		return false
	}
	for i := range x {
		if x[i] != y[i] {
			return false
		}
	}
	return true
}

// mend cuts out duties of which only parts are left. Every act that adds a duty writes all
// that a duty needs, and no act takes those away, so this happens only where one device
// number was used twice, or with links of versions 1 and 2 (see the package comment). A
// document with such parts could not be sent on.
func (d *Doc) mend() {
	parts := d.dutyParts()
	for k := range d.regs {
		if k.ofDuty() && !whole(parts[k.Of]) {
			delete(d.regs, k)
		}
	}
}

// needed are the registers that every duty has; of Alive and Gone one is enough.
var needed = [...]Field{Kind, Length, Pattern, Alive, Gone}

// dutyParts gives for the number of each duty which of the needed registers there are: bit
// i is needed[i].
func (d *Doc) dutyParts() map[uint32]uint8 {
	parts := map[uint32]uint8{}
	for k := range d.regs {
		if !k.ofDuty() {
			continue
		}
		set := parts[k.Of]
		for i, f := range needed {
			if k.Field == f {
				set |= 1 << i
			}
		}
		parts[k.Of] = set
	}
	return parts
}

func whole(set uint8) bool { return set&0b111 == 0b111 && set&0b11000 != 0 }

// Covers tells whether joining e would change nothing: all that is in e has been seen
// here. A copy of another plan is not covered.
func (d *Doc) Covers(e *Doc) bool {
	both, err := Join(d, e)
	return err == nil && both.Equal(d)
}
