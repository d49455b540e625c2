package suite

import (
	"context"
	"strings"
	"time"

	"newel/build/fuzz"
	"newel/build/mutate"
)

// eachTarget is how long one reader is fed with what a program makes up (the figure).
const eachTarget = 10 * time.Minute

// fuzzed feeds every reader of a stranger's text. One target is one check.
func fuzzed(ctx context.Context, s *suite) Result {
	targets, err := fuzz.Targets(s.root)
	if err != nil {
		return gate(nil, err)
	}
	if err := fuzz.Run(ctx, s.root, eachTarget, s.out); err != nil {
		return gate(nil, err)
	}
	return Result{Passed: len(targets)}
}

// mutated asks whether the tests notice small faults in the core.
func mutated(ctx context.Context, s *suite) Result {
	problems, err := mutate.Run(ctx, s.root, mutate.Packages, s.out)
	if err != nil {
		return gate(nil, err)
	}
	if len(problems) > 0 {
		return Result{Failed: len(problems), Problems: strings.Join(problems, "\n")}
	}
	return Result{Passed: len(mutate.Packages)}
}
