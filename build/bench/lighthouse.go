package bench

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"newel/build/bench/households"
	"newel/build/tools"
	"newel/core/wall"
)

// Lighthouse with all that it brings is some 110 MB, three times what the rest of the build needs
// of npm. So it has a package.json and a lock of its own in build/bench/lighthouse, and is put
// into .cache/lighthouse the first time that this area runs.

// lighthouseVersion is the one of build/bench/lighthouse/package.json; scores of different
// versions cannot be compared.
const lighthouseVersion = "12.2.3"

const lighthouseRuns = 3

// judgement is what one run says, from 0 to 100.
type judgement struct {
	Performance, Accessibility float64
	BestPractices              float64 `json:"best-practices"`
	Version                    string
	Lost                       []string // the audits that cost points
}

// lighthouses asks Lighthouse for its scores of the reference family's link on a phone, and of
// the floor.
func lighthouses(ctx context.Context, o Options) ([]Row, error) {
	modules, err := installLighthouse(ctx, o.Root, o.Log)
	if err != nil {
		return nil, err
	}
	p, err := servedPages(ctx, o)
	if err != nil {
		return nil, err
	}
	defer p.stop()
	link := households.Reference.Links(wall.DateOf(time.Now())).Own
	var ours, floor []judgement
	ask := func(url string, found *[]judgement) error {
		return inBrowser(ctx, o.Root, "lighthouse.mjs", map[string]any{"url": url, "modules": modules, "runs": o.runs(lighthouseRuns)}, found)
	}
	if err := errors.Join(ask(p.ours+"#"+link, &ours), ask(p.floor, &floor)); err != nil {
		return nil, err
	}
	for _, j := range append(ours, floor...) {
		if j.Version != lighthouseVersion {
			return nil, fmt.Errorf("Lighthouse %s answered instead of %s: remove .cache/lighthouse and run this again", j.Version, lighthouseVersion)
		}
	}
	for i, j := range ours {
		o.Log(fmt.Sprintf("Lighthouse, run %d, points lost: %s", i+1, strings.Join(j.Lost, ", ")))
	}
	return judgementRows(ours, floor), nil
}

// judgementRows makes the rows. Here must and goal are the least, not the most.
func judgementRows(ours, floor []judgement) []Row {
	row := func(name string, of func(j judgement) float64, must, goal float64) Row {
		r := spread("load/lighthouse-"+name, "of 100", each(ours, of), "the floor, by Lighthouse "+lighthouseVersion, each(floor, of))
		r.Must, r.Goal, r.Why = must, goal, "more is better"
		return r
	}
	return []Row{
		row("performance", func(j judgement) float64 { return j.Performance }, 90, 97),
		row("accessibility", func(j judgement) float64 { return j.Accessibility }, 100, 100),
		row("best-practices", func(j judgement) float64 { return j.BestPractices }, 100, 100),
	}
}

// installLighthouse puts Lighthouse into .cache, unless it is there, and gives its node_modules.
func installLighthouse(ctx context.Context, root string, log func(string)) (string, error) {
	from, to := filepath.Join(root, "build", "bench", "lighthouse"), filepath.Join(root, ".cache", "lighthouse")
	if err := os.MkdirAll(to, 0o755); err != nil {
		return "", err
	}
	for _, name := range []string{"package.json", "package-lock.json"} {
		wanted, err := os.ReadFile(filepath.Join(from, name))
		if err != nil {
			return "", err
		}
		if there, err := os.ReadFile(filepath.Join(to, name)); err == nil && string(there) == string(wanted) {
			continue // its date tells whether it was installed
		}
		if err := os.WriteFile(filepath.Join(to, name), wanted, 0o644); err != nil {
			return "", err
		}
	}
	return filepath.Join(to, "node_modules"), tools.NodeModules(ctx, to, log)
}
