package calendar

import "testing"

// repeats is how often a random test is repeated. As WebAssembly (go test -short) it is a
// third: what differs there is the machine, not the cases.
func repeats(n int) int {
	if testing.Short() {
		return n / 3
	}
	return n
}
