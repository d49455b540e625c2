package programme

import (
	"fmt"
	"sort"

	"newel/core/assign"
)

// Row is one row of the programme: of these items a helper takes one at most.
type Row struct {
	Helper int
	At     int   // the minute
	Items  []int // in ascending order, two or more, all of which the helper can take
}

// Rows are the rows for all helpers, uses and instants at which an item begins to take the
// use. Of equal rows one is kept.
func Rows(p *assign.Problem) (rows []Row) {
	seen := map[string]bool{}
	for use := assign.Uses(1); use != 0; use <<= 1 {
		for _, minute := range begins(p, use) {
			items := taking(p, use, minute)
			for i := range p.Helpers {
				row := Row{Helper: i, At: minute}
				for _, j := range items {
					if p.Items[j].Able[i] {
						row.Items = append(row.Items, j)
					}
				}
				if key := fmt.Sprint(i, row.Items); len(row.Items) > 1 && !seen[key] {
					seen[key] = true
					rows = append(rows, row)
				}
			}
		}
	}
	return rows
}

// begins are the minutes at which an item begins to take a use, in ascending order.
func begins(p *assign.Problem, use assign.Uses) (minutes []int) {
	seen := map[int]bool{}
	for j := range p.Items {
		for _, t := range p.Items[j].Takes {
			if t.Uses&use != 0 && !seen[t.From] {
				seen[t.From] = true
				minutes = append(minutes, t.From)
			}
		}
	}
	sort.Ints(minutes)
	return minutes
}

// taking are the items that take a use during a minute: K(u,t).
func taking(p *assign.Problem, use assign.Uses, minute int) (items []int) {
	for j := range p.Items {
		for _, t := range p.Items[j].Takes {
			if t.Uses&use != 0 && t.From <= minute && minute < t.To {
				items = append(items, j)
				break
			}
		}
	}
	return items
}
