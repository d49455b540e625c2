package programme

import (
	"fmt"

	"newel/core/assign"
)

// Fault says what is wrong with an answer of core/assign by itself, or "": a row that it
// breaks, a cap that it passes, a value that is not what To comes to, a bound on the wrong
// side, a proof that is claimed and not there. Whether a bound is true it cannot say.
func (g *Judge) Fault(a assign.Answer) string {
	if len(a.To) != len(g.p.Items) {
		return fmt.Sprintf("it has %d items and the problem %d", len(a.To), len(g.p.Items))
	}
	if broken := g.Breaks(a.To); broken != "" {
		return broken
	}
	peak, values := a.Values[assign.Peak].Got, g.Values(a.To)
	if peak.Den <= 0 || a.Values[assign.Peak].Bound.Den <= 0 {
		return "Peak is no ratio"
	}
	if over := Over(g.p, a.To, peak); over != "" {
		return "level 2 does not allow it: " + over
	}
	for i, most := range Caps(g.p, peak) {
		if int64(a.Cap[i]) != most {
			return fmt.Sprintf("Cap of %s is %d and should be %d", g.p.Helpers[i].Key, a.Cap[i], most)
		}
	}
	for level := range assign.LevelEnd {
		if fault := valueFault(level, a.Values[level], values[level]); fault != "" {
			return fmt.Sprintf("level %d: %s", level, fault)
		}
	}
	return ""
}

// valueFault looks at one level; real is what the answer comes to.
func valueFault(level assign.Level, v assign.Value, real assign.Ratio) string {
	switch {
	case v.Got != Fraction(v.Got.Num, v.Got.Den) || v.Bound != Fraction(v.Bound.Num, v.Bound.Den):
		return fmt.Sprintf("%v or %v is not in lowest terms", v.Got, v.Bound)
	case level != assign.Peak && v.Got != real:
		return fmt.Sprintf("it says that it got %v and got %v", v.Got, real)
	case Better(level, v.Got, v.Bound):
		return fmt.Sprintf("it got %v, which its bound %v says cannot be", v.Got, v.Bound)
	case v.Proven != (v.Got == v.Bound):
		return fmt.Sprintf("it got %v and has the bound %v, and Proven is %v", v.Got, v.Bound, v.Proven)
	}
	return ""
}
