package main

import (
	"context"
	"flag"
	"fmt"
	"os"
	"slices"
	"strings"

	"newel/build/suite"
)

func runTest(ctx context.Context, root string, args []string) error {
	flags := flag.NewFlagSet("test", flag.ContinueOnError)
	only := flags.String("only", "", "run one part: "+strings.Join(suite.Groups, ", "))
	long := flags.Bool("long", false, "also what takes hours: fuzzing, small faults in the core, hundreds of kills")
	if err := options(flags, args); err != nil {
		return err
	}
	if *only != "" && !slices.Contains(suite.Groups, *only) {
		return fmt.Errorf("there is no part %q: the parts are %s", *only, strings.Join(suite.Groups, ", "))
	}
	if *only == "long" {
		*long = true
	}
	temp, err := os.MkdirTemp("", "newel-test-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(temp)
	total, err := suite.Run(ctx, root, temp, suite.Options{Only: *only, Long: *long}, os.Stdout)
	if err != nil {
		return err
	}
	fmt.Printf("\n%d passed, %d failed\n", total.Passed, total.Failed)
	if total.Failed > 0 {
		return errFailed
	}
	return nil
}
