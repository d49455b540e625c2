package press

import "errors"

// stepLists collects the lists of steps ("pctab") that stay, one after another in the order in
// which functions name them.
type stepLists struct {
	from []byte
	at   map[uint32]uint32 // old offset → new one
	out  []byte
}

// move keeps the list whose offset stands in field, and writes its new offset there.
func (l *stepLists) move(field []byte) error {
	old := order.Uint32(field)
	if old == 0 {
		return nil // no list
	}
	now, known := l.at[old]
	if !known {
		list, err := l.list(old)
		if err != nil {
			return err
		}
		now = uint32(len(l.out))
		l.at[old] = now
		l.out = append(l.out, list...)
	}
	order.PutUint32(field, now)
	return nil
}

// list cuts one list out: pairs of numbers up to a zero that is not the first (symtab.go, step).
func (l *stepLists) list(from uint32) ([]byte, error) {
	at := int(from)
	skip := func() {
		for at < len(l.from) && l.from[at] >= 0x80 {
			at++
		}
		at++
	}
	for first := true; at < len(l.from); first = false {
		if l.from[at] == 0 && !first {
			return l.from[from : at+1], nil
		}
		skip()
		skip()
	}
	return nil, errors.New("a list of steps has no end")
}

// nameList collects the names that stay.
type nameList struct {
	from []byte
	at   map[uint32]uint32
	out  []byte
}

func (l *nameList) keep(old uint32) uint32 {
	if now, known := l.at[old]; known {
		return now
	}
	now := uint32(len(l.out))
	l.at[old] = now
	for at := int(old); at < len(l.from) && l.from[at] != 0; at++ {
		l.out = append(l.out, l.from[at])
	}
	l.out = append(l.out, 0)
	return now
}
