package main

import (
	"context"
	"flag"
	"fmt"
	"os"

	"newel/build/mutate"
)

func runMutate(ctx context.Context, root string, args []string) error {
	flags := flag.NewFlagSet("mutate", flag.ContinueOnError)
	var o mutate.Options
	every := flags.Uint("every", mutate.Sample, "try one in so many of all faults; 1 is all of them")
	flags.StringVar(&o.Among, "among", "", "try only the faults that this file names, one a line")
	flags.StringVar(&o.Write, "write", "", "write the names of the faults that no test noticed to this file")
	flags.Usage = func() {
		fmt.Fprintln(flags.Output(), "go run ./build mutate [flags] [folder of a package ...]")
		flags.PrintDefaults()
	}
	switch err := flags.Parse(args); {
	case err == flag.ErrHelp:
		return err
	case err != nil:
		return errFailed // flag has said what is wrong
	}
	o.Every = uint32(*every)
	packages := flags.Args()
	if len(packages) == 0 {
		packages = mutate.Packages
	}
	problems, err := mutate.Try(ctx, root, packages, o, os.Stdout)
	if err != nil {
		return err
	}
	for _, p := range problems {
		fmt.Println(p)
	}
	if len(problems) > 0 {
		return errFailed
	}
	return nil
}
