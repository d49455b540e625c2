package press

import "fmt"

// kind says how an instruction is made of a symbol and of what the streams hold.
type kind byte

const (
	literal kind = iota // the symbol's bytes, as they are
	number              // the bytes, then a number of stream n, in LEB128 as it stands there
	outward             // the bytes, then the label that lies n blocks inside of the function's own
	table               // br_table; of the stream of tables
	back                // i64.const: the address at which this function goes on after a call
	jump                // i32.const: the part of this function that is gone on with
	wide                // the bytes, then n bytes of the stream of wide numbers
)

// The streams. Each holds one sort of number of all functions of a chunk, so that like stands
// beside like.
const (
	tokens = iota
	locals // what a function declares
	names  // of local variables
	offsets
	calls
	small // i32.const
	large // i64.const
	tables_
	jumps
	wides
	streams
)

// instruction is one instruction of a function. There are millions, so it is kept small.
type instruction struct {
	symbol int   // place in the list of symbols
	value  int64 // of a number or a jump
}

// instruction takes one instruction of f (5.4): its symbol, and its number where it has one.
// depth is the number of open blocks.
func (r *reader) instruction(f *function, depth int) (in symbol, value int64) {
	op := r.byte()
	in.bytes = oneByteTexts[op]
	with := func(stream int, v int64) (symbol, int64) {
		in.kind, in.n = number, stream
		return in, v
	}
	switch {
	case op == 0x02 || op == 0x03 || op == 0x04: // block, loop, if: with a type
		in.bytes += oneByteTexts[r.byte()]
		in.deep = 1
	case op == 0x0b: // end
		in.deep = -1
	case op == 0x0c || op == 0x0d: // br, br_if
		in.kind, in.n = outward, depth-int(r.u32())
	case op == 0x0e: // br_table
		in.kind = table
		in.bytes = ""
		var list []uint32
		for n := r.u32() + 1; n > 0 && r.fault == nil; n-- {
			list = append(list, r.u32())
		}
		f.tables = append(f.tables, list)
	case op == 0x10: // call
		return with(calls, int64(r.u32()))
	case op == 0x11: // call_indirect
		in.bytes = string(appendU32(appendU32([]byte(in.bytes), r.u32()), r.u32()))
	case op >= 0x20 && op <= 0x22: // local.get, local.set, local.tee
		return with(names, int64(r.u32()))
	case op == 0x23 || op == 0x24: // global.get, global.set
		in.bytes = string(appendU32([]byte(in.bytes), r.u32()))
	case op >= 0x28 && op <= 0x3e: // loads and stores
		in.bytes += oneByteTexts[r.byte()]
		return with(offsets, int64(r.u32()))
	case op == 0x3f || op == 0x40: // memory.size, memory.grow
		in.bytes += oneByteTexts[r.byte()]
	case op == 0x41:
		return with(small, r.signed())
	case op == 0x42:
		return with(large, r.signed())
	case op == 0x43 || op == 0x44: // f32.const, f64.const
		in.kind, in.n = wide, 4<<(op-0x43)
		f.wides = append(f.wides, r.bytes(in.n)...)
	case op == 0xfc:
		in.bytes = r.prefixed(in.bytes)
	case op == 0x00 || op == 0x01 || op == 0x05 || op == 0x0f || op == 0x1a || op == 0x1b || op >= 0x45 && op <= 0xc4:
	default:
		r.fail(fmt.Sprintf("instruction %#x is none that Go's compiler writes", op))
	}
	return in, 0
}

// oneByteTexts are all texts of one byte.
var oneByteTexts = func() (all [256]string) {
	for b := range all {
		all[b] = string([]byte{byte(b)})
	}
	return all
}()

// prefixed reads an instruction of two bytes: conversions, memory.copy and memory.fill.
func (r *reader) prefixed(bytes string) string {
	op := r.u32()
	out := appendU32([]byte(bytes), op)
	switch {
	case op <= 7:
	case op == 10:
		out = append(out, r.byte(), r.byte())
	case op == 11:
		out = append(out, r.byte())
	default:
		r.fail(fmt.Sprintf("instruction 0xfc %d is none that Go's compiler writes", op))
	}
	return string(out)
}

// function is one function of the module.
type function struct {
	locals []byte
	code   []instruction
	tables [][]uint32 // of its br_tables, in their order
	wides  []byte     // of its f32.const and f64.const
}

// module is the code section, taken apart.
type module struct {
	symbols   []symbol
	place     map[symbol]int // in symbols
	functions []function
}

// symbol gives the place of a symbol, which it gets with its first use.
func (m *module) symbol(s symbol) int {
	at, known := m.place[s]
	if !known {
		at = len(m.symbols)
		m.place[s] = at
		m.symbols = append(m.symbols, s)
	}
	return at
}

// readModule takes a code section apart (5.5.13).
func readModule(body []byte) (*module, error) {
	r := reader{b: body}
	m := &module{place: map[symbol]int{}}
	for i := int(r.u32()); i > 0; i-- {
		size := int(r.u32())
		end := r.at + size
		m.functions = append(m.functions, m.function(&r, end))
		if r.fault == nil && r.at != end {
			r.fail("a function ends elsewhere than its size says")
		}
		if r.fault != nil {
			return nil, fmt.Errorf("function %d of the code section: %w", len(m.functions)-1, r.fault)
		}
	}
	return m, nil
}

func (m *module) function(r *reader, end int) function {
	from := r.at
	for n := r.u32(); n > 0 && r.fault == nil; n-- {
		r.u32()
		r.byte()
	}
	f := function{locals: r.b[from:r.at], code: make([]instruction, 0, (end-r.at)/2)}
	for depth := 0; depth >= 0 && r.fault == nil && r.at < end; {
		s, value := r.instruction(&f, depth)
		depth += s.deep
		f.code = append(f.code, instruction{m.symbol(s), value})
	}
	return f
}
