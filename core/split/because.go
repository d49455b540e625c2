package split

import (
	"newel/core/assign"
	"newel/core/plan"
)

// pair is a series and a helper.
type pair struct{ series, helper int }

// seriesHeld counts the items that each helper would have of each series and can do.
func (o *outcome) seriesHeld() map[pair]int {
	has := map[pair]int{}
	for j, i := range o.answer.To {
		if i != assign.Nobody {
			has[pair{o.Items[j].Series, i}]++
		}
	}
	return has
}

// wholeToday gives for each series who has every date of it today and can do it, or
// assign.Nobody. It is no reason to take one from them that another would have the most.
func (o *outcome) wholeToday() map[int]int {
	whole := map[int]int{}
	for j := range o.Items {
		it := &o.Items[j]
		who, known := whole[it.Series]
		if !known {
			who = it.Now
		}
		if who != it.Now || who != assign.Nobody && !it.Able[who] {
			who = assign.Nobody
		}
		whole[it.Series] = who
	}
	return whole
}

// because says why a helper gets an item, and why each of the others does not.
func (o *outcome) because(line *Line, j int, loads []Load, has map[pair]int, whole map[int]int) {
	mine, series := int(line.To)-1, o.Items[j].Series
	it := &o.Items[j]
	could, only := 0, true     // only: nobody else is able, whatever they have
	least, eased := true, true // no more than the others who could: with the proposal, and before it
	all := whole[series]
	most := has[pair{series, mine}] > 1 && (all == assign.Nobody || all != it.Now)
	for i := range o.Helpers {
		if i == mine {
			continue
		}
		why := o.whyNot(i, j)
		if len(line.Others) < plan.MaxHelpers {
			line.Others = append(line.Others, Other{Who: uint8(i + 1), Why: why})
		}
		only = only && len(why) > 0 && why[0].Why != HasOther
		most = most && has[pair{series, i}] <= has[pair{series, mine}]
		if len(why) > 0 {
			continue
		}
		could++
		me, other := &loads[mine], &loads[i]
		least = least && noMore(me.After, me.Offer, other.After, other.Offer)
		eased = eased && noMore(me.Before, me.Offer, other.Before, other.Offer)
	}
	would := o.Items[j].Rather != nil && o.Items[j].Rather[mine] > 0
	line.Because = reasonsOf([...]bool{
		OnlyOne: only, HasSeries: most, Would: would,
		HasLess: could > 0 && least && eased, IsFree: could > 0 && !least && eased, OthersBusy: could == 0 && !only,
	})
}

// reasonsOf lists the reasons that hold; where none does, it is the whole that decides.
func reasonsOf(holds [BestWhole]bool) (all []Because) {
	for why := OnlyOne; why < BestWhole; why++ {
		if holds[why] {
			all = append(all, why)
		}
	}
	if len(all) == 0 {
		all = []Because{BestWhole}
	}
	return all
}

// noMore tells whether a load is no greater for its offer than another for its own.
func noMore(load, offer, otherLoad, otherOffer int) bool {
	return int64(load)*int64(otherOffer) <= int64(otherLoad)*int64(offer)
}

// whyNot says why a helper could not do an item beside what they would have.
func (o *outcome) whyNot(helper, j int) (why []Reason) {
	var room [8]obstacle
	p := &o.v.people[helper]
	for _, i := range o.items[j] {
		n := &o.v.needs[i]
		found := p.obstacles(o.v.s, n, room[:0])
		for _, f := range found {
			if !reasoned(why, f.why) {
				why = append(why, f.reason(o.v.s))
			}
		}
	}
	if p.out {
		return why
	}
	if f := o.v.fixedBeside(p.who, o.Items[j].Takes); f >= 0 {
		return append(why, o.clashReason([]int{f}, j))
	}
	if k := o.otherOf(helper, j); k >= 0 {
		why = append(why, o.clashReason(o.items[k], j))
	}
	return why
}

func reasoned(all []Reason, why Why) bool {
	for _, r := range all {
		if r.Why == why {
			return true
		}
	}
	return false
}

// clashReason names the duty of some needs that item j clashes with.
func (o *outcome) clashReason(needs []int, j int) Reason {
	for _, i := range needs {
		for _, t := range o.v.needs[i].takes {
			if overlap([]assign.Take{t}, o.Items[j].Takes) {
				r := obstacle{HasOther, stretch{t.From, t.To}}.reason(o.v.s)
				r.Other = o.v.needs[i].duty
				return r
			}
		}
	}
	return Reason{Why: HasOther}
}
