package press

// places follows where in a function the code is. Go compiles a function for WebAssembly to a
// loop around a row of nested blocks, one for each place at which the function can be entered:
// its beginning, behind each call, at each target of a jump (cmd/internal/obj/wasm, wasmobj.go).
// A br_table at the innermost one leads to the place that a number asks for. So a place is
// known by how many of those blocks are closed, and the numbers by the table.
type places struct {
	depth, least int
	inner        int      // the depth at the br_table; 0 before it
	last         []uint32 // place → the last number that the table gives it
}

// enter notes a br_table.
func (p *places) enter(list []uint32) {
	p.inner, p.least = p.depth, p.depth
	p.last = make([]uint32, 0, len(list))
	for number, place := range list[:len(list)-1] {
		for int(place) >= len(p.last) {
			p.last = append(p.last, 0)
		}
		p.last[place] = uint32(number)
	}
}

// move notes how an instruction changed the depth of blocks.
func (p *places) move(deep int) {
	p.depth += deep
	p.least = min(p.least, p.depth)
}

// here is the place that the code is in.
func (p *places) here() int { return p.inner - 1 - p.least }

// number is the number of a place.
func (p *places) number(place int) (uint32, bool) {
	if p.inner == 0 || place < 0 || place >= len(p.last) {
		return 0, false
	}
	return p.last[place], true
}

// place is the place of a number.
func (p *places) place(number int64) (int, bool) {
	for place, n := range p.last {
		if int64(n) == number {
			return place, true
		}
	}
	return 0, false
}

// firstFunction is the number that Go's linker gives the first function of the code section
// (cmd/link/internal/wasm, asm.go, funcValueOffset).
const firstFunction = 0x1000

// resolve replaces addresses within function i by what they mean: kinds back and jump.
func (m *module) resolve(i int) {
	var p places
	f := m.functions[i]
	tables := f.tables
	for n := range f.code {
		in := &f.code[n]
		s := m.symbols[in.symbol]
		switch {
		case s.kind == table:
			p.enter(tables[0])
			tables = tables[1:]
		case s.kind == number && s.n == large:
			if next, ok := p.number(p.here() + 1); ok && in.value == int64(firstFunction+i)<<16|int64(next) {
				*in = instruction{m.symbol(symbol{kind: back}), 0}
			}
		case s.kind == number && s.n == small && m.jumps(f.code[n:]):
			if to, ok := p.place(in.value); ok {
				*in = instruction{m.symbol(symbol{kind: jump}), int64(to - p.here())}
			}
		}
		p.move(s.deep)
	}
}

// jumps says whether the first instruction is the number that a jump within the function begins
// with: i32.const, local.set 0, br.
func (m *module) jumps(code []instruction) bool {
	if len(code) < 3 {
		return false
	}
	set, br := m.symbols[code[1].symbol], m.symbols[code[2].symbol]
	return set.bytes == "\x21" && code[1].value == 0 && br.bytes == "\x0c"
}
