// Command desk times a table of a thousand patients, read, made and written, and prints one
// line of JSON. The benchmark compiles it twice, natively and to WebAssembly, and runs the
// second in Node.
//
//	desk ROUNDS
package main

import (
	"encoding/json"
	"fmt"
	"os"
	"strconv"

	"newel/build/bench/desk/rows"
	"newel/build/bench/timing"
)

func main() {
	rounds, err := strconv.Atoi(os.Args[len(os.Args)-1])
	if err != nil || rounds < 1 {
		fmt.Fprintln(os.Stderr, "desk needs the number of rounds")
		os.Exit(2)
	}
	text := rows.Text()
	bytes, states := rows.All(text)
	json.NewEncoder(os.Stdout).Encode(map[string]any{
		"bytes": bytes, "states": states, "text": text,
		"ms": timing.Rounds(rounds, func() int { n, _ := rows.All(text); return n }),
	})
}
