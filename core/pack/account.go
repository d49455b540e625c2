package pack

import "math/bits"

// Part is how much of a document one part of the form took, in bits.
type Part struct {
	Name string
	Bits float64
}

// bill adds up what is spent, in 2^-20 bits.
type bill struct {
	parts   []string
	spent   []uint64
	current int
}

const billDigits = 20

// Account begins to add up what each part takes, for the bench. Without it Part does
// nothing.
func (c *Coder) Account() {
	c.bill = &bill{}
	c.Part("")
}

// Part says that from here on bits are spent on what has this name. A name may come
// more than once.
func (c *Coder) Part(name string) {
	if c.bill == nil {
		return
	}
	b := c.bill
	for b.current = 0; b.current < len(b.parts); b.current++ {
		if b.parts[b.current] == name {
			return
		}
	}
	b.parts, b.spent = append(b.parts, name), append(b.spent, 0)
}

// Spent gives the parts in the order in which they first came, the part without a name
// first. The document is at most a byte longer than their sum; where it would end in
// zeros, up to slack + 1 bytes shorter. It is nil without Account.
func (c *Coder) Spent() []Part {
	if c.bill == nil {
		return nil
	}
	parts := make([]Part, len(c.bill.parts))
	for i, name := range c.bill.parts {
		parts[i] = Part{name, float64(c.bill.spent[i]) / (1 << billDigits)}
	}
	return parts
}

// count bills what had a chance of width in parts: log2(parts/width) bits.
func (c *Coder) count(width, parts uint64) {
	if c.bill != nil {
		c.bill.spent[c.bill.current] += log2(parts) - log2(width)
	}
}

// log2 is the binary logarithm in 2^-20, by squaring: each time the square reaches 2,
// the next digit is a one. Slow, and only the bench pays.
func log2(v uint64) uint64 {
	whole := uint64(bits.Len64(v) - 1)
	x := v << (31 - whole) // from 1 up to 2, in 2^-31; v is below 2^32
	for range billDigits {
		x = x * x >> 31
		whole <<= 1
		if x>>32 != 0 {
			whole |= 1
			x >>= 1
		}
	}
	return whole
}
