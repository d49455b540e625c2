package bench

import (
	"context"
	"fmt"
	"time"

	"newel/build/bench/households"
	"newel/core/wall"
)

// memoryLaps is how often all actions are done, one after another: some 1,400 actions, more than
// anybody does in an hour.
const memoryLaps = 100

// mostMemory is what the cores may hold with the heavy family, in MB.
const mostMemory = 64

// holding is what a page holds, in bytes.
type holding struct {
	Wasm   float64 // the cores' memory, which never shrinks
	Cores  []float64
	Script float64 // the scripts' heap after a collection
}

// hourOf is what a page holds with the first answer, when everything has been done twice, after
// half of the laps and at the end.
type hourOf struct {
	First, Start, Half, End holding
	Actions                 int
}

// memories measures what the page holds after an hour's worth of use.
func memories(ctx context.Context, o Options) ([]Row, error) {
	p, err := servedPages(ctx, o)
	if err != nil {
		return nil, err
	}
	defer p.stop()
	found := map[string]hourOf{}
	question := map[string]any{"ours": p.ours, "families": familyLinks(), "laps": o.runs(memoryLaps)}
	if err := inBrowser(ctx, o.Root, "memory.mjs", question, &found); err != nil {
		return nil, err
	}
	var rows []Row
	for _, h := range households.All {
		hour := found[h.Name]
		o.Log(fmt.Sprintf("%s: %d actions; the cores at the end, in bytes: %.0f", h.Name, hour.Actions, hour.End.Cores))
		rows = append(rows, memoryRows(h.Name, hour)...)
	}
	return rows, nil
}

// familyLinks are the families' links for the programs in the browser.
func familyLinks() map[string]map[string]string {
	families, today := map[string]map[string]string{}, wall.DateOf(time.Now())
	for _, h := range households.All {
		links := h.Links(today)
		families[h.Name] = map[string]string{"own": links.Own, "other": links.Other, "later": links.Later, "helper": h.Helpers[2]}
	}
	return families
}

// memoryRows makes a family's rows. Flat is: no more at the end than after half of it.
func memoryRows(family string, h hourOf) []Row {
	const mega = 1e6
	name := "memory/" + family + "/"
	flat := compare(name+"wasm-end", "MB", h.End.Wasm/mega, "the same page after half of the actions", h.Half.Wasm/mega)
	flat.Must = flat.PeerValue
	if family == households.Heavy.Name {
		flat.Must = min(flat.Must, mostMemory)
	}
	first := compare(name+"wasm-used", "MB", h.Start.Wasm/mega, "the same page with its first answer", h.First.Wasm/mega)
	script := compare(name+"script-end", "MB", h.End.Script/mega, "the same page after half of the actions", h.Half.Script/mega)
	return []Row{first, flat, script}
}
