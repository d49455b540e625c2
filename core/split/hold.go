package split

import "newel/core/assign"

// hold marks the items that stay with whoever has them: of those that may stay, the ones
// that clash with no other such item.
func (pr *programme) hold(ask Ask) {
	able := pr.each(func(j int) bool {
		now := pr.Items[j].Now
		return now != assign.Nobody && pr.Items[j].Able[now]
	})
	clashes := pr.v.clashes(able)
	mayStay := pr.each(func(j int) bool {
		fits, asked := true, false
		for _, i := range pr.items[j] {
			fits = fits && len(clashes[i]) == 0
			asked = asked || pr.asked(&pr.v.needs[i], ask)
		}
		return able(pr.items[j][0]) && (asked || fits && ask.Scope == FillOpen)
	})
	clashes = pr.v.clashes(mayStay)
	for j := range pr.Items {
		held := mayStay(pr.items[j][0])
		for _, i := range pr.items[j] {
			held = held && len(clashes[i]) == 0
		}
		pr.Items[j].Held = held
	}
}

// asked tells whether a duty stays in either scope: its helper took it, or has begun.
func (pr *programme) asked(n *need, ask Ask) bool {
	begun := len(n.takes) > 0 && n.takes[0].From < minuteOf(pr.v.now)
	return begun || ask.Held != nil && ask.Held(n.duty)
}

// each asks a question of every item, and gives the answer by need.
func (pr *programme) each(question func(item int) bool) func(need int) bool {
	answers := make([]bool, len(pr.v.needs))
	for j := range pr.items {
		answer := question(j)
		for _, i := range pr.items[j] {
			answers[i] = answer
		}
	}
	return func(need int) bool { return answers[need] }
}
