package press

import (
	"errors"
	"fmt"
)

// memory is what a module's data section puts into its memory, as one run of bytes that begins
// at address base.
type memory struct {
	base  int
	bytes []byte
}

// readMemory lays the segments of a data section (5.5.14) side by side. Only active segments at a
// constant address of memory 0 are known; Go's linker writes no others.
func readMemory(body []byte) (memory, error) {
	type segment struct {
		at   int
		data []byte
	}
	r := reader{b: body}
	var all []segment
	low, high := 1<<31, 0
	for n := r.u32(); n > 0 && r.fault == nil; n-- {
		const active, constI32, end = 0, 0x41, 0x0b
		if r.u32() != active || r.byte() != constI32 {
			return memory{}, errors.New("a data segment is not of the kind that Go's linker writes")
		}
		at := int(uint32(r.signed()))
		if r.byte() != end {
			return memory{}, errors.New("a data segment's address is not a plain number")
		}
		s := segment{at, r.bytes(int(r.u32()))}
		low, high = min(low, at), max(high, at+len(s.data))
		all = append(all, s)
	}
	if r.fault != nil {
		return memory{}, r.fault
	}
	if r.at != len(body) || high < low || high > 1<<28 {
		return memory{}, fmt.Errorf("a data section of %d bytes, %d of them read, fills memory to %d: that is not understood", len(body), r.at, high)
	}
	low &^= 15 // so that what is aligned in memory is aligned here
	m := memory{low, make([]byte, high-low)}
	for _, s := range all {
		copy(m.bytes[s.at-low:], s.data)
	}
	return m, nil
}

// gap is how many zero bytes in a row are left out of the data section: fewer cost less than the
// head of another segment. (Memory is zero to begin with, 4.5.4.) Go's linker leaves out eight,
// and writes as many segments as engines take, 100,000: their heads were a tenth of the download.
const gap = 512

// section writes the memory as a data section.
func (m memory) section() []byte {
	var segments [][2]int // from, to
	for at := 0; at < len(m.bytes); {
		if m.bytes[at] == 0 {
			at++
			continue
		}
		end := at + 1
		for next := end; next < len(m.bytes) && next-end < gap; next++ {
			if m.bytes[next] != 0 {
				end = next + 1
			}
		}
		segments = append(segments, [2]int{at, end})
		at = end
	}
	out := appendU32(nil, uint32(len(segments)))
	for _, s := range segments {
		out = append(out, 0, 0x41)
		out = appendSigned(out, int64(int32(uint32(m.base+s[0]))))
		out = append(out, 0x0b)
		out = appendU32(out, uint32(s[1]-s[0]))
		out = append(out, m.bytes[s[0]:s[1]]...)
	}
	return out
}
