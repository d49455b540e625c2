package bench

import (
	"context"
	"fmt"

	"newel/build/bench/households"
)

// actRounds is how often each family is opened in a new browser for each rate; in each, every
// action is done once unmeasured and once measured.
const actRounds = 3

// rates are how many times slower the phone's own thread is.
var rates = []int{slowness, 6}

// deed is one action as it was measured, in milliseconds.
type deed struct {
	Family, Name string
	Rate         int
	Time         float64 // from the event until the frame that shows the answer
	Seen         float64 // until the first frame, in which a box that was tapped shows its mark
	Core         float64 // of which in the core
	Task         float64 // the longest task of the page's own thread; 0 where none was over 50 ms
	Peer         float64 // what the browser needs for the same HTML in an empty page
	Size         int     // of the HTML, in characters
}

// acts measures what a helper does with an open plan.
func acts(ctx context.Context, o Options) ([]Row, error) {
	p, err := servedPages(ctx, o)
	if err != nil {
		return nil, err
	}
	defer p.stop()
	var found []deed
	question := map[string]any{"ours": p.ours, "families": familyLinks(), "rates": rates, "rounds": o.runs(actRounds)}
	if err := inBrowser(ctx, o.Root, "act.mjs", question, &found); err != nil {
		return nil, err
	}
	for _, d := range found {
		o.Log(fmt.Sprintf("%s %d× %s: %.0f ms, core %.0f, longest task %.0f, the same HTML in an empty page %.0f, %d kB", d.Family, d.Rate, d.Name, d.Time, d.Core, d.Task, d.Peer, d.Size/1000))
	}
	return actRows(found), nil
}

// actLimits are must and goal at the rate of slowness, by family.
var actLimits = map[string][2]float64{"reference": {80, 50}, "heavy": {200, 100}}

// actRows makes a row of each action, and one of the longest task, for each family and rate.
func actRows(found []deed) (rows []Row) {
	for _, h := range households.All {
		for _, rate := range rates {
			name := "act/" + h.Name + "/"
			if rate != slowness {
				name = fmt.Sprintf("act/%s-%dx/", h.Name, rate)
			}
			of := filter(found, func(d deed) bool { return d.Family == h.Name && d.Rate == rate })
			limits := actLimits[h.Name]
			if rate != slowness {
				limits = [2]float64{}
			}
			for _, action := range names(of) {
				this := filter(of, func(d deed) bool { return d.Name == action })
				r := spread(name+action, "ms", each(this, func(d deed) float64 { return d.Time }), "the browser alone: the same HTML set into an empty page", each(this, func(d deed) float64 { return d.Peer }))
				r.Must, r.Goal = limits[0], limits[1]
				rows = append(rows, r)
				if action == "tick" {
					seen := spread(name+"tick-seen", "ms", each(this, func(d deed) float64 { return d.Seen }), r.Peer, each(this, func(d deed) float64 { return d.Peer }))
					seen.Must, seen.Goal = limits[0], limits[1]
					rows = append(rows, seen)
				}
			}
			if len(of) > 0 {
				rows = append(rows, longest(name+"longest-task", of))
			}
		}
	}
	return rows
}

// longest is the row of the longest task in any action. Fifty milliseconds are what a browser
// calls long (Long Tasks API, 1).
func longest(name string, of []deed) Row {
	worst := of[0]
	for _, d := range of {
		if d.Task > worst.Task {
			worst = d
		}
	}
	return compare(name, "ms", worst.Task, "the browser alone, in the same action: "+worst.Name, worst.Peer)
}

// names are the actions in the order in which they were first done.
func names(found []deed) (all []string) {
	seen := map[string]bool{}
	for _, d := range found {
		if !seen[d.Name] {
			seen[d.Name] = true
			all = append(all, d.Name)
		}
	}
	return all
}

func filter[T any](all []T, keep func(T) bool) (some []T) {
	for _, v := range all {
		if keep(v) {
			some = append(some, v)
		}
	}
	return some
}
