package split

import (
	"newel/core/assign"
	"newel/core/schedule"
)

// Suggest gives the best split of a schedule's duties that are not over. Its rules are
// programme's and core/assign's; the same plan at the same time gets the same proposal.
func Suggest(s *schedule.Schedule, ask Ask) Proposal {
	v := viewOf(s, ask.Now)
	r := v.report()
	pr, beyond := programmeOf(v, ask)
	o := &outcome{programme: pr, answer: pr.solve(ask)}
	o.settle()
	p := Proposal{Answer: o.answer, Loads: o.loads(r), Beyond: beyond}
	o.lines(&p)
	p.Changes = o.changes()
	return p
}

// Programme gives what Suggest has solved, for whoever wants to hand it to another solver.
func Programme(s *schedule.Schedule, ask Ask) *assign.Problem {
	pr, _ := programmeOf(viewOf(s, ask.Now), ask)
	pr.solve(ask) // what stands in the way of something is held no longer
	return &pr.Problem
}

// outcome is an answer as the plan would be with it.
type outcome struct {
	*programme
	answer assign.Answer
	who    []int   // by item: who would have it, able or not
	hands  [][]int // by helper: the items that they would have and can do, in the problem's order
}

// settle says who would have each item. What nobody gets stays with whoever has it, although
// they cannot do it: they may find a way. Only where it overlaps what they can do it is given
// back, or it would stand against that.
func (o *outcome) settle() {
	o.who = append([]int(nil), o.answer.To...)
	o.hands = make([][]int, len(o.Helpers))
	for j, i := range o.answer.To {
		if i != assign.Nobody {
			o.hands[i] = append(o.hands[i], j)
		}
	}
	for j, i := range o.answer.To {
		now := o.Items[j].Now
		if i == assign.Nobody && now != assign.Nobody && o.otherOf(now, j) < 0 {
			o.who[j] = now
		}
	}
}

// otherOf finds an item that a helper would have and that clashes with item j; -1 for none.
func (o *outcome) otherOf(helper, j int) int {
	for _, k := range o.hands[helper] {
		if k != j && overlap(o.Items[k].Takes, o.Items[j].Takes) {
			return k
		}
	}
	return -1
}

// loads is how much each helper has and would have.
func (o *outcome) loads(r *Report) []Load {
	loads := append([]Load(nil), r.Loads...)
	for j := range o.Items {
		now, then := o.Items[j].Now, o.who[j]
		for _, i := range o.items[j] {
			if now != assign.Nobody {
				loads[now].After -= o.v.needs[i].load
			}
			if then != assign.Nobody {
				loads[then].After += o.v.needs[i].load
			}
		}
	}
	return loads
}

// lines fills in the lines of a proposal and what stays open, in the schedule's order.
func (o *outcome) lines(p *Proposal) {
	itemOf := make([]int, len(o.v.needs))
	for i := range itemOf {
		itemOf[i] = -1
	}
	for j, needs := range o.items {
		for _, i := range needs {
			itemOf[i] = j
		}
	}
	has, whole := o.seriesHeld(), o.wholeToday()
	for i, j := range itemOf {
		if j < 0 {
			continue
		}
		duty, it := o.v.needs[i].duty, &o.Items[j]
		if o.answer.To[j] == assign.Nobody {
			p.Open = append(p.Open, duty)
		}
		if o.who[j] == it.Now {
			continue
		}
		line := Line{Duty: duty, From: uint8(it.Now + 1), To: uint8(o.who[j] + 1)}
		if line.To != 0 {
			o.because(&line, j, p.Loads, has, whole)
		}
		p.Lines = append(p.Lines, line)
	}
}
