package split

import (
	"newel/core/assign"
	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/wall"
)

// programme is a view as core/assign's problem, with the way back from its items. What goes
// into it:
//
//   - An item is what has one register in the plan, since one person has it: a date of a
//     family's duty (two where an extra one is on a day of its pattern), a part of the
//     staying at home, a duty that every plan has. It takes what the table of the package
//     comment says; somebody is able who has none of Look's reasons for it but HasOther.
//   - Tier and weight: need.go. The load is the duty's own minutes, a night's three hours.
//   - A helper's offer is plan.OfferHours for the weeks from the first to the last duty that
//     is not over, one week at least; somebody of whom nobody told anything offers as usual.
//     While nobody knows which stay it will be, the duties of both count as load.
//   - A series is one of the family's duties, the parts of staying at home by day, those by
//     night, or one of the duties that every plan has.
//   - What is fixed (Ask) is no item. Nobody is able to do what overlaps one that is theirs.
//   - Nobody but who has it is able to do a drive that should have left (need.late).
//   - Held: with FillOpen what somebody has and is able to do, where it does not clash with
//     more of that; and with either scope what they took themselves, or have begun, where
//     they are able and it does not clash with more of that. What was given to somebody is
//     let go again as far as more is covered by that (solve).
//   - Keys are made of what the plan says, not of the numbers or places that things have in
//     it, in order of time: so the answer does not depend on the order in which helpers and
//     duties were entered. Two duties that say the same in everything are told apart by
//     their numbers, and it makes no difference which is which.
type programme struct {
	assign.Problem
	v     *view
	items [][]int // by item: places in view.needs
}

// register names what one person has: see programme.
type register struct {
	family uint32
	of     wall.Date // the date of a family's duty, or the slot
	id     string    // of a duty that every plan has
}

func registerOf(d *schedule.Duty) register {
	switch {
	case d.Family != nil:
		return register{family: d.Family.ID, of: d.On.Of}
	case d.IsSlot():
		return register{id: d.ID, of: wall.Date(d.Slot)}
	}
	return register{id: d.ID, of: -1}
}

// programmeOf makes the programme of a view. What is more than a programme takes is left
// out, the latest first; beyond is how many duties that are.
func programmeOf(v *view, ask Ask) (pr *programme, beyond int) {
	pr = &programme{v: v}
	beyond = pr.group(ask)
	for i := range v.people {
		pr.Helpers = append(pr.Helpers, assign.Helper{Key: v.s.Plan.Helpers[i]})
	}
	for i, offer := range v.offers() {
		pr.Helpers[i].Offer = offer
	}
	ranks := seriesRanks(v)
	pr.Items = make([]assign.Item, len(pr.items))
	for j := range pr.items {
		pr.item(j, ranks)
	}
	pr.hold(ask)
	return pr, beyond
}

// group gathers the needs of each register. Those that are fixed become the view's.
func (pr *programme) group(ask Ask) (beyond int) {
	places, fixed := map[register]int{}, map[register]bool{}
	for i := range pr.v.needs {
		if n := &pr.v.needs[i]; ask.Fixed != nil && ask.Fixed(n.duty) {
			fixed[registerOf(pr.v.duty(n))] = true
		}
	}
	for i := range pr.v.needs {
		reg := registerOf(pr.v.duty(&pr.v.needs[i]))
		j, known := places[reg]
		switch {
		case fixed[reg]:
			pr.v.fixed = append(pr.v.fixed, i)
		case known:
			pr.items[j] = append(pr.items[j], i)
		case len(pr.items) == assign.MaxItems:
			beyond++
		default:
			places[reg] = len(pr.items)
			pr.items = append(pr.items, []int{i})
		}
	}
	return beyond
}

// item fills in one item.
func (pr *programme) item(j int, ranks map[string]int) {
	needs, v := pr.items[j], pr.v
	first := &v.needs[needs[0]]
	d := v.duty(first)
	rank := ranks[seriesOf(v.s, d)]
	it := assign.Item{Key: itemKey(d, rank), Series: rank, Tier: first.tier, Now: assign.Nobody}
	if who := int(first.who); who > 0 && who <= len(v.people) {
		it.Now = who - 1
	}
	for _, i := range needs {
		n := &v.needs[i]
		it.Tier = max(it.Tier, n.tier)
		it.Weight = min(it.Weight+n.weight, assign.MaxWeight)
		it.Load = min(it.Load+n.load, assign.MaxLoad)
		it.Takes = append(it.Takes, n.takes...)
	}
	it.Able = make([]bool, len(v.people))
	if !pr.againstItself(j) {
		for i := range v.people {
			it.Able[i] = v.able(&v.people[i], needs)
		}
	}
	it.Rather = v.rather(first)
	pr.Items[j] = it
}

// able tells whether nothing stands against somebody's doing all of some needs, whatever
// else they have that is not fixed.
func (v *view) able(p *person, needs []int) bool {
	var room [8]obstacle
	for _, i := range needs {
		if n := &v.needs[i]; n.late && n.who != p.who || v.fixedBeside(p.who, n.takes) >= 0 {
			return false
		}
		if len(p.obstacles(v.s, &v.needs[i], room[:0])) > 0 {
			return false
		}
	}
	return true
}

// fixedBeside finds the need that is fixed, a helper's, and overlaps some takes; -1 for none.
func (v *view) fixedBeside(who uint8, takes []assign.Take) int {
	for _, i := range v.fixed {
		if v.needs[i].who == who && overlap(v.needs[i].takes, takes) {
			return i
		}
	}
	return -1
}

// againstItself tells whether two dates of one register are at one time.
func (pr *programme) againstItself(j int) bool {
	needs := pr.items[j]
	for k := range needs {
		for l := range needs[:k] {
			if overlap(pr.v.needs[needs[k]].takes, pr.v.needs[needs[l]].takes) {
				return true
			}
		}
	}
	return false
}

// overlap tells whether two duties take the same at one time.
func overlap(a, b []assign.Take) bool {
	for _, x := range a {
		for _, y := range b {
			if x.Uses&y.Uses != 0 && x.From < y.To && y.From < x.To {
				return true
			}
		}
	}
	return false
}

// rather is what helpers said about the task of a duty; nil where nobody said anything.
func (v *view) rather(n *need) []int8 {
	var said []int8
	for i := range v.people {
		p := &v.people[i]
		if (p.likes|p.avoids)&n.task == 0 {
			continue
		}
		if said == nil {
			said = make([]int8, len(v.people))
		}
		said[i] = -1
		if p.likes&n.task != plan.Tasks(0) {
			said[i] = 1
		}
	}
	return said
}
