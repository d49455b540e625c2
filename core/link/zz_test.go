package link_test

import (
	"fmt"
	"testing"

	"newel/build/bench/link/families"
	"newel/core/link"
)

func TestZZ(t *testing.T) {
	for _, p := range families.All() {
		s := 0.0
		o := ""
		for _, x := range link.Spend(p.Doc) {
			s += x.Bits
			o += fmt.Sprintf(" %s %.0f", x.Name, x.Bits)
		}
		fmt.Println(p.Name, len(link.Encode(p.Doc)), int(s), o)
	}
}
