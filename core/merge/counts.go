package merge

import (
	"strconv"

	"newel/core/plan"
)

// counts brings the revisions of the plan and of its duties to what next says.
func (c *change) counts(p, next *plan.Plan) {
	c.count(0, int(p.Revision), int(next.Revision))
	for i := range next.Duties {
		d := &next.Duties[i]
		was := 0
		if old := p.Duty(d.ID); old != nil {
			was = int(old.Revision)
		}
		c.count(d.ID, was, int(d.Revision))
	}
}

// count adds the difference to the device's own count. That is the grow-only counter
// (G-Counter) of M. Shapiro, N. Preguiça, C. Baquero and M. Zawirski, "A comprehensive
// study of convergent and commutative replicated data types", INRIA RR-7506 (2011). A
// revision that goes down, which no form of ours asks for, is written in place of all counts.
func (c *change) count(of uint32, was, now int) {
	if was == now {
		return
	}
	own := Key{Field: Moves, Of: of, Sub: uint32(c.stamp.Actor)}
	if now > was {
		now += numberOr(c.doc.value(own), 0) - was
	} else {
		for _, k := range c.doc.Keys() {
			if k.Field == Moves && k.Of == of {
				c.write(k, "", false)
			}
		}
	}
	c.write(own, strconv.Itoa(now), now > 0)
}
