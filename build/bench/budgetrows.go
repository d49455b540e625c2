package bench

import (
	"context"

	"newel/build/bench/budget"
	"newel/build/bundle"
)

// mostParts is how many packages the table names.
const mostParts = 10

// budgetRows tell what the largest packages add to the near core, and what is left.
func budgetRows(ctx context.Context, root string) ([]Row, error) {
	parts, err := budget.Of(ctx, root, budget.Near, bundle.Brotli)
	if err != nil {
		return nil, err
	}
	return partRows(parts), nil
}

func partRows(parts []budget.Part) (rows []Row) {
	largest := budget.Largest(parts, mostParts)
	row := func(name string, p budget.Part, why string) {
		r := compare("size/near/"+name, "kB", float64(p.Packed)/1000, "before compression", float64(p.Code+p.Files)/1000)
		r.Why = why
		rows = append(rows, r)
	}
	rest := budget.Part{}
	named := map[string]bool{}
	for _, p := range largest {
		row(p.Name, p, budget.Reasons[p.Name])
		named[p.Name] = true
	}
	for _, p := range parts {
		switch {
		case p.Name == budget.Data:
			row("data", p, p.Name)
		case p.Name == budget.Headers:
			row("data-headers", p, p.Name)
		case !named[p.Name]:
			rest.Packed += p.Packed
			rest.Code += p.Code
			rest.Files += p.Files
		}
	}
	row("all-other-packages", rest, "each compressed by itself, then added up")
	return rows
}
