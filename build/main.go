// Command build makes, serves, tests and measures the page.
//
//	go run ./build bundle    make the static folder
//	go run ./build serve     make it and serve it on this machine
//	go run ./build test      run everything that must hold
//	go run ./build bench     measure, beside named peers
//	go run ./build mutate    ask whether the tests would notice small faults
//	go run ./build pictures  take the pictures of the README
//
// Each command is one file here; the work is in the packages below: bundle
// (what the folder holds), site (the handler that serves it), check (rules
// about the sources), suite (the tests), bench, and tools (running programs).
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"os"
	"os/signal"

	"newel/build/tools"
)

// command is one word after `go run ./build`.
type command struct {
	name, summary string
	run           func(ctx context.Context, root string, args []string) error
}

var commands = []command{
	{"bundle", "makes the static folder (./dist, or --out FOLDER; --program FILE for a hospital's own copy)", runBundle},
	{"serve", "makes it if needed and serves it on this machine only (--port 8080)", runServe},
	{"test", "runs everything that must hold (--only go, wasm, web or browser for a part; --long for what takes hours, too)", runTest},
	{"mutate", "makes small faults in the core and asks whether the tests notice (folders of packages; --help)", runMutate},
	{"pictures", "takes the pictures of the README (build/pictures)", runPictures},
	{"bench", "measures sizes and times beside named peers (--json, --only AREA)", runBench},
}

// errFailed ends the program with status 1 when all has been said already.
var errFailed = errors.New("failed")

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	err := start(ctx, os.Args[1:])
	interrupted := ctx.Err() != nil
	stop()
	switch {
	case err == nil, errors.Is(err, flag.ErrHelp):
	case interrupted:
		fmt.Fprintln(os.Stderr, "stopped")
		os.Exit(1)
	case errors.Is(err, errFailed):
		os.Exit(1)
	default:
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func start(ctx context.Context, args []string) error {
	if len(args) == 0 || args[0] == "help" || args[0] == "-h" || args[0] == "--help" {
		help()
		return nil
	}
	for _, c := range commands {
		if c.name != args[0] {
			continue
		}
		here, err := os.Getwd()
		if err != nil {
			return err
		}
		root, err := tools.Root(here)
		if err != nil {
			return err
		}
		return c.run(ctx, root, args[1:])
	}
	help()
	return fmt.Errorf("\nthere is no command %q", args[0])
}

func help() {
	fmt.Print("Newel: a static page that turns four facts about a hip or knee replacement\n" +
		"into each helper's own dated schedule.\n\n")
	for _, c := range commands {
		fmt.Printf("  go run ./build %-8s%s\n", c.name, c.summary)
	}
	fmt.Println("  go run ./build help    says this")
}

// options reads a command's flags and refuses stray words.
func options(flags *flag.FlagSet, args []string) error {
	if err := flags.Parse(args); errors.Is(err, flag.ErrHelp) {
		return err
	} else if err != nil {
		return errFailed // flag has said what is wrong and what there is
	}
	if flags.NArg() > 0 {
		return fmt.Errorf("%q is not understood after %s: go run ./build %s --help lists what is",
			flags.Arg(0), flags.Name(), flags.Name())
	}
	return nil
}

// say is the progress line of bundle and serve.
func say(sentence string) { fmt.Println("· " + sentence) }
