package press

import (
	"bytes"
	"errors"
)

// The table of functions (trim.go) is an index, eight bytes for each function, and a record for each:
// eleven numbers, and as many offsets of lists of steps and of other data as two of these say. Written
// side by side as they stand in memory they compress badly; number by number, with what follows from
// them left out, they take half as much.

// Numbers of a record, by their place.
const (
	numbers   = recordSize / 4
	ofLists   = atStepLists / 4 // how many lists follow
	ofData    = (atDataCount - 3) / 4
	mostLists = 16
)

// region is the part of the table that is written so: from the index's second entry, so that a table
// which begins with a zero byte is in the same segment, to the end of the last record.
type region struct {
	count int      // functions
	first uint32   // where the first record begins, from the index on
	end   uint32   // what stands behind the index's last entry
	words []uint32 // number after number: all functions' first, all their second, …; then their lists and data by place
}

// readRegion takes the numbers out of a table of functions. It fails where the table cannot be made
// again of them.
func readRegion(functions []byte, count int) (region, []byte, error) {
	t := tables{functions: functions, count: count}
	r := region{count: count, first: order.Uint32(functions[4:]), end: order.Uint32(functions[8*count:])}
	columns := make([][]uint32, numbers+2*mostLists)
	entry := uint32(0)
	for i := range count {
		record, err := t.record(i)
		if err != nil {
			return region{}, nil, err
		}
		word := func(n int) uint32 { return order.Uint32(record[4*n:]) }
		columns[0] = append(columns[0], word(0)-entry)
		entry = word(0)
		for n := 1; n < numbers; n++ {
			columns[n] = append(columns[n], word(n))
		}
		lists, data := int(word(ofLists)), int(record[atDataCount])
		if lists > mostLists || data > mostLists || recordSize+4*(lists+data) > len(record) {
			return region{}, nil, errors.New("a record of a function has more offsets than are known")
		}
		for n := range lists {
			columns[numbers+n] = append(columns[numbers+n], word(numbers+n))
		}
		for n := range data {
			columns[numbers+mostLists+n] = append(columns[numbers+mostLists+n], word(numbers+lists+n))
		}
	}
	for _, column := range columns {
		r.words = append(r.words, column...)
	}
	made := r.bytes()
	if !bytes.HasPrefix(functions[8:], made) {
		return region{}, nil, errors.New("the table of functions has something in it that its records do not say")
	}
	return r, made, nil
}

// bytes writes the region as it stands in memory.
func (r region) bytes() []byte {
	words := r.words
	take := func() uint32 {
		w := words[0]
		words = words[1:]
		return w
	}
	records := make([][]uint32, r.count)
	for range numbers {
		for i := range records {
			records[i] = append(records[i], take())
		}
	}
	offsets := func(place int, has func(record []uint32) int, more [][]uint32) {
		for i, record := range records {
			if has(record) > place {
				more[i] = append(more[i], take())
			}
		}
	}
	more := make([][]uint32, r.count)
	for _, has := range []func([]uint32) int{listsOf, dataOf} {
		for place := range mostLists {
			offsets(place, has, more)
		}
	}
	index, out := make([]byte, 8*(r.count-1)), []byte{}
	out = order.AppendUint32(out, r.end)
	entry := uint32(0)
	for i, record := range records {
		entry += record[0]
		// Records begin at multiples of eight from the index on; the index's first entry stands before the region.
		for i == 0 && len(index)+8+len(out) < int(r.first) || i > 0 && (len(index)+8+len(out))%8 != 0 {
			out = append(out, 0)
		}
		if i > 0 {
			order.PutUint32(index[8*(i-1):], entry)
			order.PutUint32(index[8*(i-1)+4:], uint32(len(index)+8+len(out)))
		}
		out = order.AppendUint32(out, entry)
		for _, w := range append(record[1:], more[i]...) {
			out = order.AppendUint32(out, w)
		}
	}
	return append(index, out...)
}

func listsOf(record []uint32) int { return int(record[ofLists]) }
func dataOf(record []uint32) int  { return int(record[ofData] >> 24) }

// append writes the region's form; none where there are no functions.
func (r region) append(out []byte) []byte {
	out = appendU32(out, uint32(r.count))
	if r.count == 0 {
		return out
	}
	out = appendU32(appendU32(out, r.first), r.end)
	for _, w := range r.words {
		out = order.AppendUint32(out, w)
	}
	return out
}

// region reads what append wrote, and gives the bytes in memory.
func (r *reader) region() []byte {
	t := region{count: int(r.u32())}
	if t.count == 0 || t.count > mostFunctions {
		return nil
	}
	t.first, t.end = r.u32(), r.u32()
	column := func(n int) []uint32 {
		words := make([]uint32, n)
		data := r.bytes(4 * n)
		for i := range words {
			if r.fault == nil {
				words[i] = order.Uint32(data[4*i:])
			}
		}
		t.words = append(t.words, words...)
		return words
	}
	var lists, data []uint32
	for n := range numbers {
		switch words := column(t.count); n {
		case ofLists:
			lists = words
		case ofData:
			for _, w := range words {
				data = append(data, w>>24)
			}
		}
	}
	for _, has := range [][]uint32{lists, data} {
		for place := range uint32(mostLists) {
			n := 0
			for _, h := range has {
				if h > place {
					n++
				}
			}
			column(n)
		}
	}
	if r.fault != nil {
		return nil
	}
	return t.bytes()
}

// parted cuts what comes after the code in two where the table of functions is. Where there is none in
// a form that is known, or it is not in one segment, the table is empty and all comes before it.
func parted(after []section) (before []byte, t region, rest []byte) {
	all := join(after)[len(preamble):]
	for i, s := range after {
		if s.id != sectionData {
			continue
		}
		t, made, place := regionIn(s.body)
		if t.count == 0 {
			break
		}
		from := len(join(after[:i+1])) - len(preamble) - len(s.body) + place
		return all[:from], t, all[from+len(made):]
	}
	return all, region{}, nil
}

// regionIn finds the table in a data section: its numbers, its bytes, and where in the section they are.
func regionIn(body []byte) (region, []byte, int) {
	m, err := readMemory(body)
	if err != nil {
		return region{}, nil, 0
	}
	found, err := findTables(m.bytes)
	if err != nil {
		return region{}, nil, 0
	}
	t, made, err := readRegion(found.functions, found.count)
	if err != nil {
		return region{}, nil, 0
	}
	place := bytes.Index(body, made) // some 300 kB, so they stand there once
	if place < 0 {
		return region{}, nil, 0
	}
	return t, made, place
}
