package pack

// The interval is 48 bits wide and never narrower than 40, so that a chance of
// 1/65536 still has 2^24 steps and rounding costs nothing that can be measured.
const (
	spanBytes = 6
	full      = 1 << (8 * spanBytes)
	narrow    = full >> 8

	oddsBits = 16
	certain  = 1 << oddsBits
)

// slack is how many bytes more than it has a document may be read on. Behind its end
// are zeros, which Close leaves out; but so that hostile bytes cannot be read for
// ever, it leaves out no more than these.
const slack = 8

// split codes one decision whose chance of being false is odds/65536.
func (c *Coder) split(odds uint32, v bool) bool {
	if c.bad {
		return false
	}
	below := c.span >> oddsBits * uint64(odds)
	if !c.encoding {
		v = c.low >= below
	}
	if v {
		c.narrowTo(below, c.span-below)
		c.count(certain-uint64(odds), certain)
	} else {
		c.narrowTo(0, below)
		c.count(uint64(odds), certain)
	}
	return v
}

// slot reads which of so many equal parts of the interval the number lies in. The last
// part has what the division leaves over, so that every number lies in one.
func (c *Coder) slot(parts uint64) uint64 { return min(c.low/(c.span/parts), parts-1) }

// slice narrows the interval to some of those parts.
func (c *Coder) slice(from, width, parts uint64) {
	step := c.span / parts
	if from+width == parts {
		c.narrowTo(from*step, c.span-from*step)
	} else {
		c.narrowTo(from*step, width*step)
	}
	c.count(width, parts)
}

// equal codes one of n values that are equally likely.
func (c *Coder) equal(v, n uint64) uint64 {
	if c.bad || n < 2 {
		return 0
	}
	if !c.encoding {
		v = c.slot(n)
	}
	c.slice(v, 1, n)
	return v
}

// narrowTo makes a part of the interval the whole.
func (c *Coder) narrowTo(from, width uint64) {
	if c.encoding {
		c.low += from
	} else {
		c.low -= from
	}
	c.span = width
	c.renew()
}

// renew moves on by whole bytes until the interval is wide enough again.
func (c *Coder) renew() {
	for c.span <= narrow {
		c.span <<= 8
		if c.encoding {
			c.shift()
		} else {
			c.low = c.low<<8 | uint64(c.next())
		}
	}
}

// shift writes the top byte of the low end.
func (c *Coder) shift() {
	c.carry()
	c.out = append(c.out, byte(c.low>>(8*(spanBytes-1))))
	c.low = c.low << 8 & (full - 1)
}

// carry brings what has grown over the top into the bytes already written. There is
// always one to take it: the whole interval lies between 0 and 1.
func (c *Coder) carry() {
	if c.low < full {
		return
	}
	c.low -= full
	for i := len(c.out) - 1; ; i-- {
		c.out[i]++
		if c.out[i] != 0 {
			return
		}
	}
}

// next reads a byte, or a zero behind the end.
func (c *Coder) next() byte {
	c.at++
	if c.at <= len(c.in) {
		return c.in[c.at-1]
	}
	if c.at > len(c.in)+spanBytes+slack {
		c.bad = true
	}
	return 0
}

// Close ends a document and gives the shortest bytes that lie in the final interval
// when zeros follow them, but no fewer than slack allows: none at all for a short
// document in which everything was as expected. The coder is of no use afterwards. It
// panics on a decoder.
func (c *Coder) Close() []byte {
	if !c.encoding {
		misuse("Close of a decoder")
	}
	needed := len(c.out) - slack
	// None of the interval's own bytes is needed, or one: it is wider than 2^40.
	for below := uint64(full - 1); ; below >>= 8 {
		if end := (c.low + below) &^ below; end < c.low+c.span {
			c.low = end
			break
		}
	}
	for range spanBytes {
		c.shift()
	}
	for len(c.out) > max(needed, 0) && c.out[len(c.out)-1] == 0 {
		c.out = c.out[:len(c.out)-1]
	}
	return c.out
}
