// Package fuzz runs every fuzz target of the repository, one after the other, each for as long as is said.
//
// Targets finds them: they are the functions of tests that Go calls by the name Fuzz…, so a new one needs no
// list. Run runs them: with one worker, since the watch over loops (build/hostile) has to mean the same
// on a busy machine. What Go finds it writes below testdata/fuzz of the package; committed with the mend, it is
// tried again in every ordinary test.
package fuzz

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"time"

	"newel/build/tools"
)

// Target is one function, in a package's folder below the root.
type Target struct{ Dir, Name string }

var (
	declared = regexp.MustCompile(`(?m)^func (Fuzz[A-Z]\w*)\(\w+ \*testing\.F\)`)
	progress = regexp.MustCompile(`execs: (\d+)`)
	baseline = regexp.MustCompile(`gathering baseline coverage: (\d+)/`)
)

// Targets lists the fuzz targets below root, by folder and name.
func Targets(root string) ([]Target, error) {
	names, err := tools.Sources(root)
	if err != nil {
		return nil, err
	}
	var all []Target
	for _, name := range names {
		if !strings.HasSuffix(name, "_test.go") {
			continue
		}
		text, err := os.ReadFile(filepath.Join(root, name))
		if err != nil {
			return nil, err
		}
		for _, m := range declared.FindAllSubmatch(text, -1) {
			all = append(all, Target{filepath.Dir(name), string(m[1])})
		}
	}
	slices.SortFunc(all, func(a, b Target) int { return strings.Compare(a.Dir+" "+a.Name, b.Dir+" "+b.Name) })
	return all, nil
}

// Run fuzzes each target for a time and writes a line on each to out. The error names those that failed, with
// what Go said; the others are run all the same. A target that tried nothing has failed.
func Run(ctx context.Context, root string, each time.Duration, out io.Writer) error {
	targets, err := Targets(root)
	if err != nil {
		return err
	}
	return run(ctx, root, targets, each, out)
}

func run(ctx context.Context, root string, targets []Target, each time.Duration, out io.Writer) error {
	if len(targets) == 0 {
		return errors.New("there are no fuzz targets below " + root)
	}
	var failed []error
	for _, t := range targets {
		if ctx.Err() != nil {
			return errors.Join(append(failed, errors.New("stopped before "+t.Name))...)
		}
		tried, err := one(ctx, root, t, each)
		word := "ok    "
		if err != nil {
			word = "FAILED"
			failed = append(failed, err)
		}
		fmt.Fprintf(out, "%s %-40s %9d tried in %v\n", word, t.Dir+" "+t.Name, tried, each)
	}
	return errors.Join(failed...)
}

// one runs one target and says how many inputs it tried.
func one(ctx context.Context, root string, t Target, each time.Duration) (tried int, err error) {
	said, err := tools.Command{
		Step: "fuzzing " + t.Dir + " " + t.Name, Dir: root, Env: tools.CleanEnv(), Name: "go",
		// Making what it found shorter would take a minute for each; ten tries are enough to read it.
		Args:   []string{"test", "./" + t.Dir, "-run=^$", "-fuzz=^" + t.Name + "$", "-fuzztime=" + each.String(), "-fuzzminimizetime=10x", "-parallel=1", "-timeout=0"},
		Advice: "run the input that it names as an ordinary test, mend the fault, and commit the input below testdata/fuzz",
	}.Run(ctx)
	for _, found := range []*regexp.Regexp{progress, baseline} {
		for _, m := range found.FindAllStringSubmatch(said, -1) {
			var n int
			if _, scanned := fmt.Sscan(m[1], &n); scanned == nil {
				tried = max(tried, n)
			}
		}
	}
	if err == nil && tried == 0 {
		err = errors.New("fuzzing " + t.Dir + " " + t.Name + " tried nothing: " + tools.Tail(said, 5))
	}
	return tried, err
}
