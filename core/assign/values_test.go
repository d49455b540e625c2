package assign

import (
	"strings"
	"testing"
)

// TestScale holds q against its formula, worked by hand.
func TestScale(t *testing.T) {
	for _, c := range []struct {
		offers []int
		want   []int64
	}{
		{[]int{180, 360, 720}, []int64{16, 4, 1}}, // lcm 720: (720/180)², (720/360)², 1
		{[]int{3, 2}, []int64{4, 9}},              // lcm 6
		{[]int{7}, []int64{1}},
		{[]int{1, 1 << 20}, []int64{230400, 1}},    // too far apart: 480², and less than 1 is 1
		{[]int{479, 480}, []int64{230400, 229441}}, // lcm 479·480, 480 times the least: (480)², (479)²
		{[]int{481, 482}, []int64{230400, 229445}}, // 480² · 481²/482² = 229444.98
		{nil, []int64{}},
	} {
		p := &Problem{}
		for i, o := range c.offers {
			p.Helpers = append(p.Helpers, Helper{string(rune('a' + i)), o})
		}
		got := p.Scale()
		for i := range c.want {
			if got[i] != c.want[i] {
				t.Errorf("%v: got %v, want %v", c.offers, got, c.want)
			}
		}
	}
}

// TestValuesByHand has one answer whose sums are worked out by hand.
func TestValuesByHand(t *testing.T) {
	both := []bool{true, true}
	p := &Problem{
		Helpers: []Helper{{"Dana", 60}, {"Luis", 120}},
		Items: []Item{
			{Key: "a", Series: 7, Tier: Must, Weight: 5, Load: 30, Takes: []Take{{0, 30, 1}}, Able: both, Now: 0, Held: true},
			{Key: "b", Series: 7, Tier: Should, Weight: 3, Load: 60, Takes: []Take{{20, 80, 2}}, Able: both, Now: 1, Rather: []int8{1, -1}},
			{Key: "c", Series: 8, Tier: Nice, Weight: 2, Load: 45, Takes: []Take{{70, 90, 3}}, Able: both, Now: 1, Rather: []int8{1, -1}},
			{Key: "d", Series: 9, Tier: Nice, Weight: 1, Load: 15, Able: []bool{false, true}, Now: 0},
		},
	}
	got, broken := p.Values([]int{0, 0, 1, Nobody}, Ratio{})
	want := [LevelEnd]Ratio{{5, 1}, {3, 1}, {2, 1}, {3, 2}, {2, 1}, {0, 1}, {4*90*90 + 45*45, 1}, {1, 1}}
	if broken != "" || got != want {
		t.Errorf("got %v %q, want %v", got, broken, want)
	}
	for says, c := range map[string]struct {
		to   []int
		peak Ratio
	}{
		"held item a":     {[]int{1, 0, 1, Nobody}, Ratio{}},
		"not able":        {[]int{0, 0, 1, 0}, Ratio{}},
		"b and c overlap": {[]int{0, 0, 0, Nobody}, Ratio{}},
		"Dana has more":   {[]int{0, 0, 1, Nobody}, Ratio{15, 11}}, // 1.1 · 15/11 · 60 = 90 is allowed, see below
		"not one helper":  {[]int{0}, Ratio{}},
	} {
		if says == "Dana has more" {
			if _, broken := p.Values(c.to, c.peak); broken != "" {
				t.Errorf("90 minutes of 60 at a peak of 15/11 are just allowed, got %q", broken)
			}
			c.peak = Ratio{14, 11} // 84 minutes
		}
		if _, broken := p.Values(c.to, c.peak); !strings.Contains(broken, says) {
			t.Errorf("%v: want %q, got %q", c.to, says, broken)
		}
	}
}
