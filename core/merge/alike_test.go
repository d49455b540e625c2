package merge

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"newel/core/plan"
)

// An act writes the same whether what is alike in two plans is listed or left out.
func TestWhatIsAlikeNeedNotBeListed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := joinAll(t, anyCopies(t)...)
		p, next := d.Plan(), someOf(t, d.Plan())
		write := func(same *alike) *Doc {
			act := d.begin(ann)
			act.next = registersOf(&next, same)
			act.usesNumbers(d)
			act.differences(&p, &next, same)
			return act.doc
		}
		same(t, write(nil), write(alikeIn(&p, &next)))
	})
}

// someOf is a plan of which some parts were changed, and mostly not its helpers.
func someOf(t *rapid.T, p plan.Plan) plan.Plan {
	c := fromRapid(t)
	for i := range p.Duties {
		d := p.Duties[i]
		switch c(6) {
		case 0:
			d.Note = pick(c, someTexts...)
		case 1:
			d.Who = anyHelper(c, len(p.Helpers))
		case 2:
			d.Dropped = !d.Dropped
		case 3:
			d.Revision++
		}
		p = p.WithDuty(d)
	}
	for i := range p.Helpers {
		if c.half() {
			p = p.WithAbout(uint8(i+1), anyAbout(c))
		}
	}
	if c(5) == 0 {
		p.Helpers = append([]string{"Zoe"}, p.Helpers[:c(len(p.Helpers)+1)]...)
	}
	p.Drive = c(91) - 1
	return p
}

// What a document is kept to show is what it shows, also once a register of one that is being
// read was written after somebody had asked.
func TestShownIsThePlan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		copies := anyCopies(t)
		d := joinAll(t, copies...)
		for _, d := range append(copies, d, d.Change(ann, someOf(t, d.Plan())), d.WithHand(luis, "Dana")) {
			shown, again, p := d.Shown(), d.Shown(), d.Plan()
			require.True(t, samePlan(&p, &shown) && samePlan(&p, &again))
		}
		read := NewDoc(d.Number)
		for _, k := range d.Keys() {
			read.Set(k, d.Get(k))
			shown, p := read.Shown(), read.Plan()
			require.True(t, samePlan(&p, &shown))
		}
	})
}
