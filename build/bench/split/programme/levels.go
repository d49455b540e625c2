package programme

import (
	"fmt"
	"sort"
	"strings"

	"newel/core/assign"
)

// Text is the programme of one level. The levels before it have been fixed.
func (m *Model) Text(level assign.Level) string {
	aim := "Minimize"
	if Most(level) || level == assign.Moves { // of Moves it is what stays, which is the same
		aim = "Maximize"
	}
	rows, binary := append(append([]string{}, m.always...), m.fixed...), m.names()
	switch {
	case level == assign.Peak:
		rows = append(rows, m.peakRows()...)
	case level >= assign.Pairs:
		rows = append(rows, m.pairRows()...)
	}
	if level >= assign.Square {
		rows = append(rows, m.squareRows()...)
	}
	if len(rows) == 0 {
		rows = []string{"nothing >= 0"}
	}
	return fmt.Sprintf("%s\n obj: %s\nSubject To\n %s\nBinaries\n %s\nEnd\n",
		aim, m.aim(level), strings.Join(rows, "\n "), strings.Join(binary, "\n "))
}

// names are the variables that are 0 or 1. The y need not be said to be: they are at their
// least, and the x beside them are.
func (m *Model) names() (names []string) {
	for _, t := range m.over(func(i, j int) int64 { return 1 }) {
		names = append(names, t.name)
	}
	if len(names) == 0 {
		names = []string{"nothing"}
	}
	return names
}

// aim is the sum that a level looks at.
func (m *Model) aim(level assign.Level) (sum terms) {
	p := m.p
	switch level {
	case assign.Peak:
		sum.add(1, "T")
	case assign.Pairs:
		m.pairs(func(i, s int, _ []int) { sum.add(1, y(i, s)) })
	case assign.Rather:
		return m.over(func(i, j int) int64 {
			if p.Items[j].Rather == nil {
				return 0
			}
			return int64(p.Items[j].Rather[i])
		})
	case assign.Square:
		for i := range p.Helpers {
			sum.add(m.scale[i]*m.minutes*m.minutes, fmt.Sprintf("s%d", i))
		}
	case assign.Moves:
		return m.over(func(i, j int) int64 { return yes(p.Items[j].Now == i) })
	default:
		return m.over(func(i, j int) int64 {
			return yes(tierLevel[p.Items[j].Tier] == level) * int64(p.Items[j].Weight)
		})
	}
	return sum
}

// yes is 1 for true.
func yes(is bool) int64 {
	if is {
		return 1
	}
	return 0
}

// peakRows say that T is at least every load over offer.
func (m *Model) peakRows() (rows []string) {
	for i, h := range m.p.Helpers {
		sum := m.load(i)
		sum.add(-int64(h.Offer)/m.offers, "T")
		rows = append(rows, sum.row("<=", 0))
	}
	return rows
}

// pairs calls back for each helper and series with the items that make them a pair.
func (m *Model) pairs(found func(i, s int, items []int)) {
	items, order := map[int][]int{}, []int{}
	for j := range m.p.Items {
		s := m.p.Items[j].Series
		if items[s] == nil {
			order = append(order, s)
		}
		items[s] = append(items[s], j)
	}
	sort.Ints(order)
	for _, s := range order {
		for i := range m.p.Helpers {
			var able []int
			for _, j := range items[s] {
				if m.p.Items[j].Able[i] {
					able = append(able, j)
				}
			}
			if len(able) > 0 {
				found(i, s, able)
			}
		}
	}
}

// pairRows say that y is at least each of its x.
func (m *Model) pairRows() (rows []string) {
	m.pairs(func(i, s int, items []int) {
		for _, j := range items {
			rows = append(rows, (terms{{1, y(i, s)}, {-1, x(i, j)}}).row(">=", 0))
		}
	})
	return rows
}

// squareRows say that s is at least the square of the load. Loads are whole multiples of
// m.minutes, so the straight lines through each two neighbouring whole numbers' squares are
// exact: k² and (k+1)² lie on (2k+1) l - k(k+1), and every other square above it.
func (m *Model) squareRows() (rows []string) {
	for i := range m.p.Helpers {
		load, square := fmt.Sprintf("l%d", i), fmt.Sprintf("s%d", i)
		sum := m.load(i)
		most := int64(0)
		for _, t := range sum {
			most += t.factor
		}
		sum.add(-1, load)
		rows = append(rows, sum.row("=", 0))
		for k := int64(0); k <= min(most, m.caps[i]/m.minutes); k++ {
			rows = append(rows, (terms{{1, square}, {-2*k - 1, load}}).row(">=", -k*(k+1)))
		}
	}
	return rows
}

// Fix keeps a level at a value from here on. Levels are fixed in their order.
func (m *Model) Fix(level assign.Level, value assign.Ratio) {
	switch level {
	case assign.Peak:
		m.caps = Caps(m.p, value)
		for i := range m.p.Helpers {
			if sum := m.load(i); len(sum) > 0 {
				m.fixed = append(m.fixed, sum.row("<=", m.caps[i]/m.minutes))
			}
		}
		return
	case assign.Moves:
		return // the last
	}
	relation := "<="
	if Most(level) {
		relation = ">="
	}
	if sum := m.aim(level); len(sum) > 0 {
		m.fixed = append(m.fixed, sum.row(relation, value.Num))
	}
}
