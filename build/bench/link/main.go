// Command link times reading and writing the link of the family's plan with its stamps and
// prints one line of JSON. The benchmark compiles it twice, natively and to WebAssembly, and
// runs the second in Node.
//
//	link ROUNDS
package main

import (
	"encoding/json"
	"fmt"
	"os"
	"strconv"

	"newel/build/bench/link/families"
	"newel/build/bench/timing"
	"newel/core/link"
)

func main() {
	rounds, err := strconv.Atoi(os.Args[len(os.Args)-1])
	if err != nil || rounds < 1 {
		fmt.Fprintln(os.Stderr, "link needs the number of rounds")
		os.Exit(2)
	}
	all := families.All()
	doc := all[len(all)-1].Doc
	fragment := link.Encode(doc)
	json.NewEncoder(os.Stdout).Encode(map[string]any{
		"fragment": fragment,
		"encode":   timing.Rounds(rounds, func() int { return len(link.Encode(doc)) }),
		"decode":   timing.Rounds(rounds, func() int { return registers(fragment) }),
	})
}

// registers reads the link and the plan in it, as the page does when it is opened.
func registers(fragment string) int {
	d, err := link.Decode(fragment)
	if err != nil {
		panic(err)
	}
	return len(d.Plan().Duties)
}
