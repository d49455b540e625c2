package mutate

import (
	"context"
	_ "embed"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"newel/build/tools"
)

// inside is what is compiled into the package beside its faults.
//
//go:embed inside.go.txt
var inside string

// compile makes the package's test program with all its faults in it. The go
// command is told to read our files in place of the package's (-overlay).
func (p *pkg) compile(ctx context.Context, temp string, files map[string]string) (string, error) {
	replace := map[string]string{}
	put := func(name, text string) error {
		replace[filepath.Join(p.dir, name)] = filepath.Join(temp, name)
		return os.WriteFile(filepath.Join(temp, name), []byte(text), 0o644)
	}
	for name, text := range files {
		if err := put(name, text); err != nil {
			return "", err
		}
	}
	if err := put("mutants_inside.go", strings.Replace(inside, "PACKAGE", p.types.Name(), 1)); err != nil {
		return "", err
	}
	overlay := filepath.Join(temp, "overlay.json")
	data, err := json.Marshal(map[string]any{"Replace": replace})
	if err != nil {
		return "", err
	}
	if err := os.WriteFile(overlay, data, 0o644); err != nil {
		return "", err
	}
	program := filepath.Join(temp, "tests")
	_, err = tools.Command{
		Step: "compiling the tests of " + p.folder + " with faults in it", Dir: p.root, Env: tools.CleanEnv(), Name: "go",
		Args:   []string{"test", "-c", "-vet=off", "-overlay=" + overlay, "-o=" + program, "./" + p.folder},
		Advice: "when go test compiles the package as it is, build/mutate has written something that is no Go: mend it there",
	}.Run(ctx)
	return program, err
}

// test is one test function of the package.
type test struct {
	name string
	time time.Duration // of a run without a fault
}

// trial runs one package's test program.
type trial struct {
	dir, program, temp string
	rapid              bool
	tests              []test  // the quickest first
	past               [][]int // by a fault's number: the tests that come past it
}

// record runs each test by itself, without a fault, and notes what it comes past.
func (t *trial) record(ctx context.Context, faults int) error {
	names, err := t.command("-test.list=.").Stdout(ctx)
	if err != nil {
		return err
	}
	past := map[string][]int{}
	for _, name := range strings.Fields(names) {
		if strings.HasPrefix(name, "Benchmark") {
			continue
		}
		took, ids, err := t.once(ctx, name, faults)
		if err != nil {
			return err
		}
		t.tests = append(t.tests, test{name, took})
		past[name] = ids
	}
	slices.SortStableFunc(t.tests, func(a, b test) int { return int(a.time - b.time) })
	t.past = make([][]int, faults+1)
	for i, one := range t.tests {
		for _, id := range past[one.name] {
			t.past[id] = append(t.past[id], i)
		}
	}
	return nil
}

// once runs one test and gives how long it took and the faults that it comes past.
func (t *trial) once(ctx context.Context, name string, faults int) (time.Duration, []int, error) {
	seen := filepath.Join(t.temp, "seen-"+name)
	c := t.command("-test.run=^" + name + "$")
	c.Env = append(c.Env, "NEWEL_MUTANTS_SEEN="+seen)
	start := time.Now()
	if _, err := c.Run(ctx); err != nil {
		return 0, nil, fmt.Errorf("a test fails without any fault: %w", err)
	}
	took := time.Since(start)
	data, err := os.ReadFile(seen)
	if err != nil {
		return 0, nil, err
	}
	var ids []int
	for _, word := range strings.Fields(string(data)) {
		id, err := strconv.Atoi(word)
		if err != nil || id < 1 || id > faults {
			return 0, nil, fmt.Errorf("%s noted %q, which is no fault's number", seen, word)
		}
		ids = append(ids, id)
	}
	return took, ids, nil
}

// command is a run of the test program. What is drawn at random is the same in
// each, so that a fault is found by what finds it and not by luck.
func (t *trial) command(args ...string) tools.Command {
	// What draws at random draws half as much: a fault that is caught so is caught by the whole.
	args = append(args, "-test.short")
	if t.rapid {
		args = append(args, "-rapid.seed=1", "-rapid.nofailfile", "-rapid.shrinktime=0s")
	}
	// One processor a program, since two programs run beside each other.
	env := append(tools.CleanEnv(), "GOMAXPROCS=1", "GOGC=400")
	return tools.Command{Step: "the tests in " + t.dir, Dir: t.dir, Env: env, Name: t.program, Args: args}
}
