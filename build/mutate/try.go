package mutate

import (
	"context"
	"errors"
	"os/exec"
	"strconv"
	"strings"
	"sync"
	"time"
)

// end is what became of a fault.
type end int

const (
	unreached end = iota // no test comes past it
	survived
	failed  // a test failed
	crashed // the tests' program panicked
	endless // it ran too long, or took too much memory
)

func (e end) caught() bool { return e >= failed }

// beside is how many test programs run beside each other.
const beside = 2

// tryAll tries each fault and gives what became of each.
func (t *trial) tryAll(ctx context.Context, mutants []Mutant) ([]end, error) {
	ends := make([]end, len(mutants))
	errs := make([]error, beside)
	next := make(chan int)
	var wait sync.WaitGroup
	for worker := range beside {
		wait.Go(func() {
			for i := range next {
				if errs[worker] == nil {
					ends[i], errs[worker] = t.try(ctx, mutants[i])
				}
			}
		})
	}
	for i := range mutants {
		next <- i
	}
	close(next)
	wait.Wait()
	return ends, errors.Join(errs...)
}

// batches parts the tests that come past a fault: quick ones together first,
// each batch longer than the one before, so that most faults cost little.
func (t *trial) batches(past []int) [][]test {
	var all [][]test
	var batch []test
	var sum time.Duration
	limit := 300 * time.Millisecond
	for _, i := range past {
		if len(batch) > 0 && sum+t.tests[i].time > limit {
			all, batch, sum = append(all, batch), nil, 0
			limit *= 3
		}
		batch = append(batch, t.tests[i])
		sum += t.tests[i].time
	}
	if len(batch) > 0 {
		all = append(all, batch)
	}
	return all
}

func (t *trial) try(ctx context.Context, m Mutant) (end, error) {
	if len(t.past[m.ID]) == 0 {
		return unreached, nil
	}
	for _, batch := range t.batches(t.past[m.ID]) {
		e, err := t.run(ctx, m.ID, batch)
		if err != nil || e.caught() {
			return e, err
		}
	}
	return survived, nil
}

// run runs some tests with one fault on.
func (t *trial) run(ctx context.Context, id int, batch []test) (end, error) {
	var names []string
	limit := 2 * time.Second
	for _, one := range batch {
		names = append(names, one.name)
		limit += 10 * one.time
	}
	c := t.command("-test.failfast", "-test.run=^("+strings.Join(names, "|")+")$", "-test.timeout=0")
	c.Env = append(c.Env, "NEWEL_MUTANT="+strconv.Itoa(id), "NEWEL_MUTANT_MS="+strconv.Itoa(int(limit.Milliseconds())))
	said, err := c.Run(ctx)
	var exit *exec.ExitError
	switch {
	case err == nil:
		return survived, nil
	case ctx.Err() != nil:
		return survived, ctx.Err()
	case strings.Contains(said, "MUTANT ENDLESS") || strings.Contains(said, "stack overflow"):
		return endless, nil
	case strings.Contains(said, "--- FAIL") && !strings.Contains(said, "\npanic: "):
		return failed, nil
	case errors.As(err, &exit) && exit.ExitCode() == 2: // what Go's runtime ends with
		return crashed, nil
	case errors.As(err, &exit) && exit.ExitCode() == 1:
		return failed, nil
	}
	return survived, err
}
