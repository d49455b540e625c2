// Package programme is the mathematical programme of core/assign once more, made from the
// formulas in that package's comment and from nothing else, so that what the solver says
// can be held against it: Evaluate works an answer out, Brute tries all answers, and Model
// writes the programme as text for any solver that reads the CPLEX LP format.
//
// Of core/assign it uses the types and Problem.Scale, which is part of the programme.
package programme

import (
	"fmt"

	"newel/core/assign"
)

// Values are what an answer reaches, by level.
type Values [assign.LevelEnd]assign.Ratio

// Whole is a whole number as a ratio.
func Whole(n int64) assign.Ratio { return assign.Ratio{Num: n, Den: 1} }

// Fraction is a fraction in lowest terms; den is above 0.
func Fraction(num, den int64) assign.Ratio {
	a, b := num, den
	for b != 0 {
		a, b = b, a%b
	}
	return assign.Ratio{Num: num / a, Den: den / a}
}

// Less compares two ratios whose products fit into 64 bits.
func Less(a, b assign.Ratio) bool { return a.Num*b.Den < b.Num*a.Den }

// Better tells whether a is better than b in a level.
func Better(level assign.Level, a, b assign.Ratio) bool {
	if Most(level) {
		return Less(b, a)
	}
	return Less(a, b)
}

// Most tells whether a level is sought at its most; the others at their least.
func Most(level assign.Level) bool { return level <= assign.CoverNice || level == assign.Rather }

// Judge works answers of one problem out.
type Judge struct {
	p      *assign.Problem
	rows   []Row
	scale  []int64
	series []int // by item: the place of its series
	count  int   // of series
}

// NewJudge prepares to judge answers of a sound problem.
func NewJudge(p *assign.Problem) *Judge {
	places := map[int]int{}
	g := &Judge{p: p, rows: Rows(p), scale: p.Scale()}
	for j := range p.Items {
		place, known := places[p.Items[j].Series]
		if !known {
			place = len(places)
			places[p.Items[j].Series] = place
		}
		g.series = append(g.series, place)
	}
	g.count = len(places)
	return g
}

// Evaluate works out every level of an answer. Peak is the answer's own largest load over
// offer. broken says which row the answer breaks, or "" for none; caps are not looked at.
func Evaluate(p *assign.Problem, to []int) (got Values, broken string) {
	g := NewJudge(p)
	if broken = g.Breaks(to); broken != "" {
		return got, broken
	}
	return g.Values(to), ""
}

// Values works out every level of an answer, as Evaluate does, which breaks no row.
func (g *Judge) Values(to []int) (got Values) {
	loads, has := make([]int64, len(g.p.Helpers)), make([]bool, g.count*len(g.p.Helpers))
	var sum [assign.LevelEnd]int64
	for j, i := range to {
		it := &g.p.Items[j]
		if it.Now != assign.Nobody && it.Able[it.Now] && i != it.Now {
			sum[assign.Moves]++
		}
		if i == assign.Nobody {
			continue
		}
		loads[i] += int64(it.Load)
		if pair := g.series[j]*len(g.p.Helpers) + i; !has[pair] {
			has[pair] = true
			sum[assign.Pairs]++
		}
		sum[tierLevel[it.Tier]] += int64(it.Weight)
		if it.Rather != nil {
			sum[assign.Rather] += int64(it.Rather[i])
		}
	}
	for i := range loads {
		sum[assign.Square] += g.scale[i] * loads[i] * loads[i]
	}
	for level := range got {
		got[level] = Whole(sum[level])
	}
	got[assign.Peak] = largest(g.p, loads)
	return got
}

// tierLevel is the level in which a tier counts.
var tierLevel = [...]assign.Level{assign.Nice: assign.CoverNice, assign.Should: assign.CoverShould, assign.Must: assign.CoverMust}

// largest is the largest load over offer.
func largest(p *assign.Problem, loads []int64) assign.Ratio {
	most := Whole(0)
	for i, load := range loads {
		if r := Fraction(load, int64(p.Helpers[i].Offer)); Less(most, r) {
			most = r
		}
	}
	return most
}

// Loads are the minutes of load of each helper.
func Loads(p *assign.Problem, to []int) []int64 {
	loads := make([]int64, len(p.Helpers))
	for j, i := range to {
		if i != assign.Nobody {
			loads[i] += int64(p.Items[j].Load)
		}
	}
	return loads
}

// Caps are the minutes that level 2 allows each helper under a smallest largest load.
func Caps(p *assign.Problem, peak assign.Ratio) []int64 {
	caps := make([]int64, len(p.Helpers))
	for i, h := range p.Helpers {
		caps[i] = max(int64(h.Offer), 11*peak.Num*int64(h.Offer)/(10*peak.Den))
	}
	return caps
}

// Over says which helper is above their cap, or "".
func Over(p *assign.Problem, to []int, peak assign.Ratio) string {
	caps := Caps(p, peak)
	for i, load := range Loads(p, to) {
		if load > caps[i] {
			return fmt.Sprintf("%s has %d minutes and may have %d", p.Helpers[i].Key, load, caps[i])
		}
	}
	return ""
}

// Breaks says which of the rows that hold always an answer breaks, or "".
func (g *Judge) Breaks(to []int) string {
	p := g.p
	for j := range p.Items {
		it, i := &p.Items[j], to[j]
		switch {
		case it.Held && i != it.Now:
			return fmt.Sprintf("item %s is held and was moved", it.Key)
		case i == assign.Nobody:
		case i < 0 || i >= len(p.Helpers) || !it.Able[i]:
			return fmt.Sprintf("item %s went to helper %d, who cannot", it.Key, i)
		}
	}
	for _, row := range g.rows {
		count := 0
		for _, j := range row.Items {
			if to[j] == row.Helper {
				count++
			}
		}
		if count > 1 {
			return fmt.Sprintf("%s has %d items at minute %d", p.Helpers[row.Helper].Key, count, row.At)
		}
	}
	return ""
}
