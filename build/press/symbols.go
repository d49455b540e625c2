package press

import (
	"cmp"
	"maps"
	"slices"
)

// symbol is what a token stands for: an instruction without the numbers that the streams hold,
// or, with parts, two other symbols one after another.
type symbol struct {
	kind  kind
	bytes string
	n     int
	deep  int
	parts [2]int // of a phrase; kind, bytes, n and deep are then nothing
}

// alphabet is all symbols of a module, and its functions written in them.
type alphabet struct {
	symbols []symbol
	texts   [][]int // one a function: places in symbols
}

// often is how many times an instruction has to stand in a module with the same number so that
// the number becomes part of its symbol. Found by trying on our own core: at 1,000 and at 10,000
// the whole came out larger.
const often = 6000

// phrases is how many pairs of symbols get a symbol of their own, the most frequent first.
// More make the text shorter, and its compressed form longer again.
const phrases = 140

// newAlphabet writes the functions in symbols, and takes the numbers out of the instructions
// that have them in their symbol.
func newAlphabet(m *module) *alphabet {
	count := map[instruction]int{}
	for _, f := range m.functions {
		for _, in := range f.code {
			if m.symbols[in.symbol].kind == number {
				count[in]++
			}
		}
	}
	fused := map[instruction]int{}
	for in, n := range count {
		if n >= often {
			fused[in] = 0
		}
	}
	for _, in := range slices.SortedFunc(maps.Keys(fused), func(a, b instruction) int {
		return cmp.Or(a.symbol-b.symbol, cmp.Compare(a.value, b.value))
	}) {
		fused[in] = m.symbol(m.symbols[in.symbol].with(in.value))
	}
	a := &alphabet{}
	for _, f := range m.functions {
		text := make([]int, len(f.code))
		for n, in := range f.code {
			if s, ok := fused[in]; ok {
				f.code[n] = instruction{symbol: s}
			}
			text[n] = f.code[n].symbol
		}
		a.texts = append(a.texts, text)
	}
	a.symbols = m.symbols
	for most := len(a.symbols) + phrases; a.pair(most); {
	}
	a.sort()
	return a
}

// with is the symbol that has the instruction's number in its bytes.
func (s symbol) with(value int64) symbol {
	return symbol{kind: literal, bytes: string(s.appendNumber([]byte(s.bytes), value))}
}

func (s symbol) appendNumber(out []byte, value int64) []byte {
	if s.n == small || s.n == large {
		return appendSigned(out, value)
	}
	return appendU32(out, uint32(value))
}

// pair makes phrases of the most frequent pairs, as many at once as do not touch each other.
// There are no more than most symbols then. It reports whether there was a pair that pays.
func (a *alphabet) pair(most int) bool {
	const atOnce, fewest = 12, 200
	best := a.frequent()
	taken, made := map[int]bool{}, map[[2]int]int{}
	for _, p := range best {
		if len(made) == atOnce || p.count < fewest || p.count*2 < best[0].count || len(a.symbols) >= most {
			break
		}
		if taken[p.pair[0]] || taken[p.pair[1]] {
			continue
		}
		taken[p.pair[0]], taken[p.pair[1]] = true, true
		made[p.pair] = len(a.symbols)
		a.symbols = append(a.symbols, symbol{parts: p.pair})
	}
	for i, text := range a.texts {
		short := text[:0]
		for n := 0; n < len(text); n++ {
			if n+1 < len(text) {
				if s, ok := made[[2]int{text[n], text[n+1]}]; ok {
					short = append(short, s)
					n++
					continue
				}
			}
			short = append(short, text[n])
		}
		a.texts[i] = short
	}
	return len(made) > 0
}

// counted is a pair of symbols and how often it stands in the functions.
type counted struct {
	pair  [2]int
	count int
}

// frequent lists the pairs by how often they stand in the functions.
func (a *alphabet) frequent() []counted {
	wide := len(a.symbols)
	count := make([]int32, wide*wide)
	for _, text := range a.texts {
		for n := 1; n < len(text); n++ {
			count[text[n-1]*wide+text[n]]++
			if n+1 < len(text) && text[n-1] == text[n] && text[n] == text[n+1] {
				n++ // the middle one of three can be in one pair only
			}
		}
	}
	var all []counted
	for at, c := range count {
		if c > 1 {
			all = append(all, counted{[2]int{at / wide, at % wide}, int(c)})
		}
	}
	slices.SortFunc(all, func(x, y counted) int {
		return cmp.Or(y.count-x.count, slices.Compare(x.pair[:], y.pair[:]))
	})
	return all
}

// sort puts the symbols that stand most often first: they get the short tokens. A phrase keeps
// its parts by their new places, which may lie behind it.
func (a *alphabet) sort() {
	count := make([]int, len(a.symbols))
	for _, text := range a.texts {
		for _, s := range text {
			count[s]++
		}
	}
	by := make([]int, len(a.symbols))
	for i := range by {
		by[i] = i
	}
	slices.SortStableFunc(by, func(x, y int) int { return count[y] - count[x] })
	place := make([]int, len(by))
	sorted := make([]symbol, len(by))
	for now, old := range by {
		place[old] = now
	}
	for old, s := range a.symbols {
		if s.phrase() {
			s.parts = [2]int{place[s.parts[0]], place[s.parts[1]]}
		}
		sorted[place[old]] = s
	}
	for _, text := range a.texts {
		for n := range text {
			text[n] = place[text[n]]
		}
	}
	a.symbols = sorted
}

// phrase says whether the symbol stands for two others. (No instruction has no bytes, except
// those that are made of an address: their kind is not literal.)
func (s symbol) phrase() bool { return s.kind == literal && s.bytes == "" }
