package pack

// A text is coded as symbols: its characters with capitals made small, a capital sign
// before what was one, and an end. So "Road" and "road" teach each other. A character
// without a symbol comes as an escape and its number in Unicode.
type symbol uint8

const (
	endSign symbol = iota
	capitalSign
	escapeSign
	signs
)

// tree is the symbols and the decisions that lead to each, so that what is frequent in
// the corpus takes few: Huffman's tree, written with { before the two branches of each
// node. | is the end, ^ the capital sign, ~ the escape. Letters lie under one node,
// since none but they follow a capital sign.
const (
	tree     = `{{ {^{{{{-{{'{{{{{{%${*={{_¿{¡°{{{’–{…€{{<>{[]({){!{{{ªº{½ß{{{~/{&#{{;"{+@{{:?.,{{50{{2{4{96{{3{781|{{{{{{{{{éó{{{{{{{üà{èç{{öä{êâ{{{ôî{ëï{{øå{ãõúñqjkm{pua{{ls{{{wf{b{{{íx{závi{{e{no{{t{{ygd{r{ch`
	nodeSign = '{'
	signRune = "|^~" // by symbol

	inCase = 'a' - 'A' // in ASCII as in Latin-1 (ISO 8859-1)
)

// mostSymbols is more than the tree has, and mostNodes.
const mostSymbols = 104

type alphabet struct {
	runes [mostSymbols]rune // by symbol
	class [mostSymbols]uint8
	code  [mostSymbols]path
	kids  [mostSymbols][2]int16 // by node, the root first: the node that a decision leads to, or ^symbol
	used  symbol                // symbols
	nodes int16

	latin [256]symbol // by character, small: its symbol, or endSign

	letters     int16 // the node under which they lie
	letterStart path
}

// path is the decisions from the root, the last one in the lowest bit.
type path struct {
	bits uint32
	long uint8
}

// The classes of symbols; four bits hold one.
const (
	classStart = iota + 1 // no symbol yet
	classVowel
	classConsonant
	classDigit
	classSpace
	classOther
)

func newAlphabet() *alphabet {
	a := &alphabet{used: signs}
	rest := []rune(tree)
	a.lay(&rest, path{})
	for s := signs; s < a.used; s++ {
		if r := a.runes[s]; int(r) < len(a.latin) {
			a.latin[r] = s
		}
	}
	a.underOne()
	return a
}

// lay numbers the nodes and symbols of a branch.
func (a *alphabet) lay(rest *[]rune, way path) int16 {
	r := (*rest)[0]
	*rest = (*rest)[1:]
	if r == nodeSign {
		n := a.nodes
		a.nodes++
		a.kids[n][0] = a.lay(rest, way.then(false))
		a.kids[n][1] = a.lay(rest, way.then(true))
		return n
	}
	s := a.used
	for sign, shown := range signRune {
		if r == shown {
			s = symbol(sign)
		}
	}
	if s == a.used {
		a.used++
	}
	a.runes[s], a.class[s], a.code[s] = r, classOf(r), way
	return ^int16(s)
}

func classOf(r rune) uint8 {
	for _, vowel := range "aeiouáéíóú" {
		if r == vowel {
			return classVowel
		}
	}
	switch {
	case r >= 'a' && r <= 'z', r >= 'à' && r <= 'ÿ':
		return classConsonant
	case r >= '0' && r <= '9':
		return classDigit
	case r == ' ':
		return classSpace
	}
	return classOther
}

func (a *alphabet) isLetter(s symbol) bool {
	return a.class[s] == classVowel || a.class[s] == classConsonant
}

// underOne finds the node that has all letters: what the ways to them have in common.
func (a *alphabet) underOne() {
	var shared path
	for s := range a.used {
		if !a.isLetter(s) {
			continue
		}
		if shared.long == 0 {
			shared = a.code[s]
		}
		for {
			if _, ahead := a.code[s].turn(shared); ahead {
				break
			}
			shared = path{shared.bits >> 1, shared.long - 1}
		}
	}
	a.letters, a.letterStart = 0, shared
	for i := int(shared.long) - 1; i >= 0; i-- {
		a.letters = a.kids[a.letters][shared.bits>>i&1]
	}
}

// fold gives a character's symbol and whether it is a capital; escapeSign if it has
// none.
func (a *alphabet) fold(r rune) (s symbol, capital bool) {
	capital = r >= 'A' && r <= 'Z' || r >= 'À' && r <= 'Þ'
	if capital {
		r += inCase
	}
	if uint32(r) < uint32(len(a.latin)) {
		if s := a.latin[r]; s != endSign && (!capital || a.isLetter(s)) {
			return s, capital
		}
		return escapeSign, false
	}
	for s := signs; s < a.used; s++ {
		if a.runes[s] == r {
			return s, capital
		}
	}
	return escapeSign, false
}

// start is where the walk to the next symbol begins: behind a capital sign, with the letters.
func (a *alphabet) start(capital bool) (int, path) {
	if capital {
		return int(a.letters), a.letterStart
	}
	return 0, path{}
}

func (a *alphabet) step(node int, walked path, bit bool) (int, path) {
	kid := 0
	if bit {
		kid = 1
	}
	return int(a.kids[node][kid]), walked.then(bit)
}

// then is a path with one more decision.
func (p path) then(bit bool) path {
	p.bits, p.long = p.bits<<1, p.long+1
	if bit {
		p.bits |= 1
	}
	return p
}

// begins tells whether a path begins with what was walked, or is that.
func (p path) begins(walked path) bool {
	return p.long >= walked.long && p.bits>>(p.long-walked.long) == walked.bits
}

// turn says which way a symbol lies from where a walk has come to, if it does.
func (p path) turn(walked path) (bit, ahead bool) {
	if p.long <= walked.long || p.bits>>(p.long-walked.long) != walked.bits {
		return false, false
	}
	return p.bits>>(p.long-walked.long-1)&1 == 1, true
}
