package press

import (
	"errors"
	"fmt"
	"strings"
)

// Unpress gives the module that Press was given, with every number in its shortest form. It is
// what web/unpress.ts does, written a second time.
func Unpress(pressed []byte) ([]byte, error) {
	if !strings.HasPrefix(string(pressed), mark) {
		return nil, errors.New("this was not written by Press")
	}
	r := reader{b: pressed, at: len(mark)}
	out := append([]byte{}, r.bytes(int(r.u32()))...)
	size := int(r.u32())
	count := r.u32()
	symbols := r.symbols()
	out = append(out, sectionCode)
	out = appendU32(out, uint32(size))
	from := len(out)
	out = appendU32(out, count)
	first := 0
	for n := int(r.u32()); n > 0 && r.fault == nil; n = int(r.u32()) {
		out = r.chunk(out, symbols, first, n)
		first += n
	}
	if r.fault == nil && (len(out)-from != size || first != int(count)) {
		return nil, fmt.Errorf("the code came out as %d functions and %d bytes, not %d and %d", first, len(out)-from, count, size)
	}
	out = append(out, r.bytes(int(r.u32()))...)
	out = append(out, r.region()...)
	return append(out, r.bytes(len(r.b)-r.at)...), r.fault
}

func (r *reader) symbols() []symbol {
	all := make([]symbol, min(int(r.u32()), most))
	for i := range all {
		k, deep := r.byte(), r.byte()
		s := symbol{kind: kind(k), deep: int(deep) - 1}
		switch s.kind {
		case phraseKind:
			s = symbol{parts: [2]int{int(r.u32()), int(r.u32())}}
		case literal, number, outward, wide:
			s.bytes = string(r.bytes(int(r.u32())))
			if s.kind != literal {
				s.n = int(r.u32())
			}
		}
		all[i] = s
	}
	return all
}

// chunk appends n functions, of which the first one has this number.
func (r *reader) chunk(out []byte, symbols []symbol, first, n int) []byte {
	c := chunkOf{functions: n}
	var lengths [streams]int
	for i := range lengths {
		lengths[i] = int(r.u32())
	}
	for i := range lengths {
		c.streams[i] = r.bytes(lengths[i])
	}
	if r.fault != nil {
		return out
	}
	return c.unpress(out, symbols, first)
}

// unpress appends the functions of a chunk, of which the first one has this number.
func (c *chunkOf) unpress(out []byte, symbols []symbol, first int) []byte {
	u := unpresser{symbols: symbols}
	for i, s := range c.streams {
		u.streams[i] = reader{b: s}
	}
	for i := range c.functions {
		body := u.function(first + i)
		out = append(appendU32(out, uint32(len(body))), body...)
	}
	return out
}

// unpresser writes functions out of the streams of a chunk.
type unpresser struct {
	symbols []symbol
	streams [streams]reader

	out    []byte // the function so far
	number int    // of the function
	places places
}

func (u *unpresser) function(number int) []byte {
	u.out, u.number, u.places = nil, number, places{}
	l := &u.streams[locals]
	from := l.at
	for n := l.u32(); n > 0 && l.fault == nil; n-- {
		l.u32()
		l.byte()
	}
	u.out = append(u.out, l.b[from:l.at]...)
	t := &u.streams[tokens]
	for u.places.depth >= 0 && t.fault == nil {
		s := int(t.byte())
		if s >= oneByte {
			s = oneByte + (s-oneByte)<<8 + int(t.byte())
		}
		u.symbol(s)
	}
	return u.out
}

func (u *unpresser) symbol(n int) {
	s := u.symbols[n]
	if s.phrase() {
		u.symbol(s.parts[0])
		u.symbol(s.parts[1])
		return
	}
	u.out = append(u.out, s.bytes...)
	switch s.kind {
	case number:
		r := &u.streams[s.n]
		from := r.at
		r.unsigned(10)
		u.out = append(u.out, r.b[from:r.at]...)
	case outward:
		u.out = appendU32(u.out, uint32(u.places.depth-s.n))
	case table:
		u.table()
	case back:
		next, _ := u.places.number(u.places.here() + 1)
		u.out = appendSigned(append(u.out, 0x42), int64(firstFunction+u.number)<<16|int64(next))
	case jump:
		to, _ := u.places.number(u.places.here() + int(u.streams[jumps].signed()))
		u.out = appendSigned(append(u.out, 0x41), int64(to))
	case wide:
		u.out = append(u.out, u.streams[wides].bytes(s.n)...)
	}
	u.places.move(s.deep)
}

func (u *unpresser) table() {
	r := &u.streams[tables_]
	list := make([]uint32, r.u32())
	var last int64
	for i := range list {
		last += r.signed()
		list[i] = uint32(last)
	}
	u.places.enter(list)
	u.out = appendU32(append(u.out, 0x0e), uint32(len(list)-1))
	for _, label := range list {
		u.out = appendU32(u.out, label)
	}
}
