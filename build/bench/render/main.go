// Command render times the demo page from plan to HTML and prints one line of
// JSON. The benchmark compiles it twice, natively and to WebAssembly, and runs
// the second in Node: the same program on both sides of the comparison.
//
//	render ROUNDS
package main

import (
	"encoding/json"
	"fmt"
	"os"
	"strconv"

	"newel/build/bench/timing"
	"newel/build/bench/work"
)

func main() {
	rounds, err := strconv.Atoi(os.Args[len(os.Args)-1])
	if err != nil || rounds < 1 {
		fmt.Fprintln(os.Stderr, "render needs the number of rounds")
		os.Exit(2)
	}
	render := work.Demo()
	json.NewEncoder(os.Stdout).Encode(map[string]any{
		"bytes": render(), "entries": work.Entries(), "ms": timing.Rounds(rounds, render),
	})
}
