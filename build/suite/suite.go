// Package suite is `go run ./build test`: everything that must hold, in parts,
// one line for each as it goes. Run is the entry point. A part that fails does
// not stop the others; the end lists what failed and how to run just that. A
// part in which no test ran has failed: silence must not look like success.
package suite

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"newel/build/tools"
)

// Groups are the values of --only; the last is run with --long only.
var Groups = []string{"go", "wasm", "web", "browser", "long"}

// Result is what one part found.
type Result struct {
	Passed, Failed int
	Problems       string // what went wrong, ready to print; "" when nothing did
}

// part is one line of the report.
type part struct {
	group string // one of Groups
	name  string
	alone string // the command that runs just this
	run   func(context.Context, *suite) Result
	long  bool // with --long only
}

// Options say what is run.
type Options struct {
	Only string // one of Groups, or "" for all of them
	Long bool   // what takes longer than anybody waits for, too: fuzzing, mutants, kills by the hundred
}

// suite is what the parts share.
type suite struct {
	Options
	root, temp string // the repository; a folder of this run
	site       string // the bundle that the browser tests look at, once made
	out        io.Writer
}

func (s *suite) log(sentence string) { fmt.Fprintln(s.out, "  "+sentence) }

// environ is the environment of tests. NEWEL_LONG has them try as much as --long promises; without
// it they try less of the same.
func (s *suite) environ() []string {
	return append(os.Environ(), s.longer()...)
}

func (s *suite) longer() []string {
	if s.Long {
		return []string{"NEWEL_LONG=1"}
	}
	return nil
}

// Run runs the parts that are asked for in the repository root, with temp as its scratch folder. It
// returns the totals.
func Run(ctx context.Context, root, temp string, options Options, out io.Writer) (Result, error) {
	if problems := tools.Check(ctx, root); len(problems) > 0 {
		return Result{}, errors.New(strings.Join(problems, "\n"))
	}
	s := &suite{Options: options, root: root, temp: temp, out: out}
	return s.runAll(ctx, allParts())
}

func (s *suite) runAll(ctx context.Context, parts []part) (Result, error) {
	var total Result
	var failed []part
	for _, p := range parts {
		if s.Only != "" && p.group != s.Only || p.long && !s.Long {
			continue
		}
		if err := ctx.Err(); err != nil {
			return total, errors.New("stopped")
		}
		r := s.runOne(ctx, p)
		total.Passed += r.Passed
		total.Failed += r.Failed
		if r.Failed > 0 {
			failed = append(failed, p)
		}
	}
	s.list(failed)
	return total, nil
}

func (s *suite) runOne(ctx context.Context, p part) Result {
	start := time.Now()
	r := p.run(ctx, s)
	if r.Passed+r.Failed == 0 {
		r.Failed = 1
		r.Problems = strings.TrimSpace("no test ran here\n" + r.Problems)
	}
	word := "ok    "
	if r.Failed > 0 {
		word = "FAILED"
	}
	fmt.Fprintf(s.out, "%s %-8s %-52s %4d passed %3d failed %7.1f s\n", word, p.group, p.name, r.Passed, r.Failed, time.Since(start).Seconds())
	if r.Failed > 0 {
		fmt.Fprintln(s.out, tools.Indent(r.Problems, "       | "))
	}
	return r
}

func (s *suite) list(failed []part) {
	if len(failed) == 0 {
		return
	}
	fmt.Fprintln(s.out, "\nfailed, and how to run just that:")
	for _, p := range failed {
		fmt.Fprintf(s.out, "  %s\n      %s\n", p.name, p.alone)
	}
}

// after runs a part once what it needs is installed. The need belongs to the
// part, so that a machine without browsers still runs everything else.
func after(need func(context.Context, *suite) error, run func(context.Context, *suite) Result) func(context.Context, *suite) Result {
	return func(ctx context.Context, s *suite) Result {
		if err := need(ctx, s); err != nil {
			return Result{Failed: 1, Problems: err.Error()}
		}
		return run(ctx, s)
	}
}

func modules(ctx context.Context, s *suite) error { return tools.NodeModules(ctx, s.root, s.log) }

func browsers(ctx context.Context, s *suite) error {
	if err := tools.Apt(ctx, "the browser tests", tools.Browsers, s.log); err != nil {
		return err
	}
	return modules(ctx, s)
}

func peers(ctx context.Context, s *suite) error {
	if err := tools.Apt(ctx, "the comparisons with other calendars", tools.Peers, s.log); err != nil {
		return err
	}
	return modules(ctx, s)
}

// gate turns a list of problems into the result of one check.
func gate(problems []string, err error) Result {
	if err != nil {
		return Result{Failed: 1, Problems: err.Error()}
	}
	if len(problems) > 0 {
		return Result{Failed: 1, Problems: strings.Join(problems, "\n")}
	}
	return Result{Passed: 1}
}
