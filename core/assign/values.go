package assign

// Scale gives q[i] of level 5, by helper. It is (m/o[i])² where m is the least common
// multiple of all offers, as long as no m/o[i] is above 480, so that offers of 1:2:4 give
// exactly 16:4:1; else 480² times (least offer/o[i])², rounded, and at least 1.
//
// No q is above 480² (230 400), and all loads together are at most MaxItems · MaxLoad
// minutes (4 320 000), so a sum of q[i] L[i]² is at most 4.3e18, which an int64 holds.
func (p *Problem) Scale() []int64 {
	least, common := int64(MaxOffer), int64(1)
	for _, h := range p.Helpers {
		least = min(least, int64(h.Offer))
	}
	for _, h := range p.Helpers {
		if common <= maxScale*least {
			common = common / divisor(common, int64(h.Offer)) * int64(h.Offer)
		}
	}
	q := make([]int64, len(p.Helpers))
	for i, h := range p.Helpers {
		o := int64(h.Offer)
		if common <= maxScale*least {
			q[i] = (common / o) * (common / o)
		} else {
			q[i] = max(1, (maxScale*maxScale*least*least+o*o/2)/(o*o))
		}
	}
	return q
}

const maxScale = 480

// divisor is the greatest common divisor; that of 0 and b is b.
func divisor(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

func ratio(num, den int64) Ratio {
	if num == 0 {
		return Ratio{0, 1}
	}
	d := divisor(max(num, -num), den)
	return Ratio{num / d, den / d}
}

// below says whether a is less than b. Both have parts below 2³¹.
func (a Ratio) below(b Ratio) bool { return a.Num*b.Den < b.Num*a.Den }

// limit is how many whole minutes level 2 allows to one who offered so many.
func limit(offer int64, peak Ratio) int64 {
	return max(offer, 11*peak.Num*offer/(10*peak.Den))
}

// Values evaluates any answer from the definition in the package comment, by item of p, and
// nothing else. Of Peak it gives the answer's own largest load over offer. With a peak of
// Den 0 the loads are not held against a limit. Broken says the first row that the answer
// breaks, in words; it is empty where the answer is sound.
func (p *Problem) Values(to []int, peak Ratio) (got [LevelEnd]Ratio, broken string) {
	if len(to) != len(p.Items) {
		return got, "the answer is not one helper or Nobody for each item"
	}
	var sums [LevelEnd]int64
	load := make([]int64, len(p.Helpers))
	pairs := map[[2]int]bool{}
	for j := range p.Items {
		it, i := &p.Items[j], to[j]
		if it.Now != Nobody && it.Able[it.Now] && i != it.Now {
			sums[Moves]++
		}
		if it.Held && i != it.Now {
			return got, "held item " + it.Key + " is with another"
		}
		if i == Nobody {
			continue
		}
		if i < 0 || i >= len(load) || !it.Able[i] {
			return got, "item " + it.Key + " is with somebody who is not able"
		}
		for k := range j {
			if to[k] == i && overlap(it.Takes, p.Items[k].Takes) {
				return got, "items " + p.Items[k].Key + " and " + it.Key + " overlap"
			}
		}
		sums[CoverMust+Level(Must-it.Tier)] += int64(it.Weight)
		if it.Rather != nil {
			sums[Rather] += int64(it.Rather[i])
		}
		load[i] += int64(it.Load)
		pairs[[2]int{it.Series, i}] = true
	}
	sums[Pairs] = int64(len(pairs))
	most := Ratio{0, 1}
	for i, q := range p.Scale() {
		offer := int64(p.Helpers[i].Offer)
		sums[Square] += q * load[i] * load[i]
		if here := ratio(load[i], offer); most.below(here) {
			most = here
		}
		if peak.Den != 0 && load[i] > limit(offer, peak) {
			broken = "helper " + p.Helpers[i].Key + " has more than level 2 allows"
		}
	}
	for l := range got {
		got[l] = Ratio{sums[l], 1}
	}
	got[Peak] = most
	return got, broken
}
