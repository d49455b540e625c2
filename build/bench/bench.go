// Package bench measures and compares: every figure stands beside a named
// peer, measured in the same run. Run is the entry point. Rows are named
// area/what, so that a figure keeps its name from one version to the next.
package bench

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"slices"
	"strings"

	"newel/build/tools"
)

// Row is one line of the table.
type Row struct {
	Row       string  `json:"row"`  // area/what
	Unit      string  `json:"unit"` // of both values
	Ours      float64 `json:"ours"`
	Peer      string  `json:"peer"` // what we compare with
	PeerValue float64 `json:"peer_value"`
	Ratio     float64 `json:"ratio"` // ours divided by the peer's
	// What ours has to be at most, and should be; 0 where nothing is set.
	Must float64 `json:"must,omitempty"`
	Goal float64 `json:"goal,omitempty"`
	// Of several runs Ours and PeerValue are the medians; these are the least and the greatest
	// of ours. Runs is 0 where a figure is the same each time.
	Runs int     `json:"runs,omitempty"`
	Low  float64 `json:"low,omitempty"`
	High float64 `json:"high,omitempty"`
	Why  string  `json:"why,omitempty"` // what the figure is for, where its name does not say it
}

// area measures the rows of one area.
type area struct {
	name    string
	measure func(ctx context.Context, o Options) ([]Row, error)
}

var areas = []area{
	{"size", once(sizes)},
	{"schedule", once(schedule)},
	{"repeat", once(repeating)},
	{"link", once(links)},
	{"split", once(splits)},
	{"desk", once(desks)},
	{"load", loads},
	{"act", acts},
	{"memory", memories},
	{"lighthouse", lighthouses},
}

// once is an area that needs to know nothing but where the sources are.
func once(measure func(ctx context.Context, root string) ([]Row, error)) func(context.Context, Options) ([]Row, error) {
	return func(ctx context.Context, o Options) ([]Row, error) { return measure(ctx, o.Root) }
}

// Options say what to measure and how to print it.
type Options struct {
	Root string
	Only string // an area, or "" for all
	JSON bool   // one object a line instead of the table
	// Markdown prints the table of README instead: the rows that have a must or a goal.
	Markdown bool
	Runs     int // of what is done in a browser; 0 for as many as each area has
	Out      io.Writer
	Log      func(string)
}

// Areas are the names that Options.Only may have.
func Areas() []string {
	var names []string
	for _, a := range areas {
		names = append(names, a.name)
	}
	return names
}

// Run measures and prints.
func Run(ctx context.Context, o Options) error {
	if o.Only != "" && !slices.Contains(Areas(), o.Only) {
		return fmt.Errorf("there is no area %q: the areas are %s", o.Only, strings.Join(Areas(), ", "))
	}
	if problems := tools.Check(ctx, o.Root); len(problems) > 0 {
		return errors.New(strings.Join(problems, "\n"))
	}
	if err := tools.NodeModules(ctx, o.Root, o.Log); err != nil {
		return err
	}
	var rows []Row
	for _, a := range areas {
		if o.Only != "" && a.name != o.Only {
			continue
		}
		o.Log("measuring " + a.name)
		found, err := a.measure(ctx, o)
		if err != nil {
			return err
		}
		rows = append(rows, found...)
	}
	if o.Markdown {
		return writeMarkdown(o.Out, machine(ctx), rows)
	}
	if err := writeMachine(o.Out, machine(ctx), o.JSON); err != nil {
		return err
	}
	return write(o.Out, rows, o.JSON)
}

// runs is how often to do what an area does so many times.
func (o Options) runs(usual int) int {
	if o.Runs > 0 {
		return o.Runs
	}
	return usual
}

// compare makes a row; values are kept to three decimals.
func compare(name, unit string, ours float64, peer string, peerValue float64) Row {
	r := Row{Row: name, Unit: unit, Ours: rounded(ours), Peer: peer, PeerValue: rounded(peerValue)}
	if peerValue != 0 { // a peer with nothing at all has no ratio
		r.Ratio = rounded(ours / peerValue)
	}
	return r
}

// rounded keeps three decimals.
func rounded(x float64) float64 { return math.Round(x*1000) / 1000 }

// spread makes a row of several runs.
func spread(name, unit string, ours []float64, peer string, theirs []float64) Row {
	r := compare(name, unit, median(ours), peer, median(theirs))
	r.Runs, r.Low, r.High = len(ours), rounded(slices.Min(ours)), rounded(slices.Max(ours))
	return r
}

// scratch gives a folder for one measurement and the call that removes it.
func scratch() (string, func(), error) {
	dir, err := os.MkdirTemp("", "newel-bench-")
	return dir, func() { os.RemoveAll(dir) }, err
}
