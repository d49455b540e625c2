// Command near is the near core as a program of the machine's own: it answers the requests that
// come as gob (encoding/gob) on standard input, all of them as one list, and writes the list of
// the answers, each as the page gets it (app.WriteResponse). Compiled with the tag "near" it has what the near core has, and no more.
package main

import (
	"encoding/gob"
	"fmt"
	"os"

	"newel/core/app"
)

func main() {
	if err := answer(); err != nil {
		fmt.Fprintln(os.Stderr, "near:", err)
		os.Exit(1)
	}
}

func answer() error {
	var requests []app.Request
	if err := gob.NewDecoder(os.Stdin).Decode(&requests); err != nil {
		return fmt.Errorf("the requests cannot be read: %w", err)
	}
	answers := make([][]byte, len(requests))
	for i, r := range requests {
		if r.Kept == nil {
			r.Kept = map[string]string{} // gob leaves an empty map out
		}
		answers[i] = app.WriteResponse(app.Near(r))
	}
	return gob.NewEncoder(os.Stdout).Encode(answers)
}
