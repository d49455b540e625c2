// Command split times the solver of core/assign on a family's file and prints one line of
// JSON for each file, a Report. The benchmark compiles it to WebAssembly and runs it in
// Node, natively too.
//
//	split ROUNDS FILE…
package main

import (
	"encoding/json"
	"fmt"
	"os"
	"strconv"

	"newel/build/bench/split/families"
	"newel/build/bench/split/stages"
	"newel/build/bench/timing"
	"newel/core/assign"
)

func main() {
	if err := run(os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(2)
	}
}

func run(words []string) error {
	if len(words) < 2 {
		return fmt.Errorf("split needs the number of rounds and the families' files")
	}
	rounds, err := strconv.Atoi(words[0])
	if err != nil || rounds < 1 {
		return fmt.Errorf("%q is no number of rounds: give one from 1", words[0])
	}
	for _, name := range words[1:] {
		text, err := os.ReadFile(name)
		if err != nil {
			return err
		}
		p, err := families.Read(string(text))
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		if err := json.NewEncoder(os.Stdout).Encode(report(p, rounds)); err != nil {
			return err
		}
	}
	return nil
}

// report times every stage of one problem.
func report(p *assign.Problem, rounds int) stages.Report {
	r := stages.Report{Answer: assign.Solve(p, assign.Options{})}
	for _, stage := range stages.All {
		r.Ms = append(r.Ms, timing.Rounds(rounds, func() int {
			return assign.Solve(p, assign.Options{Until: stage.Until}).Work
		}))
	}
	return r
}
