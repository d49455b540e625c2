// Package mutate asks whether the tests would notice: it makes small faults in
// a package (a "<" that should be "<=", a line left out, a number off by one),
// one at a time, and runs the tests against each. A fault that no test finds
// is a survivor: either a test is missing, or the fault changes nothing that
// anybody could see, and survivors.txt says why.
//
// Run is the entry point. All faults of a package are compiled in at once,
// each behind a number (operators.go, statements.go), so that a package is
// compiled once and not a thousand times; which one is on is told to the test
// program in its environment (inside.go.txt). A first round notes which test
// comes past which fault (record.go), so that a fault is tried only on tests
// that can notice it, the quick ones first (try.go).
//
// What is not tried: constants' declarations, the room that make is asked to
// set aside, words, the step of a for loop and its condition being always
// true (both only ever run forever), and anything that panics on purpose.
package mutate

import (
	"context"
	"fmt"
	"hash/fnv"
	"io"
	"os"
	"slices"
)

// Bar is the least share of faults that the tests of each package must catch,
// in percent. Survivors with a reason count against it all the same.
const Bar = 85

// Packages are those whose faults would mislead a family without a trace.
var Packages = []string{"core/schedule", "core/repeat", "core/split", "core/merge", "core/link"}

// Options narrow a run.
type Options struct {
	Every uint32 // take one in so many only; 0 and 1 are all
	Among string // a file with survivors' names: take only these
	Write string // a file to write the names of this run's survivors to
}

// Sample is how many faults Run takes one of: all are some nine thousand, and
// take two processors hours.
const Sample = 10

// takes says whether a fault is in the sample. Its name decides, and not its
// number, so that a line that is added changes the sample by that line only.
func (o Options) takes(name string) bool {
	hash := fnv.New32a()
	io.WriteString(hash, name)
	return o.Every < 2 || hash.Sum32()%o.Every == 0
}

// Run tries the sample of the packages' faults (folders under root) and gives
// what is wrong: a share under the bar, a survivor that survivors.txt does not
// give a reason for, a listed one that is caught or gone.
func Run(ctx context.Context, root string, packages []string, out io.Writer) ([]string, error) {
	return Try(ctx, root, packages, Options{Every: Sample}, out)
}

// Try is Run on other faults.
func Try(ctx context.Context, root string, packages []string, o Options, out io.Writer) ([]string, error) {
	list, problems, err := readList(root)
	if err != nil {
		return nil, err
	}
	among, err := readNames(o.Among)
	if err != nil {
		return nil, err
	}
	var survivors []string
	for _, folder := range packages {
		r, err := tryPackage(ctx, root, folder, func(name string) bool {
			return o.takes(name) && (among == nil || among[name])
		})
		if err != nil {
			return nil, err
		}
		fmt.Fprintln(out, r.line())
		survivors = append(survivors, r.survivors()...)
		problems = append(problems, r.judge(list, o.Among == "")...)
	}
	if o.Write != "" {
		if err := writeNames(o.Write, survivors); err != nil {
			return nil, err
		}
	}
	return problems, nil
}

// tryPackage makes the faults of one package and runs its tests against those that are wanted.
func tryPackage(ctx context.Context, root, folder string, wanted func(name string) bool) (report, error) {
	temp, err := os.MkdirTemp("", "newel-mutate-")
	if err != nil {
		return report{}, err
	}
	defer os.RemoveAll(temp)
	p, err := load(ctx, root, folder)
	if err != nil {
		return report{}, err
	}
	mutants, files := p.mutate()
	if len(mutants) == 0 {
		return report{}, fmt.Errorf("%s holds nothing in which a fault could be made", folder)
	}
	program, err := p.compile(ctx, temp, files)
	if err != nil {
		return report{}, err
	}
	t := &trial{dir: p.dir, program: program, temp: temp, rapid: p.rapid}
	if err := t.record(ctx, len(mutants)); err != nil {
		return report{}, err
	}
	r := report{folder: folder}
	for _, m := range mutants {
		r.all = append(r.all, m.Name())
		if wanted(m.Name()) {
			r.tried = append(r.tried, m)
		}
	}
	r.ends, err = t.tryAll(ctx, r.tried)
	return r, err
}

// report is what came of one package.
type report struct {
	folder string
	all    []string // the names of all its faults
	tried  []Mutant
	ends   []end
}

func (r report) survivors() []string {
	var names []string
	for i, m := range r.tried {
		if !r.ends[i].caught() {
			names = append(names, m.Name())
		}
	}
	return names
}

// share is the part that was caught, in percent.
func (r report) share() float64 {
	if len(r.tried) == 0 {
		return 100
	}
	return 100 * float64(len(r.tried)-len(r.survivors())) / float64(len(r.tried))
}

func (r report) line() string {
	count := map[end]int{}
	for _, e := range r.ends {
		count[e]++
	}
	return fmt.Sprintf("%-14s %5d of %d faults tried: %4d failed a test, %3d crashed, %3d ran too long or too large; %3d survived (%d of these in lines no test comes past): %.1f %% caught",
		r.folder, len(r.tried), len(r.all), count[failed], count[crashed], count[endless],
		count[survived]+count[unreached], count[unreached], r.share())
}

// judge holds the survivors against the list.
func (r report) judge(list map[string]string, whole bool) []string {
	var problems []string
	if whole && r.share() < Bar {
		problems = append(problems, fmt.Sprintf("%s: its tests catch %.1f %% of the faults, and at least %d %% must be: write tests for its survivors", r.folder, r.share(), Bar))
	}
	survivors := r.survivors()
	for _, name := range survivors {
		if list[name] == "" {
			problems = append(problems, "no test notices this, and "+listFile+" gives no reason why: "+name)
		}
	}
	for _, m := range r.tried {
		if list[m.Name()] != "" && !slices.Contains(survivors, m.Name()) {
			problems = append(problems, "a test notices this now: take it from "+listFile+": "+m.Name())
		}
	}
	return append(problems, r.gone(list)...)
}
