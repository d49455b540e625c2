// Command occurrences times listing the dates of a family's repeating rules and prints
// one line of JSON. The benchmark compiles it twice, natively and to WebAssembly, and
// runs the second in Node.
//
//	occurrences ROUNDS
package main

import (
	"encoding/json"
	"fmt"
	"os"
	"strconv"
	"time"

	"newel/build/bench/dates"
	"newel/build/bench/timing"
)

func main() {
	rounds, err := strconv.Atoi(os.Args[len(os.Args)-1])
	if err != nil || rounds < 1 {
		fmt.Fprintln(os.Stderr, "occurrences needs the number of rounds")
		os.Exit(2)
	}
	rules, loc, err := dates.Rules(dates.Lines())
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	n, sum := dates.List(rules, loc)
	_, wall := dates.List(rules, time.UTC)
	json.NewEncoder(os.Stdout).Encode(map[string]any{
		"dates": n, "sum": sum, "wall": wall,
		"ms": timing.Rounds(rounds, func() int { found, _ := dates.List(rules, loc); return found }),
	})
}
