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
	withdraw := flags.Bool("withdraw-worker", false, "have browsers forget what they keep of the page for when there is no network, and keep nothing more")
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
	if err := makeFolder(ctx, bundle.Options{Root: root, Out: target, Programs: *programs, WithdrawWorker: *withdraw}); err != nil {
		return err
	}
	say("the page is in " + target)
	return nil
}

// makeFolder checks the tools, installs the packages and bundles.
func makeFolder(ctx context.Context, o bundle.Options) error {
	if problems := tools.Check(ctx, o.Root); len(problems) > 0 {
		return errors.New(strings.Join(problems, "\n"))
	}
	if err := tools.NodeModules(ctx, o.Root, say); err != nil {
		return err
	}
	o.Log = say
	return bundle.Make(ctx, o)
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
