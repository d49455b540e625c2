package main

import (
	"context"
	"flag"
	"fmt"
	"os"
	"strings"

	"newel/build/bench"
)

func runBench(ctx context.Context, root string, args []string) error {
	flags := flag.NewFlagSet("bench", flag.ContinueOnError)
	asJSON := flags.Bool("json", false, "one JSON object a line instead of the table")
	only := flags.String("only", "", "measure one area: "+strings.Join(bench.Areas(), ", "))
	runs := flags.Int("runs", 0, "how often to do what is done in a browser; fewer for a rough look")
	markdown := flags.Bool("markdown", false, "the table of README: the rows that have a must or a goal")
	if err := options(flags, args); err != nil {
		return err
	}
	return bench.Run(ctx, bench.Options{
		Root: root, Only: *only, JSON: *asJSON, Runs: *runs, Markdown: *markdown, Out: os.Stdout,
		// Progress goes to the other channel: standard output is the figures.
		Log: func(sentence string) { fmt.Fprintln(os.Stderr, "· "+sentence) },
	})
}
