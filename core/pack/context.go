package pack

// The contexts in which each decision is looked up. The first five are a chain, from
// what says little to what says much; the others stand beside it.
const (
	byKind = iota
	byOne  // the last symbol
	byTwo
	byThree
	byFour
	chained

	byWord      = iota - 1 // the letters of the word so far
	byWordKind             // and the kind of text
	byThreeKind            // three symbols and the kind of text
	byPlace                // where in the text, behind which class of symbol
	byClasses              // the classes of the last eight symbols
	byOneKind              // the last symbol, the kind and whether it is the first
	contexts
)

// begun marks where a text of a kind begins: begun + kind stands before it.
const begun symbol = 120

// reading is where in a text the model stands.
type reading struct {
	kind    Kind
	at      int    // symbols since the text began
	word    uint32 // hash of the letters since the last other symbol, 0 if none
	classes uint32 // of the last eight symbols, the last one lowest
	capital bool   // the next symbol is a letter behind a capital sign
}

func mixed(list ...uint32) uint32 {
	x := uint32(0x9E3779B1)
	for _, v := range list {
		x = (x ^ v) * 0x85EBCA6B
		x ^= x >> 15
	}
	return x
}

// look works out the contexts of the next symbol.
func (m *texts) look() {
	r, kind, last := &m.reading, uint32(m.reading.kind), uint32(m.past[len(m.past)-1])
	x, stop := uint32(0), false
	for n := byOne; n < chained; n++ {
		if !stop {
			s := m.past[len(m.past)-n]
			x = mixed(x, uint32(s))
			stop = s >= begun // nothing is known before the text
		}
		m.context[n] = mixed(uint32(n), x)
	}
	m.context[byKind] = mixed(byKind, kind)
	m.context[byWord] = mixed(byWord, r.word)
	m.context[byWordKind] = mixed(byWordKind, r.word, kind)
	m.context[byThreeKind] = mixed(byThreeKind, m.context[byThree], kind)
	m.context[byPlace] = mixed(byPlace, kind, uint32(min(r.at, 12)), r.classes&15)
	m.context[byClasses] = mixed(byClasses, r.classes, kind)
	m.context[byOneKind] = mixed(byOneKind, last, kind, uint32(min(r.at, 1)))
}

// begin stands at the start of a text.
func (m *texts) begin(kind Kind) {
	m.reading = reading{kind: kind, classes: classStart}
	m.append(begun+symbol(kind), false)
}

// passed moves on over a symbol, which is a capital where reading says so.
func (m *texts) passed(s symbol) {
	r := &m.reading
	m.append(s, r.capital)
	r.capital = false
	r.at++
	r.classes = r.classes<<4 | uint32(m.class[s])
	switch {
	case m.isLetter(s), m.runes[s] == '\'':
		r.word = mixed(r.word, uint32(s))
	case m.class[s] == classDigit:
		r.word = 7 // numbers are words that are all alike
	default:
		r.word = 0
	}
}
