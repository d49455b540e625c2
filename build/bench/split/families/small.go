package families

import (
	"fmt"

	"newel/core/assign"
)

// Small makes a small problem of a nasty kind: many overlaps, ties, loads and offers of
// every sort, spans in several parts, several uses, items that nobody can take, held ones.
// The problem is sound. items and helpers are above 0.
func Small(seed uint64, items, helpers int) *assign.Problem {
	r := NewRandom(seed*1000003 + uint64(items)*64 + uint64(helpers))
	s := &small{
		r: r, able: []int{35, 60, 85, 100}[r.Below(4)], span: []int{10, 40, 200, 2000}[r.Below(4)],
		series: r.Between(1, items), loads: r.Below(5), ties: r.Percent(40), tiers: r.Below(3),
	}
	p := &assign.Problem{}
	for i := range helpers {
		p.Helpers = append(p.Helpers, assign.Helper{Key: fmt.Sprintf("helper-%d", i), Offer: s.offer()})
	}
	for j := range items {
		p.Items = append(p.Items, s.item(p, j))
	}
	return p
}

// small is what one problem's items have in common.
type small struct {
	r                  *Random
	able, span, series int
	loads, tiers       int
	ties               bool
}

func (s *small) offer() int {
	if s.r.Percent(30) {
		return s.r.Between(1, 90)
	}
	return []int{60, 120, 240}[s.r.Below(3)]
}

func (s *small) load() int {
	switch s.loads {
	case 0:
		return 30
	case 1:
		return 5 * s.r.Between(0, 12)
	case 2:
		return s.r.Below(2) * s.r.Between(0, 60)
	case 3:
		return s.r.Between(1, 200)
	}
	return 15 * s.r.Between(1, 4)
}

func (s *small) item(p *assign.Problem, j int) assign.Item {
	it := assign.Item{
		Key: fmt.Sprintf("item-%02d", j), Series: s.r.Below(s.series), Tier: assign.Tier(s.r.Below(s.tiers + 1)),
		Weight: 1, Load: s.load(), Takes: s.takes(), Now: assign.Nobody,
	}
	if !s.ties {
		it.Weight = s.r.Between(1, 6)
	}
	for range p.Helpers {
		it.Able = append(it.Able, s.r.Percent(s.able))
		if s.r.Percent(50) {
			it.Rather = append(it.Rather, int8(s.r.Between(-1, 1)))
		}
	}
	if len(it.Rather) < len(it.Able) {
		it.Rather = nil
	}
	who := s.r.Below(len(p.Helpers))
	if s.r.Percent(50) {
		it.Now = who // perhaps somebody who cannot
	}
	p.Items = append(p.Items, it)
	it.Held = it.Now != assign.Nobody && it.Able[who] && s.r.Percent(25) && free(p, j, who)
	p.Items = p.Items[:j]
	return it
}

// takes are one to three parts, which may touch but need not be in order.
func (s *small) takes() (takes []assign.Take) {
	for range 1 + s.r.Below(2)*s.r.Below(3) {
		from := s.r.Below(s.span) - s.span/3
		takes = append(takes, assign.Take{From: from, To: from + s.r.Between(1, max(2, s.span/3)), Uses: assign.Uses([]int{1, 1, 2, 3, 5, 128}[s.r.Below(6)])})
	}
	return takes
}
