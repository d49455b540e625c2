package bench

import (
	"context"
	"errors"
	"fmt"
	"time"

	"newel/build/bench/households"
	"newel/core/wall"
)

// loadRuns is how often each page is opened with an empty profile.
const loadRuns = 5

// slowness is how many times slower the phone's own thread is than this machine's.
const slowness = 4

// opening is what a page noted of one opening; times in milliseconds since the navigation.
type opening struct {
	Paint, First, Whole, Floor float64
	Shift                      float64
	Largest                    float64 // the last one before Whole
	LargestAll                 float64 // the last one
	Worker                     bool    // a service worker answered
	Core                       float64 // when the core had come, all of it
	Came                       float64 // its bytes, uncompressed; 0 where the browser had it
}

// visits are one profile's openings: empty, again in the same browser, after a restart of it.
type visits struct{ Cold, Again, Restart opening }

// loads measures how long it takes until things are on the screen of a phone on slow 4G.
func loads(ctx context.Context, o Options) ([]Row, error) {
	p, err := servedPages(ctx, o)
	if err != nil {
		return nil, err
	}
	defer p.stop()
	runs := o.runs(loadRuns)
	link := households.Reference.Links(wall.DateOf(time.Now())).Own
	var found struct{ Ours, Floor []visits }
	question := map[string]any{"ours": p.ours + "#" + link, "floor": p.floor, "runs": runs, "cpu": slowness}
	if err := inBrowser(ctx, o.Root, "load.mjs", question, &found); err != nil {
		return nil, err
	}
	if len(found.Ours) != runs || len(found.Floor) != runs {
		return nil, errors.New("build/bench/browser/load.mjs made another number of runs than it was asked for")
	}
	for i, v := range found.Ours {
		for _, of := range []opening{v.Cold, v.Again, v.Restart} {
			o.Log(fmt.Sprintf("run %d: first paint %.0f, line %.0f, core %.0f (%.0f bytes), whole %.0f ms; floor %.0f ms; worker %v", i+1, of.Paint, of.First, of.Core, of.Came, of.Whole, found.Floor[i].Cold.Floor, of.Worker))
		}
	}
	return loadRows(found.Ours, found.Floor), nil
}

// loadRows makes the rows of what was found.
func loadRows(ours, floor []visits) []Row {
	const bare = "the floor: an empty Go program, same flags and handler, its text on the screen"
	row := func(name string, of, peer func(v visits) float64, must, goal float64) Row {
		r := spread("load/"+name, "ms", each(ours, of), bare, each(floor, peer))
		r.Must, r.Goal = must, goal
		return r
	}
	coldFloor := func(v visits) float64 { return v.Cold.Floor }
	paint := func(v visits) float64 { return v.Cold.Paint }
	whole := row("whole-cold", func(v visits) float64 { return v.Cold.Whole }, coldFloor, 0, 0)
	whole.Must, whole.Goal = rounded(1.7*whole.PeerValue), rounded(1.45*whole.PeerValue)
	shift := spread("load/layout-shift", "score", each(ours, func(v visits) float64 { return v.Cold.Shift }), "the floor", each(floor, func(v visits) float64 { return v.Cold.Shift }))
	shift.Must, shift.Goal = 0.02, nothing
	return []Row{
		row("first-paint", paint, paint, 1000, 700),
		row("largest-paint", func(v visits) float64 { return v.Cold.Largest }, paint, 1800, 1200),
		row("largest-paint-whole", func(v visits) float64 { return v.Cold.LargestAll }, coldFloor, 0, 0),
		shift,
		row("first-line", func(v visits) float64 { return v.Cold.First }, coldFloor, 2000, 1200),
		whole,
		row("whole-restart", func(v visits) float64 { return v.Restart.Whole }, func(v visits) float64 { return v.Restart.Floor }, 1000, 700),
		row("whole-again", func(v visits) float64 { return v.Again.Whole }, func(v visits) float64 { return v.Again.Floor }, 500, 300),
	}
}

// nothing is the goal where there should be none at all: what is printed as 0.000.
const nothing = 0.0005

// each takes one figure of every run.
func each[T any](runs []T, of func(T) float64) []float64 {
	values := make([]float64, len(runs))
	for i, r := range runs {
		values[i] = of(r)
	}
	return values
}
