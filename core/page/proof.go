package page

import (
	"newel/core/assign"
	"newel/core/guide"
)

// proof says whether the proposal is the best there is, and if that is not known, how much
// better one could be at most in the first aim for which it is not.
func (m *maker) proof(a *assign.Answer) []string {
	for level, value := range a.Values {
		if value.Proven {
			continue
		}
		key := [assign.LevelEnd]string{
			"proof.cover", "proof.cover", "proof.cover", "proof.peak", "proof.pairs", "proof.rather", "proof.square", "proof.moves",
		}[level]
		return []string{m.v.Say("proof.not"), m.v.Say(key, guide.Number("n", short(value)), guide.Number("percent", shortPercent(value)))}
	}
	return []string{m.v.Say("proof.best")}
}

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
