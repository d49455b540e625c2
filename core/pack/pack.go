// Package pack turns values into few bits and back: an arithmetic coder with models
// that learn while they code, and a model of the short texts that families write.
//
// One set of calls works both ways. Each call takes a value and gives it back: on the
// way out it writes the value and returns it; on the way in it ignores the value and
// returns what it read. So one function describes a form for both directions:
//
//	func (s *schema) helper(c *pack.Coder, h *Helper) {
//		h.Name = c.Text(pack.Name, h.Name, 40)
//		h.Drives = c.Flag(&s.drives, h.Drives)
//	}
//
// and is run as
//
//	c := pack.NewEncoder(); s.helper(c, &h); data := c.Close()
//	c := pack.NewDecoder(data); s.helper(c, &h); err := c.Err()
//
// A model (Bit, Number, Choice) is a plain value that belongs to the caller; a copy of
// it learns by itself. Both directions have to start with equal models and make the
// same calls, with the same bounds, in the same order. Models give what they have seen
// more often fewer bits from then on.
//
// # What the caller has to see to
//
// Values have one form in decisions, but not in bytes: the bytes of Close, those with
// zeros behind them, and longer ones from the same interval all read as the same
// values, and none of them is an error here. Whoever wants one document to have one
// form encodes what was read once more and refuses bytes that differ. A document that
// was cut off or changed mostly reads as other values: only a checksum finds that.
//
// Any bytes whatever decode to values that are in range, or make Err say so. Nothing
// panics, and each call ends. But expected values take almost no bits (a Flag down to
// 0.0012), so a few hundred bytes can answer millions of calls: how many calls are made
// has to be bounded by the caller. For texts, MostText does it.
//
// Encoding a value outside its stated range panics, since that is a fault of the
// program and not of the data. So does a bound that cannot be, in both directions: no
// bound may come from the data unchecked.
//
// # Memory and time
//
//	the model of texts, primed, kept for all documents    1 MB
//	a document that has texts: a copy of the model        1 MB
//	each character of its texts                           2 to 4 bytes
//	a document without a text                             its bytes, nothing else
//	priming, before the first text of all documents       1: it reads the corpus, 18,400 characters
//	writing or reading a document of 900 characters       1/20 of that
//	the same where its texts were coded before            next to nothing, and no model (trail.go)
//
// # Frozen
//
// Everything is integer arithmetic in 64 bits, and every constant as well as corpus.txt
// belongs to the links that were made with it: a change of any of them makes a new
// version of the link, and the old one has to be kept beside it. frozen_test.go finds
// such a change.
//
// Sources: Witten, Neal and Cleary, "Arithmetic coding for data compression" (CACM
// 30:6, 1987); Mahoney, "Data Compression Explained" (2013) for mixing, counters and
// match models. The code is our own.
package pack

import "errors"

// ErrBad says that the bytes were not made by an encoder with the same calls: they end
// where they should not, or hold a value that is not allowed there.
var ErrBad = errors.New("pack: these bytes are not a packed document of this form; get the link again from whoever sent it")

// Coder writes or reads one document.
type Coder struct {
	encoding bool
	bad      bool

	// The interval of Witten, Neal and Cleary, in units of 2^-48 of what the bytes
	// written so far leave open. Its low end when encoding; when decoding, how far
	// the number that is read lies above the low end.
	low  uint64
	span uint64 // its width, over 2^40 and at most 2^48 between two calls

	out []byte // written so far, encoding
	in  []byte // what there is to read, decoding
	at  int    // how many bytes have been taken from in, or from the zeros behind it

	bill    *bill    // nil unless Account was called
	text    *speech  // nil before the first text
	escapes *escapes // nil before the first character without a symbol
	letters int      // of all texts so far, each counting one more
}

// NewEncoder begins a document.
func NewEncoder() *Coder { return &Coder{encoding: true, span: full} }

// NewDecoder reads a document that Close gave. The bytes are not changed or copied.
func NewDecoder(data []byte) *Coder {
	c := &Coder{span: full, in: data}
	for range spanBytes {
		c.low = c.low<<8 | uint64(c.next())
	}
	return c
}

// Release gives the memory of the text model back, for the next coder. After it the coder is
// of no use. Without it the garbage collector has more to do, and nothing else.
func (c *Coder) Release() {
	if c.text == nil {
		return
	}
	if !c.bad {
		c.text.keep()
	}
	if c.text.model != nil {
		spare.Put(c.text.model)
	}
	c.text, c.bad = nil, true
}

// Encoding says whether the coder writes.
func (c *Coder) Encoding() bool { return c.encoding }

// Err is nil, or ErrBad once anything was read that cannot be. What the call that met
// it returned means nothing; from then on every call returns a zero value. It is always
// nil while encoding.
func (c *Coder) Err() error {
	if c.bad {
		return ErrBad
	}
	return nil
}

// Fail marks what is being read as bad, for a caller who has found a value that
// cannot be. It does nothing to an encoder.
func (c *Coder) Fail() { c.bad = c.bad || !c.encoding }

// misuse stops a program that encodes a value which its own form does not allow.
func misuse(what string) { panic("pack: " + what + ": check the value before it is encoded") }
