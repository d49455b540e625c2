package merge

import "newel/core/plan"

// Who has reviewed what the page says and on which day are two registers, since either may be
// that of the program; but they are one saying. So an act that writes one writes both, and
// whoever settles one takes the other from the same act. Else two sound copies, of which one
// took both away and the other changed the name, would join to a name without a day.

// sayingWith gives the register that goes with k; two is false where there is none.
func (k Key) sayingWith() (other Key, two bool) {
	if k.Field != HospitalText || !k.meaning() {
		return k, false
	}
	t := plan.ProgramText(k.Sub)
	switch {
	case t.IsDay():
		other = Key{Field: HospitalText, Sub: k.Sub - 1}
	case k.Sub+1 < uint32(len(plan.ProgramTextKeys)) && (t + 1).IsDay():
		other = Key{Field: HospitalText, Sub: k.Sub + 1}
	default:
		return k, false
	}
	return other, true
}

// settleOther settles what goes with a register by the answer: as the act says it that gave it.
func (c *change) settleOther(k Key, value string) {
	other, two := k.sayingWith()
	if !two {
		return
	}
	for _, v := range c.doc.regs[k] {
		for _, w := range c.doc.regs[other] {
			if v.Value == value && w.Stamp == v.Stamp {
				c.put(other, w.Value)
				return
			}
		}
	}
}
