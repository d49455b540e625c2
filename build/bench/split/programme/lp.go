package programme

import (
	"fmt"
	"strings"

	"newel/core/assign"
)

// Model writes the programme of one problem in the CPLEX LP format, a text for each level.
// What a level reached is fixed with Fix before the next is written. Its names: x3_17 is 1
// where helper 3 takes item 17, y3_5 where helper 3 has any item of series 5, T is the
// largest load over offer (in units that make the numbers small), l3 the load of helper 3
// in multiples of what all loads are multiples of, and s3 its square.
type Model struct {
	p       *assign.Problem
	always  []string // rows of every level
	fixed   []string // rows that earlier levels left
	minutes int64    // all loads are whole multiples of these
	offers  int64    // and all offers of these
	caps    []int64  // by helper, in minutes; nil before level 2 is fixed
	scale   []int64
}

// NewModel prepares the texts of a sound problem.
func NewModel(p *assign.Problem) *Model {
	m := &Model{p: p, scale: p.Scale()}
	for j := range p.Items {
		m.minutes = divisor(m.minutes, int64(p.Items[j].Load))
		var sum terms
		for i := range p.Helpers {
			if p.Items[j].Able[i] {
				sum.add(1, x(i, j))
			}
		}
		if len(sum) > 0 {
			m.always = append(m.always, sum.row("<=", 1))
		}
		if it := &p.Items[j]; it.Held {
			m.always = append(m.always, (terms{{1, x(it.Now, j)}}).row("=", 1))
		}
	}
	for i := range p.Helpers {
		m.offers = divisor(m.offers, int64(p.Helpers[i].Offer))
	}
	m.minutes = max(1, m.minutes)
	for _, row := range Rows(p) {
		var sum terms
		for _, j := range row.Items {
			sum.add(1, x(row.Helper, j))
		}
		m.always = append(m.always, sum.row("<=", 1))
	}
	return m
}

// divisor is the greatest common one; of 0 and a number that number.
func divisor(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

func x(i, j int) string { return fmt.Sprintf("x%d_%d", i, j) }
func y(i, s int) string { return fmt.Sprintf("y%d_%d", i, s) }

// term is a factor and a variable.
type term struct {
	factor int64
	name   string
}

// terms are a sum.
type terms []term

func (t *terms) add(factor int64, name string) { *t = append(*t, term{factor, name}) }

// String writes the sum, with line ends, since some readers bound the length of a line.
func (t terms) String() string {
	if len(t) == 0 {
		return "0 nothing"
	}
	var b strings.Builder
	for k, one := range t {
		if k%12 == 11 {
			b.WriteString("\n ")
		}
		fmt.Fprintf(&b, "%+d %s ", one.factor, one.name)
	}
	return b.String()
}

// row makes a row of it.
func (t terms) row(relation string, right int64) string {
	return fmt.Sprintf("%s%s %d", t, relation, right)
}

// over gives the sum of a factor by helper and item over all who are able.
func (m *Model) over(factor func(i, j int) int64) (sum terms) {
	for j := range m.p.Items {
		for i := range m.p.Helpers {
			if f := factor(i, j); f != 0 && m.p.Items[j].Able[i] {
				sum.add(f, x(i, j))
			}
		}
	}
	return sum
}

// load is a helper's load in multiples of m.minutes.
func (m *Model) load(who int) terms {
	return m.over(func(i, j int) int64 {
		if i != who {
			return 0
		}
		return int64(m.p.Items[j].Load) / m.minutes
	})
}
