package page

import (
	"newel/core/assign"
	"newel/core/guide"
	"newel/core/split"
)

// proof says whether the proposal is the best there is, and if that is not known, how much
// better one could be at most in the first aim for which it is not.
func (m *maker) proof(p *split.Proposal) []string {
	if p.Beyond > 0 {
		return []string{m.v.Count("proof.beyond", p.Beyond)}
	}
	for level, value := range p.Answer.Values {
		if value.Proven || assign.Level(level) == assign.Peak && withinOffers(value.Got) {
			continue
		}
		key := [assign.LevelEnd]string{
			"proof.cover", "proof.cover", "proof.cover", "proof.peak", "proof.pairs", "proof.rather", "proof.square", "proof.moves",
		}[level]
		return []string{m.v.Say("proof.not"), m.v.Say(key, guide.Number("n", short(value)), guide.Number("percent", shortPercent(value)))}
	}
	return []string{m.v.Say("proof.best")}
}

// withinOffers tells whether what was found of the busiest helper's load over their offer leaves
// everybody's limit at their own offer (core/assign, level 2), so that less would change nothing.
func withinOffers(peak assign.Ratio) bool { return peak.Den > 0 && 11*peak.Num <= 10*peak.Den }

// short is how far what was reached is from what could be, rounded up.
func short(v assign.Value) int {
	a, b := v.Got, v.Bound
	if a.Den <= 0 || b.Den <= 0 {
		return 0
	}
	gap := float64(a.Num)/float64(a.Den) - float64(b.Num)/float64(b.Den)
	if gap < 0 {
		gap = -gap
	}
	n := int(gap)
	if float64(n) < gap {
		n++
	}
	return n
}

// shortPercent is the same as a share of what was reached, in percent, rounded up.
func shortPercent(v assign.Value) int {
	if v.Got.Num == 0 || v.Got.Den <= 0 || v.Bound.Den <= 0 {
		return 0
	}
	got, bound := float64(v.Got.Num)/float64(v.Got.Den), float64(v.Bound.Num)/float64(v.Bound.Den)
	return int(100*(got-bound)/got + 0.999)
}
