package split

import "newel/core/assign"

// solve gives the best answer. What somebody was given and can do stays theirs, unless it
// keeps them from something that nobody else can do: then it is free to go to somebody else,
// as far as more is covered by that and no further.
func (pr *programme) solve(ask Ask) assign.Answer {
	answer := assign.Solve(&pr.Problem, assign.Options{})
	inTheWay := pr.inTheWay(answer.To, ask)
	if len(inTheWay) == 0 {
		return answer
	}
	for _, k := range inTheWay {
		pr.Items[k].Held = false
	}
	wider := assign.Solve(&pr.Problem, assign.Options{})
	better := coversMore(&wider, &answer)
	for _, k := range inTheWay {
		pr.Items[k].Held = !better || !pr.overlapsAny(k, pr.Items[k].Now, wider.To)
	}
	if !better {
		return answer
	}
	return assign.Solve(&pr.Problem, assign.Options{})
}

// inTheWay lists the held items but for which somebody could take an item that nobody has.
// What a helper took themselves, or has begun, is not among them.
func (pr *programme) inTheWay(to []int, ask Ask) (held []int) {
	for k := range pr.Items {
		it := &pr.Items[k]
		taken := false
		for _, i := range pr.items[k] {
			taken = taken || pr.asked(&pr.v.needs[i], ask)
		}
		if !it.Held || taken {
			continue
		}
		for j, i := range to {
			if i == assign.Nobody && pr.Items[j].Able[it.Now] && overlap(pr.Items[j].Takes, it.Takes) {
				held = append(held, k)
				break
			}
		}
	}
	return held
}

// overlapsAny tells whether an item overlaps another one that a helper gets.
func (pr *programme) overlapsAny(k, helper int, to []int) bool {
	for j, i := range to {
		if j != k && i == helper && overlap(pr.Items[j].Takes, pr.Items[k].Takes) {
			return true
		}
	}
	return false
}

// coversMore tells whether an answer covers more than another, by tiers.
func coversMore(a, b *assign.Answer) bool {
	for level := assign.CoverMust; level <= assign.CoverNice; level++ {
		if x, y := a.Values[level].Got.Num, b.Values[level].Got.Num; x != y {
			return x > y
		}
	}
	return false
}

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
