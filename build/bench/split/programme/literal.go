package programme

import (
	"fmt"
	"strings"

	"newel/core/assign"
)

// Literal gives a problem as Go, for a failing test.
func Literal(p *assign.Problem) string {
	var b strings.Builder
	b.WriteString("&assign.Problem{Helpers: []assign.Helper{")
	for _, h := range p.Helpers {
		fmt.Fprintf(&b, "{%q, %d}, ", h.Key, h.Offer)
	}
	b.WriteString("}, Items: []assign.Item{\n")
	for _, it := range p.Items {
		fmt.Fprintf(&b, "\t{Key: %q, Series: %d, Tier: %d, Weight: %d, Load: %d, Now: %d, Held: %v, Takes: []assign.Take{",
			it.Key, it.Series, it.Tier, it.Weight, it.Load, it.Now, it.Held)
		for _, t := range it.Takes {
			fmt.Fprintf(&b, "{%d, %d, %d}, ", t.From, t.To, t.Uses)
		}
		fmt.Fprintf(&b, "}, Able: %#v", it.Able)
		if it.Rather != nil {
			fmt.Fprintf(&b, ", Rather: %#v", it.Rather)
		}
		b.WriteString("},\n")
	}
	b.WriteString("}}")
	return b.String()
}
