package assign

import (
	"fmt"
	"math/rand"
)

// inventedFamily makes a family of so many items and helpers, all invented: series of rides,
// visits, meals and nights over some weeks, and helpers with jobs. Kind 0 is ordinary, 1 is
// tight, 2 lets everybody do everything.
func inventedFamily(seed int64, items, helpers, kind int) *Problem {
	r := rand.New(rand.NewSource(seed))
	p := &Problem{}
	days := 14 + items/8
	offers := []int{180, 360, 720}
	type job struct{ days, from, to int }
	jobs := make([]job, helpers)
	can := make([]int, helpers)
	for i := range helpers {
		p.Helpers = append(p.Helpers, Helper{Key: fmt.Sprintf("h%02d", i), Offer: offers[r.Intn(3)] * days / 7})
		jobs[i] = job{1<<r.Intn(7) | 1<<r.Intn(7) | 1<<r.Intn(7) | 1<<r.Intn(7), 60 * (7 + r.Intn(3)), 60 * (13 + r.Intn(5))}
		if kind == 1 {
			jobs[i].days |= 1<<r.Intn(7) | 1<<r.Intn(7)
		}
		if r.Intn(4) == 0 && kind != 1 {
			jobs[i].days = 0
		}
		can[i] = r.Intn(16) | r.Intn(16)
	}
	for s := 0; len(p.Items) < items; s++ {
		n := []int{1, 3, 3, 6, 12, 18, 18, 30}[r.Intn(8)]
		if s == 0 {
			n = 1
		}
		need := 1 << r.Intn(4)
		if r.Intn(3) == 0 {
			need = 0
		}
		load := 5 * (3 + r.Intn(20))
		if r.Intn(6) == 0 {
			load = 60 * (4 + r.Intn(5))
		}
		clock, tier, weight := 60*(7+r.Intn(12))+5*r.Intn(12), Tier(r.Intn(3)), 1+r.Intn(30)
		first, step := r.Intn(days), 1+r.Intn(3)
		for d := 0; d < n && len(p.Items) < items; d++ {
			day := (first + d*step) % days
			it := Item{Key: fmt.Sprintf("s%02dd%02d", s, d), Series: s, Tier: tier, Weight: weight, Load: load, Now: Nobody}
			from := day*1440 + clock
			it.Takes = []Take{{from, from + max(load, 30), 1}}
			if load > 200 {
				it.Takes[0].Uses = 2
				it.Takes = append(it.Takes, Take{from, from + 30, 1})
			}
			for i := range helpers {
				busy := jobs[i].days>>(day%7)&1 == 1 && clock < jobs[i].to && clock+load > jobs[i].from
				it.Able = append(it.Able, kind == 2 || can[i]&need == need && !busy)
			}
			if d == 0 && r.Intn(3) == 0 || len(p.Items) > 0 && p.Items[len(p.Items)-1].Series == s && p.Items[len(p.Items)-1].Rather != nil {
				it.Rather = make([]int8, helpers)
				for i := range helpers {
					it.Rather[i] = int8((s+i)%3) - 1
				}
			}
			if i := r.Intn(3 * helpers); i < helpers && it.Able[i] {
				it.Now = i
			}
			p.Items = append(p.Items, it)
		}
	}
	return p
}
