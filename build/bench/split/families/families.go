// Package families makes the problems that the tests and the benchmark of the split
// (core/assign) are held to: invented families after a hip or knee operation, and small
// problems of a nasty kind. Everything follows from a seed. The families of the benchmark
// are committed as text in testdata/split; Write and Read are that form, and a test sees to
// it that the files are what Make makes.
//
// A family has the day of surgery, the morning after, somebody at home in three parts of a
// day for 72 hours, eighteen rides to therapy, the pets twice a day, meals, and what else
// comes up; and helpers with jobs, days away, abilities and an offer of 3, 6 or 12 hours a
// week. All names are invented.
package families

import (
	"fmt"

	"newel/core/assign"
)

// Kind says what makes a family hard.
type Kind string

// The kinds.
const (
	Ordinary  Kind = ""
	Tight     Kind = "tight"     // so little time that some duties stay uncovered
	Everybody Kind = "everybody" // everybody can do everything at any time
)

// Kinds are all kinds, in the order of the rows.
var Kinds = []Kind{Ordinary, Tight, Everybody}

// Size is how large a family is.
type Size struct{ Duties, Helpers int }

// Sizes are those of the benchmark.
var Sizes = []Size{{20, 3}, {60, 4}, {120, 6}, {300, 8}}

// Seeds are those of the committed families of each size and kind.
var Seeds = []uint64{1, 2, 3}

// Family is one problem with what it was made from.
type Family struct {
	Size    Size
	Kind    Kind
	Seed    uint64
	Problem *assign.Problem
}

// Row is the name of the family's size and kind, as in split/300x8-tight-level2.
func (f *Family) Row() string {
	row := fmt.Sprintf("%dx%d", f.Size.Duties, f.Size.Helpers)
	if f.Kind != Ordinary {
		row += "-" + string(f.Kind)
	}
	return row
}

// File is the name of the family's file.
func (f *Family) File() string { return fmt.Sprintf("%s-%d.txt", f.Row(), f.Seed) }

// All names the committed families, with their problems not yet made or read.
func All() (all []Family) {
	for _, size := range Sizes {
		for _, kind := range Kinds {
			for _, seed := range Seeds {
				all = append(all, Family{Size: size, Kind: kind, Seed: seed})
			}
		}
	}
	return all
}

// Make makes the problem of a size, kind and seed. The problem is sound.
func Make(size Size, kind Kind, seed uint64) *assign.Problem {
	r := NewRandom(seed<<32 + uint64(size.Duties)<<8 + uint64(len(kind)))
	duties := someDuties(r, size.Duties)
	days := 1
	for _, d := range duties {
		days = max(days, d.takes[0].From/day+1)
	}
	p := &assign.Problem{}
	people := somePeople(r, size.Helpers, kind, days)
	for _, who := range people {
		p.Helpers = append(p.Helpers, assign.Helper{Key: who.name, Offer: who.weekly * 60 * max(1, (days+3)/7)})
	}
	for _, d := range duties {
		p.Items = append(p.Items, item(d, people, kind))
	}
	standing(r, p)
	return p
}

// item makes one item of a duty's date.
func item(d duty, people []person, kind Kind) assign.Item {
	it := assign.Item{
		Key: d.key, Series: d.series, Tier: d.tier, Weight: d.weight, Load: d.load,
		Takes: d.takes, Now: assign.Nobody,
	}
	liked := false
	for i := range people {
		it.Able = append(it.Able, kind == Everybody || people[i].can(&d))
		it.Rather = append(it.Rather, people[i].rather(d.task))
		liked = liked || it.Rather[i] != 0
	}
	if !liked {
		it.Rather = nil
	}
	return it
}

// standing says who has what today: a part of the dates, and of those some for good.
func standing(r *Random, p *assign.Problem) {
	usual := map[int]int{} // by series: who mostly has it
	for j := range p.Items {
		it := &p.Items[j]
		who, known := usual[it.Series]
		if !known {
			who = r.Below(len(p.Helpers)*2) - len(p.Helpers) // nobody in half of the series
			usual[it.Series] = who
		}
		if r.Percent(15) {
			who = r.Below(len(p.Helpers))
		}
		if who < 0 || !it.Able[who] {
			continue
		}
		it.Now = who
		it.Held = r.Percent(20) && free(p, j, who)
	}
}

// free tells whether no held item of a helper overlaps item j.
func free(p *assign.Problem, j, who int) bool {
	for k := range p.Items[:j] {
		if o := &p.Items[k]; o.Held && o.Now == who && Overlap(o, &p.Items[j]) {
			return false
		}
	}
	return true
}

// Overlap tells whether two items need the same use of their helper at the same time.
func Overlap(a, b *assign.Item) bool {
	for _, s := range a.Takes {
		for _, t := range b.Takes {
			if s.Uses&t.Uses != 0 && s.From < t.To && t.From < s.To {
				return true
			}
		}
	}
	return false
}
