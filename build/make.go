package main

import (
	"context"
	"errors"
	"flag"
	"path/filepath"
	"strings"

	"newel/build/bundle"
	"newel/build/tools"
)

func runBundle(ctx context.Context, root string, args []string) error {
	flags := flag.NewFlagSet("bundle", flag.ContinueOnError)
	out := flags.String("out", "dist", "the folder to make, seen from where you are; dist is at the top of the repository")
	programs := programFlag(flags)
	if err := options(flags, args); err != nil {
		return err
	}
	target, err := filepath.Abs(*out)
	if *out == "dist" {
		target = filepath.Join(root, "dist")
	}
	if err != nil {
		return err
	}
	if err := makeFolder(ctx, root, target, *programs...); err != nil {
		return err
	}
	say("the page is in " + target)
	return nil
}

// makeFolder checks the tools, installs the packages and bundles into out; programs are the
// settings files of a hospital's own copy.
func makeFolder(ctx context.Context, root, out string, programs ...string) error {
	if problems := tools.Check(ctx, root); len(problems) > 0 {
		return errors.New(strings.Join(problems, "\n"))
	}
	if err := tools.NodeModules(ctx, root, say); err != nil {
		return err
	}
	return bundle.Make(ctx, bundle.Options{Root: root, Out: out, Programs: programs, Log: say})
}

// programFlag is the option that makes a hospital's own copy of the page.
func programFlag(flags *flag.FlagSet) *[]string {
	var files []string
	flags.Func("program", "a hospital's settings `file`, for its own copy of the page: links then carry only its number. "+
		"Say it once for each file that ever held, the one of today last", func(name string) error {
		files = append(files, name)
		return nil
	})
	return &files
}
