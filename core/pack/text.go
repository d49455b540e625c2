package pack

import "unicode/utf8"

// Kind says what a text is, since names, notes and telephone numbers look different.
type Kind uint8

// The kinds of text.
const (
	Other Kind = iota // anything else
	Name              // what a person is called: "Rosa", "Aunt Dana"
	Place             // a place or an address: "12 Mill Road, Building 2", "East Clinic"
	Note              // a sentence to somebody: "ring the side door"
	Title             // what something is called: "Check-up", "Walk the dog"
	Phone             // a telephone number
	kinds
)

// MostText is how many characters all texts of one document have together, each text
// counting one more than it has. Characters that the model expects take almost no bits
// (under 0.003), so without a limit a hostile link of 300 bytes keeps its reader busy for
// seconds.
const MostText = 1 << 17

// Text codes a text of at most so many characters (runes). It has to be valid UTF-8,
// as plan.Clean leaves it. What was said before in the same document, and what
// ordinary families say, costs less. There is one way to write each text: what is read
// would be written with the same bits.
func (c *Coder) Text(kind Kind, v string, most int) string {
	if kind >= kinds || c.encoding && (!utf8.ValidString(v) || utf8.RuneCountInString(v) > most) {
		misuse("a text of no kind, broken or too long")
	}
	if c.bad {
		return ""
	}
	if c.text == nil {
		c.text = newSpeech()
	}
	c.text.begin(kind)
	c.letters++
	var got []byte
	left := v
	for n := 0; c.roomLeft() && n < most; n++ {
		r, size := utf8.DecodeRuneInString(left)
		if size == 0 {
			r = noRune
		}
		left = left[size:]
		if r = c.rune(r); r == noRune {
			break
		}
		got = utf8.AppendRune(got, r)
	}
	if c.bad {
		return ""
	}
	return string(got)
}

// roomLeft sees to it that a document stays within MostText.
func (c *Coder) roomLeft() bool {
	if c.letters <= MostText {
		return true
	}
	if c.encoding {
		misuse("more text than one document may have")
	}
	c.Fail()
	return false
}

const noRune = -1

// rune codes a character, or noRune for the end of the text.
func (c *Coder) rune(r rune) rune {
	a := c.text.alphabet
	s, capital := endSign, false
	if r != noRune {
		s, capital = a.fold(r)
	}
	if capital {
		capital = c.symbol(capitalSign, false) == capitalSign
	} else if s = c.symbol(s, false); s == capitalSign {
		capital = true
	}
	if capital {
		s = c.symbol(s, true)
	}
	if c.bad || s == endSign {
		return noRune
	}
	c.passed(s)
	switch {
	case s == escapeSign:
		return c.escape(r)
	case capital:
		return a.runes[s] - inCase
	}
	return a.runes[s]
}

// symbol codes a symbol, decision by decision down the tree. It gives endSign for what cannot
// be read.
func (c *Coder) symbol(s symbol, capital bool) symbol {
	t := c.text
	if t.model != nil {
		t.model.reading.capital = capital
		t.model.look()
	}
	node, walked := t.start(capital)
	for node >= 0 {
		bit, _ := t.code[s].turn(walked)
		bit = c.split(uint32(certain-t.chance(node, walked, capital)), bit)
		if c.bad {
			return endSign
		}
		if t.model != nil {
			t.model.learn(bit)
		}
		node, walked = t.step(node, walked, bit)
	}
	t.leads(walked, capital)
	t.note(symbol(^node))
	return symbol(^node)
}

// passed moves on over a symbol.
func (c *Coder) passed(s symbol) {
	c.letters++
	if c.text.model != nil {
		c.text.model.passed(s)
	}
}

// escapes is the model of characters without a symbol: which 128 they are among, most
// often those of the one before, and which of them.
type escapes struct {
	same  Bit
	block Number
	last  uint64
	low   [128]Bit
}

const blockBits = 7

func (c *Coder) escape(r rune) rune {
	if c.escapes == nil {
		c.escapes = &escapes{}
	}
	e := c.escapes
	block := uint64(max(r, 0)) >> blockBits
	if !c.Flag(&e.same, block == e.last) {
		block = c.Number(&e.block, block)
		if block == e.last {
			c.Fail()
		}
	} else {
		block = e.last
	}
	if c.bad || block > utf8.MaxRune>>blockBits {
		c.Fail()
		return noRune
	}
	e.last = block
	low := 1
	for i := blockBits - 1; i >= 0; i-- {
		if c.Flag(&e.low[low], r>>i&1 == 1) {
			low = 2*low + 1
		} else {
			low = 2 * low
		}
	}
	got := rune(block<<blockBits) + rune(low) - 1<<blockBits
	if s, _ := c.text.fold(got); s != escapeSign || !utf8.ValidRune(got) {
		c.Fail() // a character that has a symbol is not written in two ways
		return noRune
	}
	return got
}
